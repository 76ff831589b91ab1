import type {
  Breakdown,
  Dish,
  Item,
  LineSource,
  Part,
  PartClass,
  RecipeLine,
  Scenario,
  Service,
  StapleLine,
  Step,
} from "../../src/kitchen/index.js";
import { Decimal, grams, money, ONE, type Weight, ZERO } from "../../src/quantity/index.js";
import {
  aBreakdown,
  aDish,
  anItem,
  aPart,
  aScenario,
  aService,
  aStaple,
  aStep,
  REFUSE,
  STAFF_MEAL,
} from "./nouns.js";

/** Whole grams as a weight. */
export function g(weight: number): Weight {
  return grams(BigInt(weight));
}

/** A scenario of the given nouns, everything else plain: waste first, by edible weight, one bin that takes all. */
export function scenarioOf(
  nouns: Pick<Scenario, "services" | "items" | "parts" | "dishes"> & Partial<Scenario>,
): Scenario {
  return aScenario({ name: "small", destinations: [REFUSE], ...nouns });
}

/** Somewhere food is given away, beside the bin. */
export function withGift(
  limit: number | null,
  takes: { food: boolean; portions: boolean },
): Scenario["destinations"] {
  const gift = {
    ...STAFF_MEAL,
    takes: { ...takes, inedible: false },
    limit: limit === null ? null : g(limit),
  };
  return [gift, REFUSE];
}

/** A service on a day counted from the first one, without courses unless stated. */
export function serviceOf(name: string, day: number, stated: Partial<Service> = {}): Service {
  return { ...aService(name, day), ...stated };
}

/** A breakdown by grams of one unit; what they fall short of the unit is cutting loss. */
export function breakdownOf(
  name: string,
  unitGrams: number,
  parts: Readonly<Record<string, number>>,
  stated: Partial<Breakdown> = {},
): Breakdown {
  const fractions = Object.entries(parts).map(([part, weight]) => [part, new Decimal(weight).div(unitGrams)]);
  const cut = Object.values(parts).reduce((sum, weight) => sum + weight, 0);
  const loss = new Decimal(unitGrams - cut).div(unitGrams);
  return { ...aBreakdown(name, Object.fromEntries(fractions), loss), ...stated };
}

/** A whole item bought by the unit before the first service. */
export function itemOf(
  name: string,
  unitGrams: number,
  price: string,
  most: number,
  breakdowns: readonly Breakdown[],
  stated: Partial<Item> = {},
): Item {
  return anItem({
    name,
    form: "untrimmed",
    unitName: "head",
    unitWeight: g(unitGrams),
    orderUnit: { name: "head", size: ONE, weight: g(unitGrams) },
    buying: { price: money(price), taxRate: null, least: 0, most, deliveries: [0], orderBy: null },
    breakdowns,
    ...stated,
  });
}

/** A part of an item, or a blend where the item is null. */
export function partOf(
  name: string,
  item: string | null,
  kind: PartClass = "food",
  stated: Partial<Part> = {},
): Part {
  return aPart(name, kind, { item, ...stated });
}

/** A step by what a kilogram taken gives. */
export function stepOf(
  name: string,
  from: readonly string[],
  gives: Readonly<Record<string, string>>,
  stated: Partial<Step> = {},
): Step {
  const water = stated.water ?? ZERO;
  const loss = ONE.plus(water).minus(Decimal.sum(ZERO, ...Object.values(gives)));
  return aStep(name, from, gives, { loss, ...stated });
}

/** A recipe line from parts alike, raw and exact unless stated. */
export function lineOf(
  perPortion: number | readonly [number, number],
  from: readonly (string | (Partial<LineSource> & { part: string }))[],
  stated: Partial<RecipeLine> = {},
): RecipeLine {
  const [least, most] = typeof perPortion === "number" ? [perPortion, perPortion] : perPortion;
  return {
    name: from.map((source) => (typeof source === "string" ? source : source.part)).join(" or "),
    least: g(least),
    most: g(most),
    stated: "raw",
    cookingYield: ONE,
    from: from.map((source) => ({
      rate: ONE,
      leastShare: ZERO,
      mostShare: ONE,
      ...(typeof source === "string" ? { part: source } : source),
    })),
    ...stated,
  };
}

/** A dish of so many portions, fixed or least and most; null where its course decides. */
export function dishOf(
  name: string,
  portions: number | readonly [number, number] | null,
  lines: readonly RecipeLine[],
  stated: Partial<Dish> = {},
): Dish {
  const [least, most] = typeof portions === "number" ? [portions, portions] : (portions ?? []);
  const range = least === undefined || most === undefined ? null : { least, most };
  return aDish(name, lines, [], { portions: range, ...stated });
}

/** Staples at a flat cost a portion. */
export function staples(costPerPortion: string): StapleLine[] {
  return [aStaple("staples", costPerPortion)];
}
