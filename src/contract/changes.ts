import { z } from "zod";
import { decimal } from "./decimals.js";
import type { Written } from "./figure-types.js";

/** One thing that a plan does otherwise than another plan. */
export const planChangeSchema = z.object({
  kind: z.enum(["buy", "cut", "dish", "keep"]),
  /** The item bought or cut, the dish, or what is kept past the plan. */
  name: z.string(),
  /** How it is cut; null for the others. */
  breakdown: z.string().nullable(),
  /** The service, where the sum over all services is the same in both plans; else null. */
  service: z.string().nullable(),
  /** What is counted: order units, units of the item, portions; "g" for a weight. */
  unit: z.string(),
  before: decimal,
  after: decimal,
});

export type PlanChange = Written<z.infer<typeof planChangeSchema>>;
