import { z } from "zod";
import { keyed, named } from "../../reading/index.js";
import { type Leaves, oneOrMore } from "./leaves.js";
import { WRITE } from "./wording.js";

/** One entry of the `dishes` of a scenario file. */
export function dishSchema(leaf: Leaves) {
  const texts = oneOrMore(leaf.text, WRITE.textList);
  const names = oneOrMore(leaf.name, WRITE.textList);
  const source = keyed(
    {
      rate: leaf.number
        .optional()
        .describe("Grams of the line that one gram of the part stands for; default 1"),
      share: leaf.share.optional().describe("Least and greatest share of the line; default 0 to 100 %"),
    },
    WRITE.keys("rate: 1, share: 50 to 100 %"),
  );
  const line = keyed(
    {
      amount: leaf.lineAmount.optional().describe("Needed. For one portion; raw unless it says cooked"),
      name: leaf.name.optional().describe("Default: the part's name"),
      from: z
        .union([
          leaf.name,
          z.array(leaf.name, { error: () => WRITE.textList }),
          named(source, WRITE.keys("marrow ring: {rate: 1}")),
        ])
        .describe("The part it is taken from; a list of parts, or a map with rates and shares"),
      cooking: keyed(
        {
          method: leaf.text.optional(),
          yield: leaf.cookingYield.optional().describe("Cooked weight of the raw; default: the tables'"),
        },
        WRITE.keys("method: roasted, yield: 75 %"),
      ).optional(),
    },
    WRITE.keys("amount: 170 g, from: marrow dice"),
  );
  const staple = z.union([
    leaf.money,
    keyed(
      {
        amount: leaf.stapleAmount.optional(),
        price: leaf.price.optional(),
        cost: leaf.money.optional().describe("Flat cost a portion, instead of amount and price"),
        allergens: names.optional(),
      },
      WRITE.keys("amount: 15 g, price: 4.00 / kg"),
    ),
  ]);
  return keyed(
    {
      course: leaf.name.optional(),
      services: names.optional().describe("Default: all that have the course; with portions, the first"),
      portions: leaf.wholeRange.optional().describe("At each service; default: the course decides"),
      optional: leaf.yesNo.optional().describe("May be left out although it states portions; default no"),
      batch: keyed(
        {
          portions: leaf.whole,
          halves: leaf.yesNo.optional().describe("Half batches are cooked too; default no"),
          vessel: leaf.name.optional().describe("Default: batch"),
        },
        WRITE.keys("portions: 12, vessel: tray"),
      ).optional(),
      ceiling: leaf.money.optional().describe("Most food cost a portion"),
      diets: names.optional().describe("Diets it is fit for"),
      allergens: names.optional().describe("Added to those of its parts and staples"),
      may_contain: names.optional().describe("Allergens it may hold without being made of them"),
      shares: names
        .optional()
        .describe("Equipment it shares with other dishes, whose allergens it may then contain"),
      keeps: leaf.days.optional().describe("Days what is left may be offered again; default: not at all"),
      raw_egg: leaf.yesNo.optional().describe("Default no"),
      lines: z.array(line, { error: () => WRITE.list("- {amount: 170 g, from: marrow dice}") }).optional(),
      staples: named(staple, WRITE.keys("olive oil: {amount: 15 g, price: 4.00 / kg}")).optional(),
      minutes: leaf.minutes
        .optional()
        .describe("Hands-on, for a batch, or a portion where no batch is stated"),
      method: oneOrMore(leaf.text, WRITE.textList).optional(),
      treatments: texts.optional().describe("What is done to parts that are food only after it"),
      cooking: keyed(
        {
          equipment: leaf.name.optional(),
          time: leaf.text.optional(),
          core: leaf.text.optional().describe("Core temperature to reach"),
          portioning: leaf.text.optional(),
        },
        WRITE.keys("equipment: oven 190 C, core: 75 C"),
      ).optional(),
    },
    WRITE.keys("course: main"),
  );
}
