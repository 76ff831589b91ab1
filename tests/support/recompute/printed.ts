/**
 * The plan's JSON as far as it is recomputed; weights in grams, money in currency units, both as text. Beside what
 * plans have had, it needs:
 *
 *   wastePrice          what a kilogram of waste counts for in the balanced aim
 *   parts[]             every part that occurs, once: its family (`Item.of`), class, and whether it is peel, usable
 *                       (inedible, and a step can make food of it) and frozen
 *   keeps[]             what may be kept for a named use: its limit, and the value of a kilogram
 *   limits[]            every limit of the scenario, with what the plan has of it
 *   cuts[]              family, minutes, and of the item's breakdowns the least loss and the least peel, as fractions
 *   preps[]             minutes, and `beyond`: the fraction that the step takes off beyond another for the same part
 *   goings[]            `needless`: steps, however far back, that the line could have done without, as it takes their
 *                       sources as they are
 *   dishes[]            minutes, diets, and the batch with its vessel
 *
 * `limits` by code, with what `found` is and what `name` names; `service` and `course` are null where none is meant:
 *
 *   ceiling        dish, service        cost of a portion cooked for it
 *   destination    destination          grams sent there before working, and of spare portions as they are
 *   chilled        -, service           grams in the cold room after it; all but what is frozen
 *   frozen         -, service           grams in the freezer after it
 *   hands          -, service           minutes of cuts, steps and cooking before it
 *   vessel         vessel, service      batches in it, half ones as whole
 *   pot            step, service        grams taken
 *   buying         item                 order units bought
 *   portions       dish, service        portions eaten at it; `orNone` where a dish may be left out
 *   overage        dish or -, service, course    portions cooked over for it, of the dish or of all in the course
 *   course         -, service, course   portions eaten
 *   course dishes  -, service, course   different dishes eaten
 *   diet           diet, service, course or null    portions eaten that are fit for it
 *   keep           part                 grams kept that were cut or worked, or on hand without days left
 *
 * `rounding`, where stated, is how far rounding to the scale may put what is found past the limit.
 */
export interface PrintedPlan {
  readonly aim: "waste" | "cost" | "balanced";
  readonly wastePrice: string;
  readonly outcome: {
    readonly objective: string | null;
    readonly beforeRounding: string | null;
    readonly rounding: string | null;
    readonly bound: string | null;
  };
  readonly services: readonly { readonly name: string; readonly date: string }[];
  readonly destinations: readonly { readonly name: string; readonly kind: string }[];
  readonly parts: readonly {
    readonly part: string;
    readonly family: string | null;
    readonly class: string;
    readonly peel: boolean;
    readonly usable: boolean;
    readonly frozen: boolean;
  }[];
  readonly keeps: readonly { readonly name: string; readonly limit: string; readonly value: string }[];
  readonly limits: readonly PrintedLimit[];
  readonly purchases: readonly {
    readonly item: string;
    readonly service: string;
    readonly units: number;
    readonly weight: string;
  }[];
  readonly onHand: readonly { readonly kind: string; readonly name: string; readonly weight: string }[];
  readonly cuts: readonly {
    readonly item: string;
    readonly family: string;
    readonly service: string;
    readonly weight: string;
    readonly parts: readonly PrintedPart[];
    readonly loss: string;
    readonly minutes: string;
    readonly leastLoss: string;
    readonly leastPeel: string;
  }[];
  readonly preps: readonly PrintedPrep[];
  readonly goings: readonly (PrintedLot & {
    readonly part: string;
    readonly dish: string;
    readonly service: string;
    readonly weight: string;
    readonly useBy: string | null;
    readonly needless: readonly string[];
  })[];
  readonly dishes: readonly PrintedDish[];
  readonly leftovers: readonly (PrintedLot & {
    readonly part: string;
    readonly kind: string;
    readonly class: string;
    readonly weight: string;
    readonly destination: string;
    readonly end: string;
    readonly service: string | null;
  })[];
  readonly transfers: readonly {
    readonly from: string;
    readonly to: string;
    readonly weight: string;
    readonly money: string;
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
    readonly lostInCuts: readonly { readonly lostFood: string; readonly peelBeyond: string }[];
    readonly lostInSteps: readonly (PrintedLot & { readonly step: string; readonly lostFood: string })[];
  };
}

/** Where a lot comes from: the service it was cut for, or the entry on hand. */
export interface PrintedLot {
  readonly cutFor: string | null;
  readonly stock: number | null;
}

export interface PrintedPrep extends PrintedLot {
  readonly from: string;
  readonly step: string;
  readonly service: string;
  readonly weight: string;
  readonly parts: readonly PrintedPart[];
  readonly minutes: string;
  readonly beyond: string;
}

export interface PrintedPart {
  readonly part: string;
  readonly weight: string;
  readonly class: string;
}

export interface PrintedDish {
  readonly dish: string;
  readonly service: string;
  readonly course: string | null;
  readonly portions: number;
  readonly served: readonly { readonly service: string; readonly portions: number }[];
  readonly spareTo: readonly { readonly destination: string; readonly portions: number }[];
  readonly useBy: string | null;
  readonly weight: string;
  readonly cost: string;
  readonly costPerPortion: string;
  readonly ceiling: string | null;
  readonly minutes: string;
  readonly diets: readonly string[];
  readonly batch: { readonly portions: number; readonly vessel: string } | null;
}

export interface PrintedLimit {
  readonly code: string;
  readonly name: string | null;
  readonly service: string | null;
  readonly course: string | null;
  readonly least: string | null;
  readonly most: string | null;
  readonly orNone?: boolean;
  readonly rounding?: string;
  readonly found: string;
  readonly unit: string;
}

/** Fields of an entry of each list that plans must have for recomputing. */
const NEEDED: Readonly<Record<string, readonly string[]>> = {
  parts: ["part", "family", "class", "peel", "usable", "frozen"],
  keeps: ["name", "limit", "value"],
  limits: ["code", "name", "service", "course", "least", "most", "found", "unit"],
  cuts: ["family", "minutes", "leastLoss", "leastPeel"],
  preps: ["minutes", "beyond"],
  goings: ["needless"],
  dishes: ["minutes", "diets", "batch"],
};

/** What a plan's JSON lacks for being recomputed. */
export function missingIn(plan: Readonly<Record<string, unknown>>): string[] {
  const single = ["wastePrice", "waste", "outcome"].filter((name) => plan[name] === undefined);
  const listed = Object.entries(NEEDED).flatMap(([name, fields]) => {
    const list = plan[name];
    if (!Array.isArray(list)) return [name];
    const lacking = fields.filter((field) =>
      list.some((entry: Readonly<Record<string, unknown>>) => entry[field] === undefined),
    );
    return lacking.map((field) => `${name}[].${field}`);
  });
  return [...single, ...listed].map((name) => `missing: ${name}`);
}
