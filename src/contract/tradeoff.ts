import { z } from "zod";
import { planChangeSchema } from "./changes.js";
import { decimal } from "./decimals.js";
import type { Written } from "./figure-types.js";
import { planSchema } from "./plan.js";

/** What `tradeoff --json` prints: plans that no other beats on both waste and net spend, from the least waste on. */
export const tradeoffSchema = z.object({
  schema: z.literal("trim-to-use/tradeoff@1"),
  scenario: z.string(),
  currency: z.string(),
  outcome: z.enum(["curve", "no plan", "no answer"]),
  /** Whether these are all there are, but for steps smaller than `steps`. */
  complete: z.boolean(),
  /** What ended the search before that. */
  stoppedBy: z.string().nullable(),
  /** A plan better by less than this in grams or in money is not looked for. */
  steps: z.object({ waste: decimal, netSpend: decimal }).nullable(),
  plans: z.array(
    z.object({
      /** Grams, as the plan's `waste` counts them. */
      waste: decimal,
      /** What is spent less what is kept at its stated value. */
      netSpend: decimal,
      /** Whether it is proved that none is better on one of the two and no worse on the other. */
      proved: z.boolean(),
      /** What it does otherwise than the one before. */
      changes: z.array(planChangeSchema),
      plan: planSchema,
    }),
  ),
});

export type TradeoffJson = Written<z.infer<typeof tradeoffSchema>>;
