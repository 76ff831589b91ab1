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
import { Decimal, grams, money, NO_MONEY, ONE, type Weight, ZERO } from "../../src/quantity/index.js";

import type { WasteCounts } from "./nouns-to-come.js";

/** Whole grams as a weight. */
export function g(weight: number): Weight {
  return grams(BigInt(weight));
}

/** A scenario of the given nouns, everything else plain: waste first, by edible weight, one bin that takes all. */
export function scenarioOf(
  nouns: Pick<Scenario, "services" | "items" | "parts" | "dishes"> & Partial<Scenario>,
): Scenario {
  const wasteCounts = nouns.wasteCounts ?? counting({});
  return {
    name: "small",
    locale: "en-GB",
    currency: "GBP",
    aim: "waste",
    wastePrice: NO_MONEY,
    wage: NO_MONEY,
    costing: "edible weight",
    pricesIncludeTax: false,
    scaleStep: g(1),
    wasteCounts,
    countAvoidablePeel: !wasteCounts.avoidablePeel.isZero(),
    vulnerableDiners: false,
    rules: "us",
    allergenList: "both",
    firstDate: "2026-10-02",
    steps: [],
    destinations: [REFUSE],
    partsOnHand: [],
    limits: { chilled: null, handsMinutes: null, vessels: [] },
    ...nouns,
  };
}

/** What counts as waste: peel in full, and neither what could have been used nor what is given, unless stated. */
export function counting(stated: { peel?: string; unused?: string; given?: string }): WasteCounts {
  return {
    avoidablePeel: new Decimal(stated.peel ?? 1),
    unusedUsable: new Decimal(stated.unused ?? 0),
    givenAway: new Decimal(stated.given ?? 0),
  };
}

const REFUSE: Scenario["destinations"][number] = {
  name: "refuse",
  kind: "waste",
  end: "waste",
  takes: { food: true, inedible: true, portions: true },
  limit: null,
};

/** Somewhere food is given away, beside the bin. */
export function withGift(
  limit: number | null,
  takes: { food: boolean; portions: boolean },
): Scenario["destinations"] {
  return [
    {
      name: "staff meal",
      kind: "given away",
      end: "given away",
      takes: { ...takes, inedible: false },
      limit: limit === null ? null : g(limit),
    },
    REFUSE,
  ];
}

/** A service on a day counted from the first one, without courses unless stated. */
export function serviceOf(name: string, day: number, stated: Partial<Service> = {}): Service {
  return {
    name,
    date: `2026-10-${String(2 + day).padStart(2, "0")}`,
    day,
    sitting: "dinner",
    at: null,
    cooks: 1,
    covers: 0,
    courses: [],
    diets: [],
    overage: ZERO,
    handsMinutes: null,
    ...stated,
  };
}

/** A breakdown by grams of one unit; what they fall short of the unit is cutting loss. */
export function breakdownOf(
  name: string,
  unitGrams: number,
  parts: Readonly<Record<string, number>>,
  stated: Partial<Breakdown> = {},
): Breakdown {
  const yields = Object.entries(parts).map(([part, weight]) => ({
    part,
    fraction: new Decimal(weight).div(unitGrams),
  }));
  const cut = Object.values(parts).reduce((sum, weight) => sum + weight, 0);
  const loss = new Decimal(unitGrams - cut).div(unitGrams);
  return { name, yields, loss, minutes: null, how: null, source: "invented", ...stated };
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
  return {
    name,
    of: name,
    form: "untrimmed",
    grade: null,
    supplier: null,
    handling: "plant",
    inTables: true,
    allergens: [],
    mayContain: [],
    measure: "whole",
    unitName: "head",
    unitWeight: g(unitGrams),
    orderUnit: { name: "head", size: ONE, weight: g(unitGrams) },
    buying: { price: money(price), taxRate: null, least: 0, most, deliveries: [0], orderBy: null },
    onHand: [],
    keepsDays: null,
    carry: null,
    breakdowns,
    treatment: null,
    rejectIf: null,
    substitute: null,
    ...stated,
  };
}

/** A part of an item, or a blend where the item is null. */
export function partOf(
  name: string,
  item: string | null,
  kind: PartClass = "food",
  stated: Partial<Part> = {},
): Part {
  return {
    name,
    item,
    class: kind,
    inTables: true,
    foodBy: null,
    allergens: [],
    keepsDays: null,
    state: "raw",
    pieceWeight: null,
    marketValue: null,
    carry: null,
    container: null,
    isPeel: kind !== "food",
    ...stated,
  };
}

/** A step by what a kilogram taken gives. */
export function stepOf(
  name: string,
  from: readonly string[],
  gives: Readonly<Record<string, string>>,
  stated: Partial<Step> = {},
): Step {
  const yields = Object.entries(gives).map(([part, fraction]) => ({ part, fraction: new Decimal(fraction) }));
  const water = stated.water ?? ZERO;
  const given = yields.reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
  return {
    name,
    from,
    yields,
    loss: ONE.plus(water).minus(given),
    water,
    capacity: null,
    minutesPerKilogram: null,
    how: null,
    source: "invented",
    ...stated,
  };
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
  return {
    name,
    course: null,
    services: [0],
    portions:
      portions === null
        ? null
        : typeof portions === "number"
          ? { least: portions, most: portions }
          : { least: portions[0], most: portions[1] },
    optional: false,
    batch: null,
    ceiling: null,
    diets: [],
    allergens: [],
    mayContain: [],
    shares: [],
    lines,
    staples: [],
    keepsDays: null,
    minutesPerBatch: null,
    rawEgg: false,
    method: [],
    treatments: [],
    cooking: { equipment: null, time: null, coreTemperature: null, portioning: null },
    ...stated,
  };
}

/** Staples at a flat cost a portion. */
export function staples(costPerPortion: string): StapleLine[] {
  return [
    {
      name: "staples",
      costPerPortion: new Decimal(costPerPortion),
      amount: null,
      price: null,
      allergens: [],
    },
  ];
}
