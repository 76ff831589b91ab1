import { z } from "zod";
import { planChangeSchema } from "./changes.js";
import { decimal } from "./decimals.js";
import type { Written } from "./figure-types.js";

/** What a changed scenario's plan has more (or, negative, less) of than the plan in hand. */
const differenceSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("plan"),
    /** Of the aim, in grams or currency units. */
    aim: decimal,
    waste: decimal,
    netSpend: decimal,
    /** Whether both plans are proved least. */
    proved: z.boolean(),
    /** What is bought otherwise. */
    purchases: z.array(planChangeSchema),
  }),
  z.object({ kind: z.literal("no plan") }),
  /** Not known in the time. */
  z.object({ kind: z.literal("no answer") }),
]);

const orNot = differenceSchema.nullable();

/** What `worth --json` prints. A difference is null where the question has no sense, or was not reached in the time. */
export const worthSchema = z.object({
  schema: z.literal("trim-to-use/worth@1"),
  scenario: z.string(),
  currency: z.string(),
  aim: z.enum(["waste", "cost", "balanced"]),
  outcome: z.enum(["worth", "no plan", "no answer"]),
  /** Questions asked in the time, and all there are. */
  asked: z.object({ done: z.number(), of: z.number() }),
  parts: z.array(
    z.object({
      part: z.string(),
      /** Weight the plan has of it: cut, made, and in the house. */
      weight: decimal,
      /** Weight of it that ends where no one eats it. */
      wasted: decimal,
      /** One useful step: 100 g, or a piece where it moves whole. */
      step: decimal,
      /** With a step more of it in the house; with a step of it taken for something else. */
      more: orNot,
      less: orNot,
      /** Were it no use at all. */
      without: orNot,
      /** Most of it that any plan could use. */
      mostUsed: decimal.nullable(),
    }),
  ),
  items: z.array(
    z.object({ item: z.string(), units: z.number(), orderUnit: z.string(), more: orNot, less: orNot }),
  ),
  dishes: z.array(
    z.object({
      dish: z.string(),
      portions: z.number(),
      /** With a portion more or less of it; null where it is cooked for several services. */
      more: orNot,
      less: orNot,
      /** Left out. */
      without: orNot,
    }),
  ),
  /** Dishes that the plan leaves out, were they made at a service that may offer them. */
  candidates: z.array(z.object({ dish: z.string(), service: z.string(), made: orNot })),
});

export type WorthJson = Written<z.infer<typeof worthSchema>>;
export type Difference = Written<z.infer<typeof differenceSchema>>;
