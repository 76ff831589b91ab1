import { atMost, compare, Decimal, milligrams, ONE, sumOf, type Value, ZERO } from "./figures.js";
import { beforeWorking, classOf, dishNamed, goingsInto, isAsFound, portionsWeigh } from "./lots.js";
import type { Asked, Gives, PrintedLeft, PrintedPlan } from "./printed.js";

/** Where what is over goes: what destinations take and how much, and what may be kept. */
export function endFaults(plan: PrintedPlan): string[] {
  return [
    ...plan.leftovers.flatMap((left) => takenFaults(left, plan)),
    ...portionFaults(plan),
    ...destinationFaults(plan),
    ...keepFaults(plan),
    ...bookedFaults(plan),
  ];
}

function takenFaults({ part, kind, end, destination: name }: PrintedLeft, plan: PrintedPlan): string[] {
  const destination = plan.asked.destinations.find((each) => each.destination === name);
  if (kind === "part" ? end !== "sent" : kind !== "portions") return [];
  if (destination === undefined) return [`${name}: no destination is so named`];
  const { takes } = destination;
  const isFood = classOf(part, plan) === "food";
  const isTaken =
    kind === "portions"
      ? takes.portions
      : destination.end === "given away"
        ? isFood && takes.food
        : (isFood ? takes.food : takes.inedible) && !isPoisonForAnimals(part, name, plan);
  return isTaken ? [] : [`${name}: does not take ${part}`];
}

function isPoisonForAnimals(part: string, name: string, plan: PrintedPlan): boolean {
  const kind = plan.destinations.find((destination) => destination.name === name)?.kind;
  return kind === "animal feed" && classOf(part, plan) === "never";
}

/** Single portions are not cooked to be wasted; whole batches may leave some over. */
function portionFaults(plan: PrintedPlan): string[] {
  const bins = plan.asked.destinations
    .filter(({ end }) => end === "waste")
    .map(({ destination }) => destination);
  return plan.dishes
    .filter(
      ({ dish, spareTo }) =>
        dishNamed(dish, plan)?.batch === null &&
        spareTo.some(({ destination, portions }) => portions > 0 && bins.includes(destination)),
    )
    .map(({ dish, service }) => `${dish} @ ${service}: is cooked to be wasted`);
}

/** What is given away counts as it was before working, portions as they are; half a step of the scale for each going. */
function destinationFaults(plan: PrintedPlan): string[] {
  const halfStep = new Decimal(plan.asked.scaleStep).div(2);
  return plan.asked.destinations.flatMap(({ destination: name, end, limit }) => {
    const parts = sumOf(
      plan.leftovers.filter((left) => left.kind === "part" && left.destination === name),
      (left) => (end === "given away" ? beforeWorking(left.part, left, plan) : ONE).times(left.weight),
    );
    const cookings = plan.dishes.flatMap((dish) => {
      const spare = sumOf(
        dish.spareTo.filter(({ destination }) => destination === name),
        ({ portions }) => portions,
      );
      return spare.isZero()
        ? []
        : [
            {
              weight: portionsWeigh(dish, spare),
              slack: halfStep.times(goingsInto(dish, plan)).plus(milligrams(1)),
            },
          ];
    });
    return atMost(
      `limit of ${name}`,
      parts.plus(sumOf(cookings, ({ weight }) => weight)),
      limit,
      sumOf(cookings, ({ slack }) => slack),
    );
  });
}

/** Parts are kept as found, or for a named use up to its limit, and while they are good; items until the end. */
function keepFaults(plan: PrintedPlan): string[] {
  const kept = plan.leftovers.filter(({ end }) => end === "kept");
  const last = plan.services.at(-1);
  return [
    ...plan.asked.parts.flatMap(({ part: name, keep }) => {
      const own = kept.filter((left) => left.kind === "part" && left.part === name);
      return atMost(
        `kept of ${name}`,
        sumOf(
          own.filter((left) => !isAsFound(name, left, plan)),
          ({ weight }) => weight,
        ),
        keep?.limit ?? 0,
      );
    }),
    ...kept
      .filter(({ useBy }) => useBy !== null && useBy <= (last?.date ?? ""))
      .map(({ part, useBy }) => `${part}: is kept past ${useBy}`),
    ...kept
      .filter(({ kind, service }) => kind === "item" && service !== last?.name)
      .map(({ part, service }) => `${part}: is kept at ${service}, before the end`),
  ];
}

/** What is over is booked as it is stated, by what it is of and where it goes; binned items as their best cut's parts. */
function bookedFaults({ leftovers, transfers, asked }: PrintedPlan): string[] {
  const stated = new Map<string, Decimal>();
  const booked = new Map<string, Decimal>();
  const add = (to: Map<string, Decimal>, key: string, weight: Value): void => {
    to.set(key, (to.get(key) ?? ZERO).plus(weight));
  };
  for (const { part, kind, end, destination, weight } of leftovers) {
    if (end !== "binned")
      add(stated, `${kind === "portions" ? "dish" : kind}:${part} to ${destination}`, weight);
    else
      for (const { part: given, fraction } of bestCut(part, asked))
        add(stated, `part:${given} binned`, new Decimal(weight).times(fraction));
  }
  for (const { from, to, weight, cause } of transfers) {
    if (!/^(part|dish|item):/.test(from) || !/^(wastedFood|inedible|givenAway|closingStock)/.test(to))
      continue;
    if (!cause.startsWith("binned")) add(booked, `${from} to ${to.slice(to.indexOf(":") + 1)}`, weight);
    else if (from.startsWith("part:")) add(booked, `${from} binned`, weight);
  }
  return [...new Set([...stated.keys(), ...booked.keys()])].flatMap((key) =>
    compare(
      `left over of ${key}`,
      (stated.get(key) ?? ZERO).toString(),
      booked.get(key) ?? ZERO,
      key.endsWith(" binned") ? milligrams(leftovers.length) : 0,
    ),
  );
}

/** What the breakdown with most food gives, of those alike the one with least that is none. */
function bestCut(name: string, { items, parts }: Asked): Gives {
  const kinds = new Map(parts.map((part) => [part.part, part.class]));
  const food = ({ gives }: { readonly gives: Gives }, isFood: boolean): Decimal =>
    sumOf(
      gives.filter(({ part }) => (kinds.get(part) === "food") === isFood),
      ({ fraction }) => fraction,
    );
  const ways = items.find(({ item }) => item === name)?.breakdowns ?? [];
  const [best] = [...ways].sort(
    (a, b) => food(b, true).comparedTo(food(a, true)) || food(a, false).comparedTo(food(b, false)),
  );
  return best?.gives ?? [];
}
