import { compare, Decimal, milligrams, sumOf, toMilligram, ZERO } from "./figures.js";
import { itemNamed, originOf, serviceAt, stepNamed } from "./lots.js";
import type { Gives, PrintedLot, PrintedPart, PrintedPlan } from "./printed.js";

/** Cuts and steps give what they are stated to, and every item and lot gives out what it takes in. */
export function flowFaults(plan: PrintedPlan): string[] {
  return [
    ...plan.cuts.flatMap(({ item: name, breakdown, service, weight, parts, loss }) => {
      const what = `cut of ${name} for ${service}`;
      const way = itemNamed(name, plan)?.breakdowns.find((each) => each.breakdown === breakdown);
      if (way === undefined) return [`${what}: ${breakdown} is no way to cut it`];
      return yieldFaults(what, new Decimal(weight), parts, way.gives, loss);
    }),
    ...plan.preps.flatMap((prep) => {
      const what = `${prep.step} for ${prep.service}`;
      const step = stepNamed(prep.step, plan);
      if (step === undefined) return [`${what}: no step is so named`];
      const water = toMilligram(new Decimal(prep.weight).times(step.water));
      return [
        ...(step.from.includes(prep.from) ? [] : [`${what}: does not take ${prep.from}`]),
        ...compare(`${what} water`, prep.water, water),
        ...yieldFaults(what, new Decimal(prep.weight), prep.parts, step.gives, prep.loss, prep.water),
      ];
    }),
    ...unitFaults(plan),
    ...itemFaults(plan),
    ...lotFaults(plan),
  ];
}

/** To the milligram that splitting without loss allows, and nothing of it unaccounted for. */
function yieldFaults(
  what: string,
  weight: Decimal,
  parts: readonly PrintedPart[],
  gives: Gives,
  loss: string,
  water = "0",
): string[] {
  const named = (list: readonly { readonly part: string }[]): string =>
    list.map(({ part }) => part).join(", ");
  if (named(parts) !== named(gives)) return [`${what}: gives ${named(parts)}, not ${named(gives)}`];
  return [
    ...gives.flatMap(({ part, fraction }, index) =>
      compare(`${what} ${part}`, parts[index]?.weight ?? 0, weight.times(fraction), milligrams(1)),
    ),
    ...compare(`${what} loss`, loss, weight.plus(water).minus(sumOf(parts, (each) => each.weight))),
  ];
}

function unitFaults(plan: PrintedPlan): string[] {
  const ends = plan.leftovers.filter(({ kind }) => kind === "item");
  return [...plan.cuts, ...ends.map((end) => ({ ...end, item: end.part }))].flatMap(
    ({ item, units, weight }) =>
      units === null
        ? []
        : compare(
            `weight of ${item}`,
            weight,
            new Decimal(itemNamed(item, plan)?.unitWeight ?? 0).times(units),
          ),
  );
}

/** Nothing is cut before it is there, and nothing is left. */
function itemFaults(plan: PrintedPlan): string[] {
  return plan.asked.items.flatMap(({ item: name }) => {
    const ofIt = <T extends { readonly service: string | null; readonly weight: string }>(
      list: readonly T[],
      after: number,
    ): Decimal =>
      sumOf(
        list.filter(({ service }) => serviceAt(service, plan) <= after),
        ({ weight }) => weight,
      );
    const held = sumOf(
      plan.onHand.filter((entry) => entry.kind === "item" && entry.name === name),
      ({ weight }) => weight,
    );
    const stock = plan.services.map((_, after) =>
      held
        .plus(
          ofIt(
            plan.purchases.filter(({ item }) => item === name),
            after,
          ),
        )
        .minus(
          ofIt(
            plan.cuts.filter(({ item }) => item === name),
            after,
          ),
        )
        .minus(
          ofIt(
            plan.leftovers.filter(({ kind, part }) => kind === "item" && part === name),
            after,
          ),
        ),
    );
    return [
      ...stock.flatMap((weight, after) =>
        weight.isNegative()
          ? [`stock of ${name} after ${plan.services[after]?.name}: is ${weight}, below nothing`]
          : [],
      ),
      ...compare(`stock of ${name} in the end`, 0, stock.at(-1) ?? ZERO),
    ];
  });
}

/** Each lot in all, and what is used of it by each service: no more than is there, but for a step of the scale each. */
function lotFaults(plan: PrintedPlan): string[] {
  const lots = new Map<string, { at: number; weight: Decimal; isUse: boolean }[]>();
  const last = plan.services.length - 1;
  const move = (part: string, lot: PrintedLot, at: number, weight: Decimal, isUse: boolean): void => {
    const key = `${part}, ${originOf(lot)}`;
    lots.set(key, [...(lots.get(key) ?? []), { at, weight, isUse }]);
  };
  plan.onHand
    .filter(({ kind }) => kind === "part")
    .forEach(({ name, weight }, stock) => {
      move(name, { cutFor: null, stock }, 0, new Decimal(weight), false);
    });
  for (const { service, parts } of plan.cuts)
    for (const { part, weight } of parts)
      move(part, { cutFor: service, stock: null }, serviceAt(service, plan), new Decimal(weight), false);
  for (const prep of plan.preps) {
    const at = serviceAt(prep.service, plan);
    move(prep.from, prep, at, new Decimal(prep.weight).neg(), true);
    for (const { part, weight } of prep.parts) move(part, prep, at, new Decimal(weight), false);
  }
  for (const going of plan.goings)
    move(going.part, going, serviceAt(going.service, plan), new Decimal(going.weight).neg(), true);
  for (const left of plan.leftovers)
    if (left.kind === "part") move(left.part, left, last + 1, new Decimal(left.weight).neg(), false);
  return [...lots].flatMap(([lot, moves]) => [
    ...compare(
      `lot of ${lot}`,
      0,
      sumOf(moves, ({ weight }) => weight),
    ),
    ...plan.services.flatMap(({ name }, after) => {
      const until = moves.filter(({ at }) => at <= after);
      const slack = new Decimal(plan.asked.scaleStep).times(until.filter(({ isUse }) => isUse).length);
      const short = sumOf(until, ({ weight }) => weight).neg();
      return short.greaterThan(slack)
        ? [`lot of ${lot}: ${short} g are used by ${name} that come later`]
        : [];
    }),
  ]);
}
