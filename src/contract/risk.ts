import { z } from "zod";
import { count, decimal } from "./decimals.js";

/** How sure a plan is: how often each dish falls short when unit weights and yields are drawn anew. */
export const riskSchema = z.object({
  seed: z.number().describe("Another seed draws other weights and yields."),
  draws: count.describe(
    "How often the plan was cut and served again, each time with other unit weights and yields.",
  ),
  cautious: z
    .object({
      asked: decimal,
      reached: z.boolean(),
      lowered: z.array(z.object({ item: z.string(), by: decimal })),
    })
    .nullable()
    .default(null)
    .describe(
      "Where the plan was made on lower yields, to be surer: by how much, and whether that made it so sure.",
    ),
  dishes: z.array(
    z.object({
      dish: z.string(),
      service: z.string(),
      portions: count.describe("Portions that covers eat."),
      chanceShort: decimal.describe("The chance, 0 to 1, that fewer can be given in full."),
      expectedShort: decimal.describe("Portions missing: the mean of all draws."),
      mostShort: decimal.describe("Portions missing: what nineteen of twenty draws do not exceed."),
      more: z
        .array(
          z.object({
            chance: decimal,
            reached: decimal,
            units: z.array(z.object({ item: z.string(), units: count, orderUnit: z.string() })).nullable(),
          }),
        )
        .describe(
          "Order units beside the plan's with which the chance of having all is at least so high; `units` is null where none were found.",
        ),
    }),
  ),
});
