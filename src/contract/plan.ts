import { z } from "zod";
import { DESTINATION_KINDS } from "../kitchen/index.js";
import { askedSchema } from "./asked.js";
import { amount, count, currency, date, decimal, weight } from "./decimals.js";

const optionalDate = date.nullable();

/** Which of the scenario's parts on hand the lot is or was made of, from 0; null for a lot that was cut. */
const stock = count.nullable();

const partWeight = z.object({
  part: z.string(),
  weight,
  class: z.enum(["food", "inedible", "never"]),
});

const riskSchema = z.object({
  seed: z.number(),
  /** How often the plan was cut and served again, each time with other unit weights and yields. */
  draws: count,
  /** Where the plan was made on lower yields, to be surer: by how much, and whether that made it so sure. */
  cautious: z
    .object({
      asked: decimal,
      reached: z.boolean(),
      lowered: z.array(z.object({ item: z.string(), by: decimal })),
    })
    .nullable()
    .default(null),
  dishes: z.array(
    z.object({
      dish: z.string(),
      service: z.string(),
      /** Portions that covers eat. */
      portions: count,
      /** The chance, 0 to 1, that fewer can be given in full. */
      chanceShort: decimal,
      /** Portions missing: the mean of all draws, and what nineteen of twenty draws do not exceed. */
      expectedShort: decimal,
      mostShort: decimal,
      /** Order units beside the plan's with which the chance of having all is at least so high; null: not found. */
      more: z.array(
        z.object({
          chance: decimal,
          reached: decimal,
          units: z.array(z.object({ item: z.string(), units: count, orderUnit: z.string() })).nullable(),
        }),
      ),
    }),
  ),
});

const wasteSchema = z.object({
  counted: weight,
  foodWasted: weight,
  lostFood: weight,
  avoidablePeel: weight,
  unusedUsable: weight,
  givenAway: weight,
  /** At what part of its weight each counts, 1 being whole. */
  counts: z.object({ avoidablePeel: decimal, unusedUsable: decimal, givenAway: decimal }),
  /** What `unusedUsable` is made of, the heaviest first. */
  unusedParts: z.array(z.object({ part: z.string(), weight })),
  /** Of cuts, in the order of `cuts`: food and peel beyond the least that the item's breakdowns lose. */
  lostInCuts: z.array(z.object({ item: z.string(), lostFood: weight, peelBeyond: weight })),
  /**
   * Goings, by their place in `goings`, with the steps that their lines could have done without, and for each of these
   * the parts it takes that the line could have had as they were, which plans kept by earlier versions do not say.
   */
  needless: z.array(
    z.object({
      going: count,
      steps: z.array(z.string()),
      sources: z.array(z.array(z.string())).optional(),
    }),
  ),
  /** Food lost in steps that were not needed, or not in this way. */
  lostInSteps: z.array(
    z.object({ step: z.string(), cutFor: z.string().nullable(), stock, lostFood: weight }),
  ),
});

/** What `plan --json` prints: the plan as other programs read it. Fields may be added, none renamed. */
export const planSchema = z.object({
  schema: z.literal("trim-to-use/plan@1"),
  scenario: z.string(),
  aim: z.enum(["waste", "cost", "balanced"]),
  outcome: z.object({
    kind: z.enum(["optimal", "feasible", "infeasible", "unbounded", "failed"]),
    engine: z.string(),
    /**
     * Of the plan as printed. Grams for the waste aim, else currency units; so are the next three and the values of
     * the stages; of "freshest", kilogram-days.
     */
    objective: decimal.nullable(),
    /** Of the model, which the proof is about; and what rounding to the scale added to it, or took off. */
    beforeRounding: decimal.nullable().default(null),
    rounding: decimal.nullable().default(null),
    bound: decimal.nullable(),
    gap: decimal.nullable(),
    seconds: z.number().min(0),
    certified: z.boolean(),
    /** Why the search ended before its proof, and the same in words, which for a solver are its own. */
    stopCode: z
      .enum(["time", "breakdown", "solver", "size", "rounding", "ceilings", "certainty"])
      .nullable()
      .default(null),
    stoppedBy: z.string().nullable(),
  }),
  stages: z.array(
    z.object({ aim: z.string(), value: decimal, bound: decimal, gap: decimal, engine: z.string() }),
  ),
  /** The services the plan is for, in order. */
  services: z.array(z.object({ name: z.string(), date, covers: count })),
  /** The scenario's destinations by name, with what happens there. */
  destinations: z.array(z.object({ name: z.string(), kind: z.enum(DESTINATION_KINDS) })),
  purchases: z.array(
    z.object({
      item: z.string(),
      form: z.string(),
      service: z.string(),
      units: count,
      orderUnit: z.string(),
      weight,
      /** Of the goods alone. */
      cost: amount,
      /** Its share of what its delivery is charged; left out where that is nothing. */
      delivery: amount.optional(),
    }),
  ),
  onHand: z.array(
    z.object({
      kind: z.enum(["item", "part"]),
      name: z.string(),
      weight,
      value: amount,
      useBy: optionalDate,
    }),
  ),
  cuts: z.array(
    z.object({
      item: z.string(),
      breakdown: z.string(),
      service: z.string(),
      /** Whole units; null for an item cut by weight. */
      units: count.nullable(),
      weight,
      parts: z.array(partWeight),
      loss: weight,
    }),
  ),
  preps: z.array(
    z.object({
      from: z.string(),
      /** Service before which the lot was cut; null for stock on hand. */
      cutFor: z.string().nullable(),
      stock,
      step: z.string(),
      service: z.string(),
      weight,
      water: weight,
      parts: z.array(partWeight),
      loss: weight,
    }),
  ),
  goings: z.array(
    z.object({
      part: z.string(),
      dish: z.string(),
      /** The service the dish is cooked for. */
      service: z.string(),
      line: z.string(),
      /** Place of the line in the dish's recipe, from 1. */
      lineNumber: count.min(1),
      weight,
      pieces: count.nullable(),
      /** Service before which the part's lot was cut, and that date; null for stock on hand. */
      cutFor: z.string().nullable(),
      stock,
      cut: optionalDate,
      useBy: optionalDate,
    }),
  ),
  dishes: z.array(
    z.object({
      dish: z.string(),
      service: z.string(),
      course: z.string().nullable(),
      portions: count,
      /** Portions of this cooking that are eaten, at this service or a later one. */
      eaten: count,
      spare: count,
      /** Where portions are eaten, when some wait for a later service. */
      served: z.array(z.object({ service: z.string(), portions: count })),
      /** Last day on which what is left may be offered; null where it is not offered again. */
      useBy: optionalDate,
      /** Where spare portions go. */
      spareTo: z.array(z.object({ destination: z.string(), portions: count })),
      /** Weight of all portions cooked, as counted in the ledger. */
      weight,
      cost: amount,
      costPerPortion: amount,
      ceiling: amount.nullable(),
    }),
  ),
  /** What items lost in store, uncut; only of what happened. */
  storageLosses: z.array(z.object({ item: z.string(), weight })).optional(),
  leftovers: z.array(
    z.object({
      /** A part, a binned item, or spare portions of a dish. */
      part: z.string(),
      kind: z.enum(["part", "item", "portions"]),
      class: z.enum(["food", "inedible", "never"]),
      weight,
      /** Service before which the part's lot was cut; null for stock on hand, items and portions. */
      cutFor: z.string().nullable(),
      stock,
      destination: z.string(),
      end: z.enum(["sent", "kept", "binned", "spare"]),
      /** Service before which an item is binned or kept, with its whole units; null for all else. */
      service: z.string().nullable(),
      units: count.nullable(),
      useBy: optionalDate,
    }),
  ),
  transfers: z.array(
    z.object({ from: z.string(), to: z.string(), weight, money: amount, cause: z.string() }),
  ),
  weights: z.object({
    unit: z.literal("g"),
    purchased: weight,
    onHand: weight,
    absorbed: weight,
    inDishes: weight,
    givenAway: weight,
    closingStock: weight,
    wastedFood: weight,
    inedible: weight,
    losses: weight,
    /** An "of which" of inedible. */
    avoidablePeel: weight,
  }),
  /** What a cook may call waste, and what of it the aim counts: food wasted, food lost, and the others as said. */
  waste: wasteSchema,
  /** What the plan was asked to keep to. */
  asked: askedSchema,
  money: z.object({
    currency,
    spent: amount,
    stockValue: amount,
    inDishes: amount,
    givenAway: amount,
    closingStock: amount,
    wasted: amount,
  }),
  warnings: z.array(
    z.object({
      code: z.string(),
      text: z.string(),
      source: z.string(),
      part: z.string().nullable(),
      dish: z.string().nullable(),
    }),
  ),
  reasons: z.array(z.object({ change: z.string(), text: z.string(), checked: z.string() })),
  /** Stated where the time was over before all reasons had been looked for. */
  reasonsCut: z.literal(true).optional(),
  /** How sure the plan is; null where that was not asked. */
  risk: riskSchema.nullable().default(null),
  /** Of what happened: every figure there was to weigh, and whether it was. A plan has none. */
  weighIn: z
    .object({
      figures: count,
      weighed: count,
      rows: z.array(
        z.object({
          what: z.string(),
          service: z.string(),
          name: z.string(),
          way: z.string(),
          part: z.string(),
          lot: z.string(),
          unit: z.string(),
          planned: amount,
          actual: amount,
          weighed: z.boolean(),
          reason: z.string(),
          by: z.string(),
          time: z.string(),
        }),
      ),
    })
    .optional(),
});

export type PlanJson = z.infer<typeof planSchema>;

/** Whether there is a plan, proved best or not. */
export function hasPlan({ outcome }: Pick<PlanJson, "outcome">): boolean {
  return outcome.kind === "optimal" || outcome.kind === "feasible";
}

/** Proved best, or proved that there is none: planning again would say the same. */
export function isProved({ outcome }: PlanJson): boolean {
  return outcome.kind === "optimal" || outcome.kind === "infeasible";
}
