import { z } from "zod";
import { DESTINATION_KINDS } from "../kitchen/index.js";
import { askedSchema } from "./asked.js";
import { amount, count, currency, date, decimal, stock, weight } from "./decimals.js";
import type { Written } from "./figure-types.js";
import { riskSchema } from "./risk.js";
import { wasteSchema } from "./waste.js";

const optionalDate = date.nullable();

const partWeight = z.object({
  part: z.string(),
  weight,
  class: z.enum(["food", "inedible", "never"]),
});

/** What `plan --json` prints: the plan as other programs read it. Fields may be added, none renamed. */
export const planSchema = z.object({
  schema: z.literal("trim-to-use/plan@1").describe("Fields may be added under this name, none renamed."),
  scenario: z.string().describe("Its name."),
  aim: z.enum(["waste", "cost", "balanced"]).describe("What was made least first."),
  outcome: z
    .object({
      kind: z
        .enum(["optimal", "feasible", "infeasible", "unbounded", "failed"])
        .describe(
          "Proved best; a plan, not proved best; proved that there is none; without a least; no answer.",
        ),
      engine: z.string().describe("The solver, or solvers, that it comes from."),
      objective: decimal
        .nullable()
        .describe(
          "Of the plan as printed: grams for the waste aim, else currency units. So are the next three.",
        ),
      beforeRounding: decimal
        .nullable()
        .default(null)
        .describe("Of the model, which `bound` and `gap` are about."),
      rounding: decimal
        .nullable()
        .default(null)
        .describe("What rounding to the scale added to it, or took off."),
      bound: decimal.nullable().describe("No plan can have less."),
      gap: decimal
        .nullable()
        .describe("How much less another plan could have at most, as a share: 0.01 is 1 %."),
      seconds: z.number().min(0).describe("How long it took."),
      certified: z
        .boolean()
        .describe("Whether every row, bound and whole number was checked without the solver."),
      stopCode: z
        .enum(["time", "breakdown", "solver", "size", "rounding", "ceilings", "certainty"])
        .nullable()
        .default(null)
        .describe("Why the search ended before its proof."),
      stoppedBy: z.string().nullable().describe("The same in words, which for a solver are its own."),
    })
    .describe("How good the plan is, or why there is none."),
  stages: z
    .array(
      z.object({
        aim: z.string(),
        value: decimal.describe("As of `outcome.objective`; of `freshest`, in kilogram-days."),
        bound: decimal,
        gap: decimal,
        engine: z.string(),
      }),
    )
    .describe("Each aim solved, in order."),
  services: z
    .array(z.object({ name: z.string(), date, covers: count }))
    .describe("The services the plan is for, in order."),
  destinations: z
    .array(z.object({ name: z.string(), kind: z.enum(DESTINATION_KINDS) }))
    .describe("The scenario's destinations by name, with what happens there."),
  purchases: z
    .array(
      z.object({
        item: z.string(),
        form: z.string(),
        service: z.string(),
        units: count,
        orderUnit: z.string(),
        weight,
        cost: amount.describe("Of the goods alone."),
        delivery: amount
          .optional()
          .describe("Its share of what its delivery is charged; left out where that is nothing."),
      }),
    )
    .describe("What comes in."),
  onHand: z
    .array(
      z.object({
        kind: z.enum(["item", "part"]),
        name: z.string(),
        weight,
        value: amount,
        useBy: optionalDate,
      }),
    )
    .describe("What is in the house already."),
  cuts: z
    .array(
      z.object({
        item: z.string(),
        breakdown: z.string(),
        service: z.string(),
        units: count.nullable().describe("Whole units; null for an item cut by weight."),
        weight,
        parts: z.array(partWeight),
        loss: weight,
      }),
    )
    .describe("How items are cut, with the parts each cut gives."),
  preps: z
    .array(
      z.object({
        from: z.string(),
        cutFor: z
          .string()
          .nullable()
          .describe("Service before which the lot was cut; null for stock on hand."),
        stock,
        step: z.string(),
        service: z.string(),
        weight,
        water: weight,
        parts: z.array(partWeight),
        loss: weight,
      }),
    )
    .describe("How parts are worked by further steps, with what each gives."),
  goings: z
    .array(
      z.object({
        part: z.string(),
        dish: z.string(),
        service: z.string().describe("The service the dish is cooked for."),
        line: z.string(),
        lineNumber: count.min(1).describe("Place of the line in the dish's recipe, from 1."),
        weight,
        pieces: count.nullable(),
        cutFor: z
          .string()
          .nullable()
          .describe("Service before which the part's lot was cut, and that date; null for stock on hand."),
        stock,
        cut: optionalDate,
        useBy: optionalDate,
      }),
    )
    .describe("Which part goes into which dish, and its dates."),
  dishes: z
    .array(
      z.object({
        dish: z.string(),
        service: z.string(),
        course: z.string().nullable(),
        portions: count,
        eaten: count.describe("Portions of this cooking that are eaten, at this service or a later one."),
        spare: count,
        served: z
          .array(z.object({ service: z.string(), portions: count }))
          .describe("Where portions are eaten, when some wait for a later service."),
        useBy: optionalDate.describe(
          "Last day on which what is left may be offered; null where it is not offered again.",
        ),
        spareTo: z
          .array(z.object({ destination: z.string(), portions: count }))
          .describe("Where spare portions go."),
        weight: weight.describe("Weight of all portions cooked, as counted in the ledger."),
        cost: amount,
        costPerPortion: amount,
        ceiling: amount.nullable(),
      }),
    )
    .describe("Portions, where they are eaten, and cost against ceiling."),
  storageLosses: z
    .array(z.object({ item: z.string(), weight }))
    .optional()
    .describe("What items lost in store, uncut; only of what happened."),
  leftovers: z
    .array(
      z.object({
        part: z.string().describe("A part, a binned item, or spare portions of a dish."),
        kind: z.enum(["part", "item", "portions"]),
        class: z.enum(["food", "inedible", "never"]),
        weight,
        cutFor: z
          .string()
          .nullable()
          .describe(
            "Service before which the part's lot was cut; null for stock on hand, items and portions.",
          ),
        stock,
        destination: z.string(),
        end: z.enum(["sent", "kept", "binned", "spare"]),
        service: z
          .string()
          .nullable()
          .describe(
            "Service before which an item is binned or kept, with its whole units; null for all else.",
          ),
        units: count.nullable(),
        useBy: optionalDate,
      }),
    )
    .describe("What nobody eats at a service, and where it goes."),
  transfers: z
    .array(z.object({ from: z.string(), to: z.string(), weight, money: amount, cause: z.string() }))
    .describe("Every movement between accounts, in grams and money; all totals are sums of these."),
  weights: z
    .object({
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
      avoidablePeel: weight.describe('An "of which" of inedible.'),
    })
    .describe("The identity of weights."),
  waste: wasteSchema.describe(
    "What a cook may call waste, and what of it the aim counts: food wasted, food lost, and the others as said.",
  ),
  asked: askedSchema.describe(
    "What the plan was asked to keep to: weights in grams, money in currency units, shares with 1 being whole, minutes hands-on; null where there is no limit.",
  ),
  money: z
    .object({
      currency,
      spent: amount,
      stockValue: amount,
      inDishes: amount,
      givenAway: amount,
      closingStock: amount,
      wasted: amount,
    })
    .describe("The identity of money."),
  warnings: z
    .array(
      z.object({
        code: z.string(),
        text: z.string(),
        source: z.string(),
        part: z.string().nullable(),
        dish: z.string().nullable(),
      }),
    )
    .describe("What to beware of, and who says so."),
  reasons: z
    .array(z.object({ change: z.string(), text: z.string(), checked: z.string() }))
    .describe(
      "Where there is no plan: changes that would each make one possible, and how they were checked.",
    ),
  reasonsCut: z
    .literal(true)
    .optional()
    .describe("Stated where the time was over before all reasons had been looked for."),
  risk: riskSchema.nullable().default(null).describe("How sure the plan is; null where that was not asked."),
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
    .optional()
    .describe("Of what happened: every figure there was to weigh, and whether it was. A plan has none."),
});

/** A plan as it is printed and kept. */
export type PlanJson = Written<z.infer<typeof planSchema>>;

/** Whether there is a plan, proved best or not. */
export function hasPlan({ outcome }: Pick<PlanJson, "outcome">): boolean {
  return outcome.kind === "optimal" || outcome.kind === "feasible";
}

/** Proved best, or proved that there is none: planning again would say the same. */
export function isProved({ outcome }: PlanJson): boolean {
  return outcome.kind === "optimal" || outcome.kind === "infeasible";
}
