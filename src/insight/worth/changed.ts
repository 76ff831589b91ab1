import type { Dish, Item, Part, RecipeLine, Scenario } from "../../kitchen/index.js";
import { grams, NO_MONEY, ONE, type Weight, ZERO } from "../../quantity/index.js";

/** One useful step of a part that is weighed. */
const STEP = grams("100");

export function stepOf({ pieceWeight }: Part): Weight {
  return pieceWeight ?? STEP;
}

/** So much more of a part in the house at no cost, as if it had been cut for a service: to be used, not stored. */
export function withMore(scenario: Scenario, part: string, weight: Weight, service: number): Scenario {
  const since = { how: "cut", day: scenario.services[service]?.day ?? 0 } as const;
  const gift = { part, weight, value: NO_MONEY, useBy: null, lastDay: null, since };
  return { ...scenario, partsOnHand: [...scenario.partsOnHand, gift] };
}

/** So much of a part taken for something else at a service. */
export function withTaken(scenario: Scenario, part: string, weight: Weight, service: number): Scenario {
  const line: RecipeLine = {
    name: part,
    least: weight,
    most: weight,
    stated: "raw",
    cookingYield: ONE,
    from: [{ part, rate: ONE, leastShare: ZERO, mostShare: ONE }],
  };
  const taken: Dish = {
    name: `${part} taken for something else`,
    course: null,
    services: [service],
    portions: { least: 1, most: 1 },
    optional: false,
    batch: null,
    ceiling: null,
    diets: [],
    allergens: [],
    mayContain: [],
    shares: [],
    lines: [line],
    staples: [],
    keepsDays: null,
    minutesPerBatch: null,
    rawEgg: false,
    method: [],
    treatments: [],
    cooking: { equipment: null, time: null, coreTemperature: null, portioning: null },
  };
  return { ...scenario, dishes: [...scenario.dishes, taken] };
}

/** No recipe line and no step takes the part, and it is not kept. */
export function withoutUse(scenario: Scenario, part: string): Scenario {
  return {
    ...scenario,
    parts: scenario.parts.map((each) => (each.name === part ? { ...each, carry: null } : each)),
    steps: scenario.steps
      .map((step) => ({ ...step, from: step.from.filter((source) => source !== part) }))
      .filter(({ from }) => from.length > 0),
    dishes: scenario.dishes.map((dish) => ({
      ...dish,
      lines: dish.lines.map((line) => ({
        ...line,
        from: line.from.map((source) =>
          source.part === part ? { ...source, leastShare: ZERO, mostShare: ZERO } : source,
        ),
      })),
    })),
  };
}

/** At least so many order units of an item bought, or at most. Null where it cannot be bought, or none is left out. */
export function withBought(
  scenario: Scenario,
  item: Item,
  units: { least: number } | { most: number },
): Scenario | null {
  const { buying } = item;
  if (buying === null) return null;
  const asked =
    "least" in units
      ? { least: units.least, most: buying.most === null ? null : Math.max(buying.most, units.least) }
      : { least: Math.min(buying.least, units.most), most: units.most };
  if (asked.most !== null && asked.most < 0) return null;
  return {
    ...scenario,
    items: scenario.items.map((other) =>
      other === item ? { ...item, buying: { ...buying, ...asked } } : other,
    ),
  };
}

export function withoutDish(scenario: Scenario, dish: Dish): Scenario {
  return { ...scenario, dishes: scenario.dishes.filter((other) => other !== dish) };
}

/** The dish with its portions asked for at least or at most at each service that offers it. */
export function withPortions(
  scenario: Scenario,
  dish: Dish,
  asked: { least: number } | { most: number },
): Scenario {
  const stated = dish.portions;
  const portions =
    "least" in asked
      ? { least: asked.least, most: Math.max(asked.least, stated?.most ?? mostOf(scenario, dish)) }
      : { least: Math.min(asked.most, stated?.least ?? 0), most: asked.most };
  return {
    ...scenario,
    dishes: scenario.dishes.map((other) =>
      other === dish ? { ...dish, portions, optional: "least" in asked ? false : dish.optional } : other,
    ),
  };
}

/** The dish made at one service, by the portions it states or at least one. */
export function withMade(scenario: Scenario, dish: Dish, service: number): Scenario {
  const only = { ...dish, services: [service] };
  const offered = { ...scenario, dishes: scenario.dishes.map((other) => (other === dish ? only : other)) };
  return withPortions(offered, only, { least: Math.max(1, dish.portions?.least ?? 0) });
}

function mostOf({ services }: Scenario, dish: Dish): number {
  const portions = dish.services.map(
    (at) => services[at]?.courses.find(({ name }) => name === dish.course)?.portions ?? 0,
  );
  return Math.max(0, ...portions);
}
