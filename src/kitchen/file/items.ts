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
      limit: leaf.weight.describe("Most that may be kept for it"),
      value: leaf.pricePerKilogram
        .optional()
        .describe("What a weight kept is credited with where cost is made least; default 0"),
    },
    WRITE.keys("use: Monday soup, limit: 500 g"),
  );
  const breakdown = keyed(
    {
      parts: named(
        z.union([
          leaf.yieldAmount,
          keyed(
            {
              weight: leaf.yieldAmount.describe("By weight or in percent"),
              class: choice(CLASSES).optional().describe("Default: the tables', else food"),
            },
            WRITE.keys("weight: 400 g, class: inedible"),
          ),
        ]),
        WRITE.keys("ring: 480 g"),
      ).describe(
        "What one unit gives, all by weight or all in percent; of an item cut by weight the unit is 1 kg. With the loss it is the whole unit, to the milligram",
      ),
      pieces: named(leaf.whole, WRITE.keys("ring: 4"))
        .optional()
        .describe(
          "Pieces of a part from one unit; that part moves whole, in pieces of its weight divided by their number, rounded down to the milligram. Default: not counted",
        ),
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
        .describe(
          "The item this is another form of, or the same form of in another pack or from another supplier. Parts are named after that one; default: itself",
        ),
      form: leaf.name.optional().describe("Which of the tables' forms; needed where they hold several"),
      grade: leaf.name.optional().describe("For the shopping list"),
      supplier: leaf.name.optional().describe("Who brings it, for the shopping list and `suppliers`"),
      price: leaf.prices
        .optional()
        .describe(
          "For one order unit, with breaks where more cost less; needed unless buying is off. Whole items: by the unit, the pack, or a weight (then one unit is ordered at its weight). Items cut by weight: by weight or the bag",
        ),
      order_in: leaf.weight
        .optional()
        .describe(
          "Steps in which an item priced by weight is bought; default 1 kg, or 1 lb where it is priced by the pound",
        ),
      tax: leaf.part.optional().describe("Tax rate shown on the shopping list"),
      buy: leaf.buying
        .optional()
        .describe("Least and most order units; `no` switches buying off; default: no bounds"),
      deliveries: oneOrMore(leaf.date, WRITE.list("[2026-10-02]"))
        .optional()
        .describe(
          "A delivery comes before the first service that is not earlier; days spent waiting are taken off `keeps`. Default: the date of the first service",
        ),
      order_by: leaf.text.optional().describe("For the shopping list"),
      unit_weight: leaf.weight.optional().describe("What one unit weighs today; default: the tables'"),
      keeps: leaf.days
        .optional()
        .describe(
          "Days a whole unit keeps, the day it arrives being day 1; default: the tables'. Needed for an item of no table where the services lie on more than one day",
        ),
      on_hand: oneOrMore(
        keyed(
          {
            amount: leaf.stockAmount.describe("In units or by weight"),
            value: leaf.money.optional().describe("Worth of all of it; default 0"),
            use_by: leaf.date.optional().describe("Needed for what keeps a limited time"),
            destination: leaf.name
              .optional()
              .describe(
                "Where what is not used and would keep past the plan goes; default: it stays in stock",
              ),
          },
          WRITE.keys("amount: 2 head, value: 1.20, use_by: 2026-10-03"),
        ),
        WRITE.list("[{amount: 2 head, use_by: 2026-10-03}]"),
      )
        .optional()
        .describe("What is in the house already; default none"),
      keep: keep
        .optional()
        .describe(
          "Whole units left for a named use, credited up to the limit; the value may not be above the cost. More stays in stock without credit. Default: what keeps stays in stock",
        ),
      treatment: leaf.text.optional().describe("What to do before cutting; default: the tables'"),
      reject_if: leaf.text.optional().describe("When to send a delivery back"),
      substitute: leaf.text.optional().describe("What may be bought instead"),
      handling: choice(HANDLINGS)
        .optional()
        .describe(
          "What may lie beside it on the board; what the tables call food of animals is no plant. Default: the tables', else plant",
        ),
      allergens: names.optional().describe("Added to the tables'"),
      may_contain: names.optional().describe("Allergens its label warns of"),
      cut: names.optional().describe("Breakdowns that may be used, own ones among them; default: all"),
      breakdowns: named(breakdown, WRITE.keys("rings: {parts: {ring: 480 g}}"))
        .optional()
        .describe("Own breakdowns; they replace the tables' of the same name"),
    },
    WRITE.keys("price: 1.35 / head"),
  );
  const part = keyed(
    {
      keeps: leaf.days
        .optional()
        .describe(
          "Days it keeps chilled, the day it was cut being day 1. Default: the tables'; else as long as what a step makes it from; else the day it is cut only",
        ),
      class: choice(CLASSES)
        .optional()
        .describe("What the tables call never stays so. Default: the breakdown's, the tables', else food"),
      state: choice(STATES)
        .optional()
        .describe(
          "Default: the tables'; cooked where a step takes up water or works on what is cooked; else raw",
        ),
      credit: leaf.pricePerKilogram
        .optional()
        .describe("Market value, for the costings `trim credit` and `sales value`; default none"),
      keep: keep
        .optional()
        .describe(
          "What is kept past the plan for a named use. Only for a part that keeps longer than its day; valued at no more than the least it can cost. Default: not kept",
        ),
      container: leaf.name.optional().describe("What it is stored in"),
      peel: leaf.yesNo
        .optional()
        .describe(
          "Whether the knife decides how much of an inedible part there is, so that more than need be is avoidable peel; default: by its name",
        ),
      allergens: names.optional().describe("Added to those of what it is cut from or made of"),
      food_by: leaf.text
        .optional()
        .describe(
          "Whose word it is that this part is food, where no table knows it as food; nothing is planned with such a part without it, and it is printed as the kitchen's own. What must never be eaten stays so",
        ),
      on_hand: oneOrMore(
        keyed(
          {
            weight: leaf.weight.describe("How much there is"),
            value: leaf.money.optional().describe("Worth of all of it; default 0"),
            use_by: leaf.date.optional().describe("Needed for what keeps a limited time"),
            destination: leaf.name
              .optional()
              .describe(
                "Where what is not used and would keep past the plan goes; default: it stays in stock",
              ),
          },
          WRITE.keys("weight: 640 g, value: 0, use_by: 2026-10-02"),
        ),
        WRITE.list("[{weight: 640 g, use_by: 2026-10-02}]"),
      )
        .optional()
        .describe("What is in the house already; default none"),
    },
    WRITE.keys("keeps: 2 days"),
  );
  const step = keyed(
    {
      from: names.describe("The part or parts it takes, by full name, gram for gram alike"),
      gives: named(
        z.union([
          leaf.percent,
          keyed(
            {
              percent: leaf.percent.describe("Of the weight taken"),
              class: choice(CLASSES).optional().describe("Default: what `parts` says, else food"),
            },
            WRITE.keys("percent: 22 %, class: inedible"),
          ),
        ]),
        WRITE.keys("marrow dice: 100 %"),
      ).describe(
        "What it makes, in percent of the weight taken; with the loss it is 100 % and the water. Nothing to eat can be made of what must not be eaten",
      ),
      loss: leaf.part.optional().describe("What leaves, of the weight taken; default 0 %"),
      water: leaf.percent.optional().describe("Water taken up, of the weight taken; default 0 %"),
      capacity: leaf.weight
        .optional()
        .describe("Most weight taken before any one service: what the pot holds; default none"),
      minutes_per_kg: leaf.minutes.optional().describe("Hands-on minutes for a kilogram taken"),
      how: leaf.text.optional().describe("How it is done"),
      source: leaf.text.optional().describe("Where the figures come from; default: this scenario"),
    },
    WRITE.keys("from: marrow ring, gives: {marrow dice: 100 %}"),
  );
  return { item, part, step };
}
