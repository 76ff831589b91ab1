import { z } from "zod";
import { decimal } from "./decimals.js";
import type { Written } from "./figure-types.js";

const breakEven = z.object({
  /**
   * "below": it saves below the price; "never": at no price; "any": at any price; "needed": the others (of "instead",
   * each of them alone) make no plan;
   * "no plan": it alone makes none; "terms": its supplier's least order or charge can make plans cheaper as its price
   * rises, so it is not looked for; "unknown": not settled in the time, or credits are above the cost.
   */
  verdict: z.enum(["below", "never", "any", "needed", "no plan", "terms", "unknown"]),
  /** For one order unit, to the hundredth: a hundredth less is worth it, this is not; null but for "below". */
  price: decimal.nullable(),
  /** For a kilogram as bought. */
  perKilogram: decimal.nullable(),
  /** Whether every plan behind it is proved least. */
  proved: z.boolean(),
});

/** What `forms --json` prints: the forms of one item side by side, by arithmetic and, of a scenario, by its plans. */
export const formChoiceSchema = z.object({
  schema: z.literal("trim-to-use/form-choice@1"),
  /** What the forms are forms of. */
  item: z.string(),
  /** Null where prices alone were given. */
  scenario: z.string().nullable(),
  currency: z.string(),
  /** For an hour of cutting and further steps; null where hands cost nothing extra. */
  wage: decimal.nullable(),
  /** The parts that are usable here. */
  wanted: z.array(z.string()),
  /** By the weight as bought, the cheapest per usable weight first. */
  forms: z.array(
    z.object({
      item: z.string(),
      form: z.string(),
      /** Its cheapest way of cutting. */
      breakdown: z.string(),
      /** The order unit, its price and its weight in grams. */
      unit: z.string(),
      price: decimal,
      unitWeight: decimal,
      pricePerKilogram: decimal,
      /** Of one weight bought: 0.61 being 61 %. */
      usable: decimal,
      minutesPerKilogram: decimal,
      /** For a usable kilogram, hands at the wage among it. */
      usableCost: decimal,
      overCheapest: decimal,
      /** The price at which it costs as much per usable weight as the best of the others; null where it is alone. */
      breakEven: z
        .object({
          against: z.string(),
          price: decimal,
          perKilogram: decimal,
          /** Minutes a kilogram may take before the other is as cheap; null without a wage. */
          minutesPerKilogram: decimal.nullable(),
        })
        .nullable(),
    }),
  ),
  /** The scenario planned with each form alone, then with the choice free; null without a scenario. */
  plans: z
    .object({
      aim: z.enum(["waste", "cost", "balanced"]),
      ways: z.array(
        z.object({
          /** The only form bought; null where the choice is free. */
          item: z.string().nullable(),
          outcome: z.enum(["plan", "no plan", "unknown"]),
          proved: z.boolean(),
          figures: z
            .object({
              bought: z.array(
                z.object({
                  item: z.string(),
                  units: z.number(),
                  unit: z.string(),
                  weight: decimal,
                  cost: decimal,
                }),
              ),
              /** All that the plan buys, not this item alone; less what is kept at its stated value. */
              netSpend: decimal,
              /** Grams, as a plan's `waste` counts them. */
              waste: decimal,
              /** Grams of food that cutting these forms gave and that was on hand, less what of their parts is wasted. */
              used: decimal,
              /** What the forms bought cost, for a kilogram used; null where nothing is. */
              costPerUsed: decimal.nullable(),
              /** Hands-on minutes of all cuts and further steps. */
              minutes: decimal,
              /** Null without a wage. */
              wageCost: decimal.nullable(),
            })
            .nullable(),
        }),
      ),
      /** By plans of least cost (or of the balanced aim), with hands at the wage. */
      breakEvens: z.array(
        z.object({
          item: z.string(),
          /** Bought instead of the best other form alone. */
          instead: breakEven,
          /** Bought at all, the others being there to choose too. */
          beside: breakEven,
        }),
      ),
    })
    .nullable(),
});

export type FormChoiceJson = Written<z.infer<typeof formChoiceSchema>>;
