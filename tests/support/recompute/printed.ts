/** The plan's JSON as far as it is recomputed; weights in grams, money in currency units, shares of 1, all as text. */
export interface PrintedPlan {
  readonly aim: "waste" | "cost" | "balanced";
  readonly outcome: {
    readonly objective: string | null;
    readonly beforeRounding: string | null;
    readonly rounding: string | null;
    readonly bound: string | null;
  };
  readonly services: readonly { readonly name: string; readonly date: string }[];
  readonly destinations: readonly { readonly name: string; readonly kind: string }[];
  readonly asked: Asked;
  readonly purchases: readonly PrintedPurchase[];
  readonly onHand: readonly { readonly kind: string; readonly name: string; readonly weight: string }[];
  readonly cuts: readonly PrintedCut[];
  readonly preps: readonly PrintedPrep[];
  readonly goings: readonly PrintedGoing[];
  readonly dishes: readonly PrintedDish[];
  readonly leftovers: readonly PrintedLeft[];
  readonly transfers: readonly {
    readonly from: string;
    readonly to: string;
    readonly weight: string;
    readonly money: string;
    readonly cause: string;
  }[];
  readonly weights: Readonly<Record<string, string>>;
  readonly money: Readonly<Record<string, string>>;
  readonly waste: {
    readonly counted: string;
    readonly foodWasted: string;
    readonly lostFood: string;
    readonly avoidablePeel: string;
    readonly unusedUsable: string;
    readonly givenAway: string;
    readonly counts: {
      readonly avoidablePeel: string;
      readonly unusedUsable: string;
      readonly givenAway: string;
    };
    readonly unusedParts: readonly { readonly part: string; readonly weight: string }[];
    readonly lostInCuts: readonly { readonly lostFood: string; readonly peelBeyond: string }[];
    readonly needless: readonly {
      readonly going: number;
      readonly steps: readonly string[];
      readonly sources: readonly (readonly string[])[];
    }[];
    readonly lostInSteps: readonly (PrintedLot & { readonly step: string; readonly lostFood: string })[];
  };
}

/** Where a lot comes from: the service it was cut for, or the entry among the parts on hand. */
export interface PrintedLot {
  readonly cutFor: string | null;
  readonly stock: number | null;
}

export interface PrintedPart {
  readonly part: string;
  readonly weight: string;
}

export interface PrintedPurchase {
  readonly item: string;
  readonly service: string;
  readonly units: number;
  readonly weight: string;
  readonly cost: string;
  readonly delivery?: string;
}

export interface PrintedCut {
  readonly item: string;
  readonly breakdown: string;
  readonly service: string;
  readonly units: number | null;
  readonly weight: string;
  readonly parts: readonly PrintedPart[];
  readonly loss: string;
}

export interface PrintedPrep extends PrintedLot {
  readonly from: string;
  readonly step: string;
  readonly service: string;
  readonly weight: string;
  readonly water: string;
  readonly parts: readonly PrintedPart[];
  readonly loss: string;
}

export interface PrintedGoing extends PrintedLot {
  readonly part: string;
  readonly dish: string;
  readonly service: string;
  readonly lineNumber: number;
  readonly weight: string;
  readonly pieces: number | null;
  readonly useBy: string | null;
}

export interface PrintedDish {
  readonly dish: string;
  readonly service: string;
  readonly portions: number;
  readonly eaten: number;
  readonly spare: number;
  readonly served: readonly { readonly service: string; readonly portions: number }[];
  readonly spareTo: readonly { readonly destination: string; readonly portions: number }[];
  readonly useBy: string | null;
  readonly weight: string;
  readonly cost: string;
  readonly costPerPortion: string;
}

export interface PrintedLeft extends PrintedLot {
  readonly part: string;
  readonly kind: string;
  readonly class: string;
  readonly weight: string;
  readonly destination: string;
  readonly end: string;
  readonly service: string | null;
  readonly units: number | null;
  readonly useBy: string | null;
}

/** All that the plan was asked to keep to. */
export interface Asked {
  readonly scaleStep: string;
  readonly wastePrice: string;
  readonly limits: {
    readonly chilled: string | null;
    readonly frozen: string | null;
    readonly vessels: readonly { readonly vessel: string; readonly most: number }[];
  };
  readonly services: readonly AskedService[];
  readonly suppliers: readonly {
    readonly supplier: string;
    readonly minimum: string;
    readonly delivery: string;
  }[];
  readonly items: readonly AskedItem[];
  readonly parts: readonly {
    readonly part: string;
    readonly class: string;
    readonly peel: boolean;
    readonly usable: boolean;
    readonly frozen: boolean;
    readonly keep: Keep;
  }[];
  readonly steps: readonly AskedStep[];
  readonly dishes: readonly AskedDish[];
  readonly destinations: readonly {
    readonly destination: string;
    readonly end: string;
    readonly takes: { readonly food: boolean; readonly inedible: boolean; readonly portions: boolean };
    readonly limit: string | null;
  }[];
}

type Keep = { readonly limit: string; readonly value: string } | null;
export type Gives = readonly { readonly part: string; readonly fraction: string }[];

export interface AskedService {
  readonly service: string;
  readonly hands: string | null;
  readonly overage: string;
  readonly courses: readonly {
    readonly course: string;
    readonly portions: number;
    readonly takeUp: string;
    readonly leastDishes: number | null;
    readonly mostDishes: number | null;
  }[];
  readonly diets: readonly { readonly diets: readonly string[]; readonly covers: number }[];
}

export interface AskedItem {
  readonly item: string;
  readonly family: string;
  readonly supplier: string | null;
  readonly unitWeight: string;
  readonly buying: {
    readonly least: number;
    readonly most: number | null;
    readonly deliveries: readonly string[];
    readonly prices: readonly { readonly from: number; readonly price: string }[];
  } | null;
  readonly keep: Keep;
  readonly breakdowns: readonly {
    readonly breakdown: string;
    readonly gives: Gives;
    readonly loss: string;
    readonly minutes: string;
  }[];
}

export interface AskedStep {
  readonly step: string;
  readonly from: readonly string[];
  readonly gives: Gives;
  readonly loss: string;
  readonly water: string;
  readonly capacity: string | null;
  readonly minutesPerKilogram: string;
}

export interface AskedDish {
  readonly dish: string;
  readonly course: string | null;
  readonly services: readonly string[];
  readonly portions: { readonly least: number; readonly most: number } | null;
  readonly optional: boolean;
  readonly ceiling: string | null;
  readonly diets: readonly string[];
  readonly batch: { readonly portions: number; readonly halves: boolean; readonly vessel: string } | null;
  readonly minutes: string;
  readonly lines: readonly AskedLine[];
}

export interface AskedLine {
  readonly line: string;
  readonly least: string;
  readonly most: string;
  readonly cookingYield: string;
  readonly from: readonly {
    readonly part: string;
    readonly rate: string;
    readonly leastShare: string;
    readonly mostShare: string;
  }[];
}

/** Fields that a plan's JSON must have for recomputing, "[]" standing for every entry of a list. */
const NEEDED = [
  "aim outcome services destinations onHand transfers weights money",
  "waste.counts waste.unusedParts waste.lostInCuts waste.needless waste.lostInSteps",
  "asked.scaleStep asked.wastePrice asked.limits asked.suppliers",
  "asked.services[].courses asked.services[].diets asked.services[].hands asked.services[].overage",
  "asked.items[].family asked.items[].buying asked.items[].keep asked.items[].breakdowns asked.items[].unitWeight",
  "asked.parts[].class asked.parts[].peel asked.parts[].usable asked.parts[].frozen asked.parts[].keep",
  "asked.steps[].from asked.steps[].gives asked.steps[].capacity asked.steps[].minutesPerKilogram",
  "asked.dishes[].lines asked.dishes[].portions asked.dishes[].batch asked.dishes[].ceiling",
  "asked.destinations[].end asked.destinations[].takes asked.destinations[].limit",
  "purchases[].cost cuts[].breakdown cuts[].units preps[].water preps[].loss goings[].lineNumber goings[].pieces",
  "dishes[].served dishes[].spareTo leftovers[].end leftovers[].stock",
].flatMap((fields) => fields.split(" "));

/** What a plan's JSON lacks for being recomputed. */
export function missingIn(plan: unknown): string[] {
  return NEEDED.filter((path) => !has(plan, path.split("."))).map((path) => `missing: ${path}`);
}

function has(value: unknown, [first, ...rest]: readonly string[]): boolean {
  if (first === undefined) return value !== undefined;
  if (typeof value !== "object" || value === null) return false;
  const name = first.replace("[]", "");
  const found: unknown = Reflect.get(value, name);
  if (name === first) return has(found, rest);
  return Array.isArray(found) && found.every((entry) => has(entry, rest));
}
