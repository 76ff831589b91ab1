import type {
  Breakdown,
  Cooking,
  Decision,
  Destination,
  Dish,
  Item,
  Lot,
  Part,
  PartClass,
  PartUse,
  RecipeLine,
  Scenario,
  Service,
  StapleLine,
  Step,
} from "../../src/kitchen/index.js";
import { Decimal, grams, money, type Weight } from "../../src/quantity/index.js";
import { COUNTS_PEEL } from "./waste-counts.js";

/** Nouns with plain defaults, for tests that state only what they are about. */
export function aScenario(
  stated: Partial<Scenario> & Pick<Scenario, "services" | "items" | "parts">,
): Scenario {
  return {
    name: "A test",
    locale: "en-GB",
    currency: "GBP",
    aim: "waste",
    wastePrice: money("0"),
    wage: money("0"),
    costing: "edible weight",
    pricesIncludeTax: false,
    scaleStep: grams("1"),
    wasteCounts: COUNTS_PEEL,
    vulnerableDiners: false,
    rules: "us",
    allergenList: "both",
    firstDate: "2026-10-02",
    steps: [],
    dishes: [],
    destinations: [REFUSE, STAFF_MEAL],
    partsOnHand: [],
    limits: { chilled: null, handsMinutes: null, vessels: [] },
    ...stated,
  };
}

export const REFUSE: Destination = {
  name: "refuse",
  kind: "waste",
  end: "waste",
  takes: { food: true, inedible: true, portions: true },
  limit: null,
};

export const STAFF_MEAL: Destination = {
  name: "staff meal",
  kind: "given away",
  end: "given away",
  takes: { food: true, inedible: false, portions: true },
  limit: null,
};

export function aService(name: string, day = 0): Service {
  const date = `2026-10-${String(day + 2).padStart(2, "0")}`;
  return {
    name,
    date,
    day,
    sitting: "dinner",
    at: null,
    cooks: 1,
    covers: 0,
    courses: [],
    diets: [],
    overage: new Decimal(0),
    handsMinutes: null,
  };
}

export function anItem(stated: Partial<Item> & Pick<Item, "name" | "unitWeight" | "breakdowns">): Item {
  return {
    of: stated.name,
    form: "whole",
    grade: null,
    supplier: null,
    handling: "plant",
    inTables: true,
    allergens: [],
    mayContain: [],
    measure: "whole",
    unitName: "each",
    orderUnit: { name: "each", size: new Decimal(1), weight: stated.unitWeight },
    buying: null,
    onHand: [],
    keepsDays: null,
    carry: null,
    treatment: null,
    rejectIf: null,
    substitute: null,
    ...stated,
  };
}

export function aBreakdown(
  name: string,
  fractions: Readonly<Record<string, string | Decimal>>,
  loss: string | Decimal,
): Breakdown {
  return {
    name,
    yields: Object.entries(fractions).map(([part, fraction]) => ({
      part,
      fraction: fractionOf(fraction),
    })),
    loss: fractionOf(loss),
    minutes: null,
    how: null,
    source: "a test",
  };
}

export function aPart(name: string, kind: PartClass = "food", stated: Partial<Part> = {}): Part {
  return {
    name,
    item: null,
    class: kind,
    isPeel: kind !== "food",
    inTables: true,
    foodBy: null,
    allergens: [],
    keepsDays: null,
    state: "raw",
    pieceWeight: null,
    marketValue: null,
    carry: null,
    container: null,
    ...stated,
  };
}

export function aStep(
  name: string,
  from: readonly string[],
  fractions: Readonly<Record<string, string | Decimal>>,
  stated: Partial<Step> = {},
): Step {
  return {
    name,
    from,
    yields: Object.entries(fractions).map(([part, fraction]) => ({ part, fraction: fractionOf(fraction) })),
    loss: new Decimal(0),
    water: new Decimal(0),
    capacity: null,
    minutesPerKilogram: null,
    how: null,
    source: "a test",
    ...stated,
  };
}

export function aDish(
  name: string,
  lines: readonly RecipeLine[],
  staples: readonly StapleLine[] = [],
  stated: Partial<Dish> = {},
): Dish {
  return {
    name,
    course: null,
    services: [0],
    portions: null,
    optional: false,
    batch: null,
    ceiling: null,
    diets: [],
    allergens: [],
    mayContain: [],
    shares: [],
    lines,
    staples,
    keepsDays: null,
    minutesPerBatch: null,
    rawEgg: false,
    method: [],
    treatments: [],
    cooking: { equipment: null, time: null, coreTemperature: null, portioning: null },
    ...stated,
  };
}

export function aLine(
  amount: string,
  part: string | readonly string[],
  cookingYield: string | null = null,
): RecipeLine {
  const parts = typeof part === "string" ? [part] : part;
  return {
    name: parts[0] ?? "line",
    least: grams(amount),
    most: grams(amount),
    stated: cookingYield === null ? "raw" : "cooked",
    cookingYield: new Decimal(cookingYield ?? "1"),
    from: parts.map((name) => ({
      part: name,
      rate: new Decimal(1),
      leastShare: new Decimal(0),
      mostShare: new Decimal(1),
    })),
  };
}

export function aStaple(name: string, costPerPortion: string | Decimal): StapleLine {
  return { name, costPerPortion: new Decimal(costPerPortion), amount: null, price: null, allergens: [] };
}

export function aDecision(stated: Partial<Decision>): Decision {
  return {
    purchases: [],
    cuts: [],
    binned: [],
    keptItems: [],
    preps: [],
    goings: [],
    cookings: [],
    sends: [],
    kept: [],
    ...stated,
  };
}

/** A fraction written as a decimal or as a ratio, "480/1400". */
function fractionOf(text: string | Decimal): Decimal {
  if (typeof text !== "string") return text;
  const [over = "0", under = "1"] = text.split("/");
  return new Decimal(over).div(under);
}

/** The lot of a part cut before a service. */
export function cutLot(part: string, service = 0): Lot {
  return { part, origin: { kind: "cut", service } };
}

export function aGoing(
  lot: Lot,
  dish: string,
  weight: Weight,
  { service = 0, line = 0 }: { service?: number; line?: number } = {},
): PartUse {
  return { lot, dish, service, line, weight, pieces: null };
}

/** A cooking eaten whole at its own service. */
export function aCooking(dish: string, portions: number, service = 0): Cooking {
  return { dish, service, portions, served: [{ service, portions }], spare: [] };
}
