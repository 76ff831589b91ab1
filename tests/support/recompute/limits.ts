import { compare, Decimal, milligrams, sumOf, type Value, ZERO } from "./figures.js";
import type { PrintedDish, PrintedLimit, PrintedLot, PrintedPart, PrintedPlan } from "./printed.js";
import { originOf } from "./waste.js";

/** Every limit: what is found of it, and whether it holds; and dates. */
export function limitFaults(plan: PrintedPlan): string[] {
  return [
    ...plan.limits.flatMap((limit) => {
      const found = foundOf(limit, plan);
      if (found === null) return [`${nameOf(limit)}: no limit is known by this code`];
      return [
        ...compare(`${nameOf(limit)} found`, limit.found, found, withinOf(limit, plan)),
        ...heldTo(limit, found),
      ];
    }),
    ...plan.dishes
      .filter(({ ceiling, dish, service }) => ceiling !== null && !isListed("ceiling", dish, service, plan))
      .map(({ dish, service }) => `ceiling ${dish} ${service}: is not among the limits`),
    ...dateFaults(plan),
  ];
}

function isListed(code: string, name: string, service: string, { limits }: PrintedPlan): boolean {
  return limits.some((limit) => limit.code === code && limit.name === name && limit.service === service);
}

function heldTo(limit: PrintedLimit, found: Decimal): string[] {
  const { least, most, orNone, rounding } = limit;
  if (orNone && found.isZero()) return [];
  const over = rounding ?? "0";
  return [
    ...(most !== null && found.minus(most).greaterThan(over)
      ? [`${nameOf(limit)}: ${found} is above ${most}`]
      : []),
    ...(least !== null && new Decimal(least).minus(found).greaterThan(over)
      ? [`${nameOf(limit)}: ${found} is below ${least}`]
      : []),
  ];
}

function nameOf({ code, name, service, course }: PrintedLimit): string {
  return [code, name, service, course].filter((each) => each !== null).join(" ");
}

/** Rounding of what is printed: a portion's cost, minutes, and weights that are shares of others. */
function withinOf({ code }: PrintedLimit, { dishes, preps }: PrintedPlan): Value {
  switch (code) {
    case "ceiling":
      return "0.00005";
    case "hands":
      return "0.01";
    case "destination":
    case "chilled":
    case "frozen":
      return milligrams(1 + dishes.length + preps.length);
    default:
      return 0;
  }
}

function foundOf(limit: PrintedLimit, plan: PrintedPlan): Decimal | null {
  const { code, name, service, course } = limit;
  const { dishes, preps, cuts, purchases, leftovers, onHand } = plan;
  const cooked = dishes.filter((dish) => dish.service === service);
  const eaten = (fits: (dish: PrintedDish) => boolean): Decimal =>
    sumOf(
      dishes.filter(fits).flatMap(({ served }) => served.filter((at) => at.service === service)),
      ({ portions }) => portions,
    );
  const inCourse = (dish: PrintedDish): boolean => course === null || dish.course === course;
  switch (code) {
    case "ceiling": {
      const [dish] = cooked.filter((each) => each.dish === name);
      return dish === undefined ? ZERO : new Decimal(dish.cost).div(dish.portions);
    }
    case "destination":
      return sentTo(name ?? "", plan);
    case "chilled":
      return stored(service ?? "", false, plan);
    case "frozen":
      return stored(service ?? "", true, plan);
    case "hands":
      return sumOf(
        [...cuts, ...preps, ...dishes].filter((work) => work.service === service),
        ({ minutes }) => minutes,
      );
    case "vessel":
      return sumOf(cooked, ({ batch, portions }) =>
        batch?.vessel === name ? new Decimal(portions).div(batch.portions).ceil() : ZERO,
      );
    case "pot":
      return sumOf(
        preps.filter((prep) => prep.step === name && prep.service === service),
        ({ weight }) => weight,
      );
    case "buying":
      return sumOf(
        purchases.filter(({ item }) => item === name),
        ({ units }) => units,
      );
    case "portions":
      return eaten(({ dish }) => dish === name);
    case "overage":
      return sumOf(
        cooked.filter((dish) => (name === null ? inCourse(dish) : dish.dish === name)),
        ({ spareTo }) => sumOf(spareTo, ({ portions }) => portions),
      );
    case "course":
      return eaten(inCourse);
    case "course dishes": {
      const shown = dishes.filter(
        (dish) => inCourse(dish) && dish.served.some((at) => at.service === service && at.portions > 0),
      );
      return new Decimal(new Set(shown.map(({ dish }) => dish)).size);
    }
    case "diet":
      return eaten((dish) => inCourse(dish) && dish.diets.includes(name ?? ""));
    case "keep":
      return sumOf(
        leftovers.filter(
          ({ part, end, kind, stock }) =>
            kind === "part" &&
            part === name &&
            end === "kept" &&
            (stock === null || onHand.filter((entry) => entry.kind === "part")[stock]?.name !== part),
        ),
        ({ weight }) => weight,
      );
    default:
      return null;
  }
}

/** Grams sent to a destination, worked parts at the weight of what they were worked from, where that is more. */
function sentTo(name: string, plan: PrintedPlan): Decimal {
  return sumOf(
    plan.leftovers.filter(({ destination }) => destination === name),
    ({ kind, part, weight, cutFor, stock }) =>
      kind === "part" ? beforeWorking(part, { cutFor, stock }, plan).times(weight) : weight,
  );
}

function beforeWorking(part: string, lot: PrintedLot, plan: PrintedPlan): Decimal {
  const isFood = ({ part: name }: PrintedPart): boolean =>
    plan.parts.some((each) => each.part === name && each.class === "food");
  const into = plan.preps.filter(
    (prep) => originOf(prep) === originOf(lot) && prep.parts.some((made) => made.part === part),
  );
  return into.reduce((most, prep) => {
    const food = sumOf(prep.parts.filter(isFood), ({ weight }) => weight);
    const own = food.isZero() ? new Decimal(1) : Decimal.max(1, new Decimal(prep.weight).div(food));
    return Decimal.max(most, own.times(beforeWorking(prep.from, prep, plan)));
  }, new Decimal(1));
}

/** Grams in the cold room or the freezer after a service: whole items, what parts must still be there, dishes kept over. */
function stored(service: string, isFreezer: boolean, plan: PrintedPlan): Decimal {
  const order = new Map(plan.services.map(({ name }, index) => [name, index]));
  const at = (name: string | null): number => (name === null ? 0 : (order.get(name) ?? 0));
  const after = at(service);
  const frozen = new Set(plan.parts.filter((part) => part.frozen).map(({ part }) => part));
  const lots = new Map<string, { first: number; part: string; weight: Decimal }>();
  const add = (part: string, lot: PrintedLot, weight: Decimal): void => {
    const key = `${part} ${originOf(lot)}`;
    const before = lots.get(key)?.weight ?? ZERO;
    lots.set(key, { first: at(lot.cutFor), part, weight: before.plus(weight) });
  };
  for (const going of plan.goings)
    if (at(going.service) > after) add(going.part, going, new Decimal(going.weight));
  for (const prep of plan.preps) {
    if (at(prep.service) <= after) continue;
    add(prep.from, prep, new Decimal(prep.weight));
    for (const { part, weight } of prep.parts) add(part, prep, new Decimal(weight).neg());
  }
  for (const left of plan.leftovers)
    if (left.kind === "part" && left.end === "kept") add(left.part, left, new Decimal(left.weight));
  const parts = sumOf([...lots.values()], ({ first, part, weight }) =>
    first <= after && frozen.has(part) === isFreezer ? Decimal.max(0, weight) : ZERO,
  );
  if (isFreezer) return parts;
  const until = <T extends { readonly service: string | null }>(entries: readonly T[]): T[] =>
    entries.filter((entry) => at(entry.service) <= after);
  const weight = (entry: { readonly weight: string }): string => entry.weight;
  const whole = sumOf(until(plan.purchases), weight)
    .plus(
      sumOf(
        plan.onHand.filter(({ kind }) => kind === "item"),
        weight,
      ),
    )
    .minus(sumOf(until(plan.cuts), weight))
    .minus(
      sumOf(until(plan.leftovers.filter(({ kind, end }) => kind === "item" && end === "binned")), weight),
    );
  const waiting = sumOf(until(plan.dishes), ({ served, portions, weight: all }) =>
    new Decimal(all).div(portions).times(
      sumOf(
        served.filter((eaten) => at(eaten.service) > after),
        (eaten) => eaten.portions,
      ),
    ),
  );
  return parts.plus(whole).plus(waiting);
}

/** Nothing goes into a dish after its last day, and no dish is eaten after its own. */
function dateFaults({ goings, dishes, services }: PrintedPlan): string[] {
  const dateOf = (name: string): string => services.find((service) => service.name === name)?.date ?? "";
  return [
    ...goings
      .filter(({ useBy, service }) => useBy !== null && dateOf(service) > useBy)
      .map(({ part, dish, useBy }) => `${part} goes into ${dish} after ${useBy}`),
    ...dishes.flatMap(({ dish, service, served, useBy }) =>
      served
        .filter((at) => at.service !== service && useBy !== null && dateOf(at.service) > useBy)
        .map((at) => `${dish} is eaten at ${at.service}, after ${useBy}`),
    ),
  ];
}
