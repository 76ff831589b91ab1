import { type Decimal, ONE } from "../../quantity/index.js";
import { wordings } from "../../reading/index.js";
import type { CardUnit } from "./card.js";

const OUNCES_IN_POUND = 16;

/** Always in the smaller unit, grams or ounces, for sums that a reader checks and writes back. */
export function smallText(grams: Decimal, { name, grams: size }: CardUnit): string {
  const [small, factor] = name === "lb" ? ["oz", size.div(OUNCES_IN_POUND)] : ["g", ONE];
  return `${grams.div(factor).toDecimalPlaces(4).toFixed()} ${small}`;
}

export const words = wordings("test-cards", {
  noTest: () => ({
    what: "the file holds no test",
    remedy: "Add `butchers_test:`, `cooking_loss_test:` or both",
  }),
  lacksTest: (key: string) => ({
    what: `the file holds no \`${key}\``,
    remedy: `Add \`${key}:\` with what was weighed, or ask for the other test`,
  }),
  noPrice: () => ({
    what: "the whole costs nothing at the AP price, so there is no cost to bear",
    remedy: "Write what a weight of it cost, such as `6.40 / kg`",
  }),
  /** `missing` is below zero where the parts are too much. All are weights as they are written. */
  doesNotClose: (
    what: string,
    whole: string,
    sum: string,
    missing: string,
    loss: string,
    hidden: string,
  ) => ({
    what: `${what} make ${sum}, ${missing.replace("-", "")} too ${missing.startsWith("-") ? "much" : "little"} for the ${whole}; ${hidden}`,
    remedy: missing.startsWith("-")
      ? "Correct a weight"
      : `Add the part that is missing, or write what was lost: \`${loss}\``,
  }),
  carriedOn: (key: string) => ({
    what: `\`${key}\` is known from the butcher's test above it`,
    remedy: "Leave it out",
  }),
  otherRawWeight: (raw: string, usable: string) => ({
    what: `the raw weight is ${raw}, and the butcher's test ends with ${usable}`,
    remedy: "Leave `raw_weight` out, or correct one of them",
  }),
  rawWeightMissing: () => ({
    what: "`raw_weight` is missing, and something was trimmed off",
    remedy: "Add what went into the oven or the pot, such as `raw_weight: 2.8 kg`",
  }),
  /** `over` in currency units, to the coin; null where they are worth just as much. */
  creditsAboveCost: (over: string | null) => ({
    what: `the by-products are worth ${over === null ? "all that the whole cost" : `${over} more than the whole cost`}`,
    remedy: "Correct a `value`: a by-product is worth no more than what it would cost to buy",
  }),
  portionTooLarge: (portion: string, weight: string) => ({
    what: `a portion of ${portion} is more than all there is, ${weight}`,
    remedy: "Correct the portion",
  }),
});

/** How much the steps of the scale can hide. */
export const hiddenBy = (weighings: number, step: string, hidden: string): string =>
  `${weighings} weighings to ${step} explain ${hidden} and no more`;
