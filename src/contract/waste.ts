import { z } from "zod";
import { count, decimal, stock, weight } from "./decimals.js";

/** What a cook may call waste, in grams, each figure and what of it the aim counts. */
export const wasteSchema = z.object({
  counted: weight.describe("What the aim counts of the others, each at its share."),
  foodWasted: weight,
  lostFood: weight,
  avoidablePeel: weight,
  unusedUsable: weight,
  givenAway: weight,
  counts: z
    .object({ avoidablePeel: decimal, unusedUsable: decimal, givenAway: decimal })
    .describe("At what part of its weight each counts, 1 being whole."),
  unusedParts: z
    .array(z.object({ part: z.string(), weight }))
    .describe("What `unusedUsable` is made of, the heaviest first."),
  lostInCuts: z
    .array(z.object({ item: z.string(), lostFood: weight, peelBeyond: weight }))
    .describe(
      "Of cuts, in the order of `cuts`: food and peel beyond the least that the item's breakdowns lose.",
    ),
  needless: z
    .array(
      z.object({
        going: count,
        steps: z.array(z.string()),
        sources: z.array(z.array(z.string())).optional(),
      }),
    )
    .describe(
      "Goings, by their place in `goings`, with the steps that their lines could have done without, and for each of these the parts it takes that the line could have had as they were, which plans kept by earlier versions do not say.",
    ),
  lostInSteps: z
    .array(z.object({ step: z.string(), cutFor: z.string().nullable(), stock, lostFood: weight }))
    .describe("Food lost in steps that were not needed, or not in this way."),
});
