import { z } from "zod";
import { keyed, named, scalar } from "../../reading/index.js";
import { leaves } from "../file/leaves.js";
import { WRITE } from "../file/wording.js";
import { parsePriceForWeight, parseScaleWeight } from "./figures.js";

/** A butcher's test or a cooking-loss test as the file states it: every figure read, nothing checked. */
export type TestCardFile = z.output<typeof testCardSchema>;

const leaf = leaves(null);
const weight = scalar(parseScaleWeight, WRITE.weight);
const price = scalar(parsePriceForWeight, WRITE.pricePerWeight);

/** By-products by name: a weight alone where it can be neither used nor sold. */
const byProducts = named(
  z.union([
    weight,
    keyed(
      {
        weight: weight.describe("What it weighs"),
        value: price.optional().describe("Market value; default none"),
      },
      WRITE.keys("weight: 400 g, value: 3.00 / kg"),
    ),
  ]),
  WRITE.keys("fat: 1.2 kg"),
);

/** The schema of a file that holds a butcher's test, a cooking-loss test, or one after the other. */
export const testCardSchema = keyed(
  {
    item: leaf.name.describe("What was bought"),
    invented: leaf.yesNo.optional().describe("A note for readers"),
    grade: leaf.name.optional().describe("For the card"),
    supplier: leaf.name.optional().describe("For the card"),
    date: leaf.date.optional().describe("The day it was weighed"),
    tested_by: leaf.name.optional().describe("Who weighed it"),
    currency: leaf.currency.describe("ISO 4217 code"),
    locale: leaf.locale.optional().describe("How figures are written; default en-GB"),
    scale_step: weight
      .optional()
      .describe("The smallest weight the scale shows; default 1 g, or 0.25 oz where the price is for pounds"),
    ap_weight: weight.describe("Weight as purchased; may be written in pounds and ounces, `8 lb 9 oz`"),
    ap_price: price.describe("What a weight of it cost; a price for pounds makes a card in pounds"),
    new_price: price
      .optional()
      .describe("A later AP price: cost times cost factor, as long as by-product prices move alike"),
    butchers_test: keyed(
      {
        by_products: byProducts
          .optional()
          .describe("What is cut off, by name: a weight, or a weight and what it is worth"),
        cutting_loss: weight.optional().describe("Juice, drip and crumbs; default none"),
        usable: leaf.name.optional().describe("What the usable part is called; default: usable"),
        usable_weight: weight.describe("What the usable part weighs"),
        portion: weight.optional().describe("Weight of one portion of the usable part"),
      },
      WRITE.keys("by_products: {fat: 1.2 kg}, usable_weight: 2.8 kg"),
    )
      .optional()
      .describe("A joint cut down; one of the two tests is needed"),
    cooking_loss_test: keyed(
      {
        method: leaf.text.optional().describe("How it was cooked"),
        trimmed: byProducts.optional().describe("Cut off before cooking; after a butcher's test it is known"),
        cutting_loss: weight.optional().describe("Lost in trimming before cooking; default none"),
        raw_weight: weight.optional().describe("Default: the usable weight, or all that was bought"),
        cooked_weight: weight.describe("Weight when it is cooked, before carving"),
        carved: byProducts.optional().describe("Bones, skin and ends taken off after cooking"),
        carving_loss: weight.optional().describe("Crumbs and juice lost in carving; default none"),
        served: leaf.name.optional().describe("What is served is called; default: served"),
        served_weight: weight.describe("What is served, after carving"),
        portion: weight.optional().describe("Weight of one portion as served"),
      },
      WRITE.keys("cooked_weight: 2.2 kg, served_weight: 2 kg"),
    )
      .optional()
      .describe("A joint cooked and carved; after a butcher's test, what is known by it may be left out"),
  },
  WRITE.keys("item: pork loin, ap_weight: 4.2 kg"),
);
