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
      amount: leaf.lineAmount
        .optional()
        .describe("For one portion, or in pieces; needed. Raw unless it says cooked"),
      name: leaf.name.optional().describe("Default: the part's name"),
      from: z
        .union([
          leaf.name,
          z.array(leaf.name, { error: () => WRITE.textList }),
          named(source, WRITE.keys("marrow ring: {rate: 1}")),
        ])
        .describe(
          "The part it is taken from; a list of parts that will each do; or a map with rates and shares. A part that no breakdown in use gives is passed over while another can be had",
        ),
      cooking: keyed(
        {
          method: leaf.text.optional().describe("As the tables of cooking yields call it"),
          yield: leaf.cookingYield
            .optional()
            .describe("Cooked weight of the raw; default: the tables', by part or item and method"),
        },
        WRITE.keys("method: roasted, yield: 75 %"),
      )
        .optional()
        .describe("For an amount stated cooked"),
    },
    WRITE.keys("amount: 170 g, from: marrow dice"),
  );
  const staple = z.union([
    leaf.money,
    keyed(
      {
        amount: leaf.stapleAmount.optional().describe("For one portion"),
        price: leaf.price
          .optional()
          .describe(
            "For the same measure as the amount; a volume at a price per weight, or the reverse, goes for the foods in `yield-tables/densities.csv`",
          ),
        cost: leaf.money.optional().describe("Flat cost a portion, instead of amount and price"),
        allergens: names.optional().describe("Carried to the dish"),
      },
      WRITE.keys("amount: 15 g, price: 4.00 / kg"),
    ),
  ]);
  return keyed(
    {
      course: leaf.name
        .optional()
        .describe("A course of the services that offer it; needed unless portions are stated"),
      services: names
        .optional()
        .describe(
          "Services that offer it. Default: every one with the course; with portions, the first of these, or the first of all",
        ),
      portions: leaf.wholeRange
        .optional()
        .describe("At each service that offers it; default: the course decides"),
      optional: leaf.yesNo.optional().describe("May be left out although it states portions; default no"),
      batch: keyed(
        {
          portions: leaf.whole.describe("What one batch makes"),
          halves: leaf.yesNo.optional().describe("Half batches are cooked too; default no"),
          vessel: leaf.name.optional().describe("What it is cooked in; default: batch"),
        },
        WRITE.keys("portions: 12, vessel: tray"),
      )
        .optional()
        .describe("Cooked in whole batches; default: by the portion"),
      ceiling: leaf.money.optional().describe("Most food cost a portion; default none"),
      diets: names.optional().describe("Diets it is fit for; default none"),
      allergens: names.optional().describe("Added to those of its parts and staples"),
      may_contain: names
        .optional()
        .describe("Allergens it may hold without being made of them; default: those of its items"),
      shares: names
        .optional()
        .describe(
          "Equipment it shares with other dishes, such as `fryer`: it may then contain their allergens",
        ),
      keeps: leaf.days
        .optional()
        .describe(
          "Days that what is left may be offered again, the day it was cooked being day 1; default: not at all. It takes the date of the oldest part in it that bears a legal date, and is offered no later; a part's `keeps` by quality does not bind it",
        ),
      raw_egg: leaf.yesNo.optional().describe("Whether it holds raw or lightly cooked egg; default no"),
      lines: z
        .array(line, { error: () => WRITE.list("- {amount: 170 g, from: marrow dice}") })
        .optional()
        .describe("What is weighed into it; needed"),
      staples: named(staple, WRITE.keys("olive oil: {amount: 15 g, price: 4.00 / kg}"))
        .optional()
        .describe(
          "What is only costed, by name: a flat cost a portion, or an amount and a price; default none",
        ),
      minutes: leaf.minutes
        .optional()
        .describe("Hands-on, for a batch, or a portion where no batch is stated"),
      method: texts.optional().describe("The steps of the method"),
      treatments: texts.optional().describe("What is done to parts that are food only after it"),
      cooking: keyed(
        {
          equipment: leaf.name.optional().describe("Such as `oven 190 C`"),
          time: leaf.text.optional().describe("Such as `25 min`"),
          core: leaf.text.optional().describe("Core temperature to reach, such as `75 C`"),
          portioning: leaf.text.optional().describe("Such as `one square`"),
        },
        WRITE.keys("equipment: oven 190 C, core: 75 C"),
      )
        .optional()
        .describe("For the dish sheet"),
    },
    WRITE.keys("course: main"),
  );
}
