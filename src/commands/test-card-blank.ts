import type { TestKind } from "../yields/index.js";

const HEAD = `item:              # what was bought, such as pork loin
grade:             # as on the label; leave out what you do not need
supplier:
date:              # year-month-day
currency: EUR
ap_weight:         # as purchased, such as 4.2 kg or 9 lb 4 oz
ap_price:          # for a weight, such as 6.40 / kg
# scale_step: 5 g               # the smallest weight your scale shows; 1 g or 0.25 oz where not stated
# new_price: 7.10 / kg          # a later AP price, to re-price by cost factor`;

const BUTCHERS = `butchers_test:
  by_products:     # all that is cut off, by name; a value where it can be used or sold
    fat:           # such as 600 g
    bones: {weight: , value: }  # such as {weight: 800 g, value: 1.20 / kg}
  cutting_loss:    # juice, drip and crumbs: what is still missing from the AP weight
  usable_weight:
  portion:         # one portion of the usable part, such as 180 g`;

const COOKING = `cooking_loss_test:
  method:          # such as roasted at 160 C to a core of 68 C
  trimmed:         # cut off before cooking; leave out where nothing is, or after a butchers_test
    fat:
  cutting_loss:
  raw_weight:      # into the oven or the pot
  cooked_weight:
  carved:          # taken off after cooking, by name
    bones:
  carving_loss:
  served_weight:
  portion:         # one portion as served, such as 150 g`;

/** A file of a test to fill in. */
export function blankTestCard(kind: TestKind): string {
  return `${HEAD}\n\n${kind === "butchers" ? BUTCHERS : COOKING}`;
}
