import { compare, Decimal, milligrams, ONE, sumOf, toMilligram, ZERO } from "./figures.js";
import { classOf, dishNamed, foodGiven, originOf, stepNamed } from "./lots.js";
import type { AskedStep, PrintedLot, PrintedPlan } from "./printed.js";

/** Food lost in steps: beyond another step for the same thing, and where what a step gave was not needed. */
export function stepFaults(plan: PrintedPlan): string[] {
  const { preps, waste } = plan;
  const keyOf = (step: string, lot: PrintedLot): string => `${step}, ${originOf(lot)}`;
  const worked = new Map(preps.map((prep) => [keyOf(prep.step, prep), prep]));
  const stated = new Set(waste.lostInSteps.map((each) => keyOf(each.step, each)));
  return [
    ...[...stated]
      .filter((key) => !worked.has(key))
      .map((key) => `food lost in ${key}: is stated where it was not worked`),
    ...[...worked].flatMap(([key, { step: name, ...lot }]) => {
      const step = stepNamed(name, plan);
      const printed = waste.lostInSteps.filter((each) => keyOf(each.step, each) === key);
      return step === undefined
        ? []
        : compare(
            `food lost in ${key}`,
            sumOf(printed, ({ lostFood }) => lostFood).toString(),
            lostIn(step, lot, plan),
            milligrams(2),
          );
    }),
    ...needlessFaults(plan),
  ];
}

/** What a step takes off a weight of food: all of it, and beyond the least that a step for the same thing does. */
function takenOff(step: AskedStep, plan: PrintedPlan): { all: Decimal; beyond: Decimal } {
  const notFood = (each: AskedStep): Decimal => Decimal.max(0, ONE.minus(foodGiven(each, plan)));
  const all = notFood(step);
  if (step.from.some((part) => classOf(part, plan) !== "food")) return { all: ZERO, beyond: ZERO };
  const others = plan.asked.steps.filter(
    (other) =>
      other.gives[0]?.part === step.gives[0]?.part && other.from.some((part) => step.from.includes(part)),
  );
  return { all, beyond: all.minus(Decimal.min(all, ...others.map(notFood))) };
}

function lostIn(step: AskedStep, lot: PrintedLot, plan: PrintedPlan): Decimal {
  const { all, beyond } = takenOff(step, plan);
  const isOf = (other: PrintedLot): boolean => originOf(other) === originOf(lot);
  const into = worksInto(step, plan);
  const goings = [...plan.goings.entries()].filter(([, going]) => isOf(going));
  const kept = plan.leftovers.filter((left) => left.end === "kept" && left.kind === "part" && isOf(left));
  const preps = plan.preps.filter(isOf);
  const isNeedless = (index: number): boolean =>
    plan.waste.needless.some(({ going, steps }) => going === index && steps.includes(step.step));
  const used = [...goings.filter(([index]) => !isNeedless(index)).map(([, going]) => going), ...kept];
  const needed = into.map((stands) =>
    sumOf(used, ({ part, weight }) => toMilligram((stands.get(part) ?? ZERO).times(weight))),
  );
  const taken = sumOf(
    preps.filter((prep) => prep.step === step.step),
    ({ weight }) => weight,
  );
  const moved = [...goings.map(([, { part }]) => part), ...kept.map(({ part }) => part)];
  const movements = [...moved, ...preps.map(({ from }) => from)].filter(
    (part) => step.from.includes(part) || into.some((stands) => stands.has(part)),
  );
  const over = Decimal.max(0, taken.minus(Decimal.max(0, ...needed)));
  const isRounding = over.lessThanOrEqualTo(new Decimal(plan.asked.scaleStep).times(movements.length));
  return taken.times(beyond).plus((isRounding ? ZERO : over).times(all.minus(beyond)));
}

/** Of each thing that a step gives, it and what steps make of it, with the most that a weight of each stands for. */
export function worksInto(step: AskedStep, { asked }: PrintedPlan): ReadonlyMap<string, Decimal>[] {
  return step.gives.map((given) => {
    const stands = new Map<string, Decimal>();
    const follow = (part: string, fraction: string, taken: Decimal): void => {
      if (new Decimal(fraction).isZero()) return;
      const each = taken.div(fraction);
      if (each.lessThanOrEqualTo(stands.get(part) ?? 0)) return;
      stands.set(part, each);
      for (const { from, gives } of asked.steps)
        if (from.includes(part)) for (const made of gives) follow(made.part, made.fraction, each);
    };
    follow(given.part, given.fraction, ONE);
    return stands;
  });
}

/** A line could have done without a step only where it takes what the step was worked on, with no share against it. */
function needlessFaults(plan: PrintedPlan): string[] {
  return plan.waste.needless.flatMap(({ going: index, steps }) => {
    const going = plan.goings[index];
    if (going === undefined) return [`needless of going ${index}: there is no such going`];
    const sources = dishNamed(going.dish, plan)?.lines[going.lineNumber - 1]?.from ?? [];
    const own = sources.find(({ part }) => part === going.part);
    return steps
      .filter((name) => {
        const step = stepNamed(name, plan);
        const isBehind = step !== undefined && worksInto(step, plan).some((stands) => stands.has(going.part));
        const isTaken = sources.some(
          ({ part, mostShare }) => step?.from.includes(part) && ONE.lessThanOrEqualTo(mostShare),
        );
        return !isBehind || !isTaken || !ZERO.equals(own?.leastShare ?? 0);
      })
      .map((name) => `needless of going ${index}: ${going.dish} needs ${name}`);
  });
}
