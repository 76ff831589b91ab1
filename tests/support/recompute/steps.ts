import { compare, Decimal, milligrams, ONE, sumOf, toMilligram, ZERO } from "./figures.js";
import { classOf, dishNamed, originOf, stepNamed } from "./lots.js";
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
  const isOfFood = ({ from }: AskedStep): boolean => from.every((part) => classOf(part, plan) === "food");
  const notFood = ({ gives, loss, water }: AskedStep): Decimal => {
    const scraps = sumOf(
      gives.filter(({ part }) => classOf(part, plan) !== "food"),
      ({ fraction }) => fraction,
    );
    return Decimal.min(1, scraps.plus(Decimal.max(0, new Decimal(loss).minus(water))));
  };
  const all = notFood(step);
  if (!isOfFood(step)) return { all: ZERO, beyond: ZERO };
  const others = plan.asked.steps.filter(
    (other) =>
      isOfFood(other) &&
      other.gives[0]?.part === step.gives[0]?.part &&
      step.from.every((part) => other.from.includes(part)),
  );
  return { all, beyond: all.minus(Decimal.min(all, ...others.map(notFood))) };
}

/** The most, over every choice of the step's sources, that was worked of them beyond what needed any of them worked. */
function lostIn(step: AskedStep, lot: PrintedLot, plan: PrintedPlan): Decimal {
  const { all, beyond } = takenOff(step, plan);
  const isOf = (other: PrintedLot): boolean => originOf(other) === originOf(lot);
  const into = worksInto(step, plan);
  const kept = plan.leftovers.filter((left) => left.end === "kept" && left.kind === "part" && isOf(left));
  const preps = plan.preps.filter((prep) => isOf(prep) && prep.step === step.step);
  const asItIs = (index: number): readonly string[] =>
    plan.waste.needless.flatMap(({ going, steps, sources }) =>
      going === index ? (sources[steps.indexOf(step.step)] ?? []) : [],
    );
  let choices: string[][] = [[]];
  for (const part of step.from) choices = choices.flatMap((some) => [some, [...some, part]]);
  const over = choices.map((chosen) => {
    const needing = [...plan.goings.entries()]
      .filter(([index, going]) => isOf(going) && !chosen.every((part) => asItIs(index).includes(part)))
      .map(([, going]) => going);
    const needed = into.map((stands) =>
      sumOf([...needing, ...kept], ({ part, weight }) =>
        toMilligram((stands.get(part) ?? ZERO).times(weight)),
      ),
    );
    const worked = preps.filter(({ from }) => chosen.includes(from));
    return sumOf(worked, ({ weight }) => weight).minus(Decimal.max(0, ...needed));
  });
  const taken = sumOf(preps, ({ weight }) => weight);
  return taken.times(beyond).plus(Decimal.max(0, ...over).times(all.minus(beyond)));
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

/** A line could have had sources as they were only where it takes them, and states no share of what it was given. */
function needlessFaults(plan: PrintedPlan): string[] {
  return plan.waste.needless.flatMap(({ going: index, steps, sources }) => {
    const going = plan.goings[index];
    if (going === undefined) return [`needless of going ${index}: there is no such going`];
    const line = dishNamed(going.dish, plan)?.lines[going.lineNumber - 1]?.from ?? [];
    const own = line.find(({ part }) => part === going.part);
    return steps
      .filter((name, position) => {
        const step = stepNamed(name, plan);
        const isBehind = step !== undefined && worksInto(step, plan).some((stands) => stands.has(going.part));
        const asItIs = sources[position] ?? [];
        const isTaken =
          asItIs.length > 0 &&
          asItIs.every(
            (source) =>
              step?.from.includes(source) &&
              line.some(({ part, mostShare }) => part === source && ONE.lessThanOrEqualTo(mostShare)),
          );
        return !isBehind || !isTaken || !ZERO.equals(own?.leastShare ?? 0);
      })
      .map((name) => `needless of going ${index}: ${going.dish} needs ${name}`);
  });
}
