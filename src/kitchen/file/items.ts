import { z } from "zod";
import { keyed, named } from "../../reading/index.js";
import { choice, type Leaves, oneOrMore } from "./leaves.js";
import { WRITE } from "./wording.js";

const HANDLINGS = ["plant", "egg", "fish", "meat", "poultry"] as const;
const CLASSES = ["food", "inedible", "never"] as const;
const STATES = ["raw", "cooked", "frozen"] as const;

/** The `items`, `parts` and `steps` of a scenario file. */
export function ingredientSchemas(leaf: Leaves) {
  const names = oneOrMore(leaf.name, WRITE.textList);
  const keep = keyed(
    {
      use: leaf.name.describe("What it is kept for"),
      limit: leaf.weight.describe("Most that may be kept past the plan"),
      value: leaf.pricePerKilogram.optional().describe("What a weight kept is credited with; default 0"),
    },
    WRITE.keys("use: Monday soup, limit: 500 g"),
  );
  const breakdown = keyed(
    {
      parts: named(
        z.union([
          leaf.yieldAmount,
          keyed(
            { weight: leaf.yieldAmount, class: choice(CLASSES).optional() },
            WRITE.keys("weight: 400 g, class: inedible"),
          ),
        ]),
        WRITE.keys("ring: 480 g"),
      ).describe("What one unit gives, by weight or in percent; with the loss it is the whole unit"),
      pieces: named(leaf.whole, WRITE.keys("ring: 4"))
        .optional()
        .describe("Whole pieces of a part from one unit; that part moves whole"),
      loss: leaf.yieldAmount.optional().describe("Cutting loss; default none"),
      minutes: leaf.minutes.optional().describe("Hands-on minutes for one unit"),
      how: leaf.text.optional().describe("How it is cut"),
      source: leaf.text.optional().describe("Where the figures come from; default: this scenario"),
    },
    WRITE.keys("parts: {ring: 480 g, peel: 140 g}"),
  );
  const item = keyed(
    {
      of: leaf.name
        .optional()
        .describe("The item this is another form of: its parts are named after that one; default: itself"),
      form: leaf.name.optional().describe("Which of the tables' forms; needed where they hold several"),
      grade: leaf.name.optional(),
      supplier: leaf.name.optional(),
      price: leaf.prices
        .optional()
        .describe("For one order unit, lower from some number on; needed unless buying is off"),
      order_in: leaf.weight.optional().describe("Steps in which a loose item is bought; default 1 kg"),
      tax: leaf.part.optional().describe("Tax rate shown on the shopping list"),
      buy: leaf.buying.optional().describe("Least and most order units, or no; default: no bounds"),
      deliveries: oneOrMore(leaf.date, WRITE.list("[2026-10-02]"))
        .optional()
        .describe("Default: the date of the first service"),
      order_by: leaf.text.optional(),
      unit_weight: leaf.weight.optional().describe("What one unit weighs today; default: the tables'"),
      keeps: leaf.days.optional().describe("Days a whole unit keeps, the first being day 1"),
      on_hand: oneOrMore(
        keyed(
          {
            amount: leaf.stockAmount.describe("In units or by weight"),
            value: leaf.money.optional().describe("Worth of all of it; default 0"),
            use_by: leaf.date.optional(),
            destination: leaf.name.optional().describe("Where what is not used goes; default: it is kept"),
          },
          WRITE.keys("amount: 2 head, value: 1.20, use_by: 2026-10-03"),
        ),
        WRITE.list("[{amount: 2 head, use_by: 2026-10-03}]"),
      ).optional(),
      keep: keep.optional().describe("Permission to keep whole units past the plan"),
      treatment: leaf.text.optional().describe("What to do before cutting"),
      reject_if: leaf.text.optional().describe("When to send a delivery back"),
      substitute: leaf.text.optional().describe("What may be bought instead"),
      handling: choice(HANDLINGS).optional().describe("Default: the tables', else plant"),
      allergens: names.optional().describe("Added to the tables'"),
      may_contain: names.optional().describe("Allergens its label warns of"),
      cut: names.optional().describe("Breakdowns that may be used; default: all"),
      breakdowns: named(breakdown, WRITE.keys("rings: {parts: {ring: 480 g}}"))
        .optional()
        .describe("Own breakdowns; they replace the tables' of the same name"),
    },
    WRITE.keys("price: 1.35 / head"),
  );
  const part = keyed(
    {
      keeps: leaf.days.optional().describe("Days it keeps chilled, the day it was cut being day 1"),
      class: choice(CLASSES).optional(),
      state: choice(STATES)
        .optional()
        .describe("Default: raw; cooked where a step takes up water or works on what is cooked"),
      credit: leaf.pricePerKilogram.optional().describe("Market value, for trim credit and sales value"),
      keep: keep.optional().describe("Permission to keep it past the plan"),
      container: leaf.name.optional(),
      peel: leaf.yesNo
        .optional()
        .describe("Whether the knife decides how much of it there is; default: by its name"),
      allergens: names.optional().describe("Added to those of what it is cut from or made of"),
      food_by: leaf.text.optional().describe("Whose word it is that this is food, where no table says so"),
      on_hand: oneOrMore(
        keyed(
          {
            weight: leaf.weight,
            value: leaf.money.optional().describe("Worth of all of it; default 0"),
            use_by: leaf.date.optional(),
            destination: leaf.name.optional().describe("Where what is not used goes; default: it is kept"),
          },
          WRITE.keys("weight: 640 g, value: 0, use_by: 2026-10-02"),
        ),
        WRITE.list("[{weight: 640 g, use_by: 2026-10-02}]"),
      ).optional(),
    },
    WRITE.keys("keeps: 2 days"),
  );
  const step = keyed(
    {
      from: names.describe("The part or parts it takes, by full name"),
      gives: named(
        z.union([
          leaf.percent,
          keyed(
            { percent: leaf.percent, class: choice(CLASSES).optional() },
            WRITE.keys("percent: 22 %, class: inedible"),
          ),
        ]),
        WRITE.keys("marrow dice: 100 %"),
      ).describe("Percent of the weight taken; with the loss it is 100 % and the water"),
      loss: leaf.part.optional().describe("Default 0 %"),
      water: leaf.percent.optional().describe("Water taken up, of the weight taken; default 0 %"),
      capacity: leaf.weight.optional().describe("Most weight taken before any one service"),
      minutes_per_kg: leaf.minutes.optional(),
      how: leaf.text.optional(),
      source: leaf.text.optional(),
    },
    WRITE.keys("from: marrow ring, gives: {marrow dice: 100 %}"),
  );
  return { item, part, step };
}
