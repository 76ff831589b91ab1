import { type Decimal, grams, ZERO } from "../../quantity/index.js";
import { isWording } from "../../reading/index.js";
import { numberAndUnit, positive, weightUnit } from "../file/measures.js";
import type { Parsed } from "../file/numbers.js";
import { parsePrice } from "../file/prices.js";
import { WRITE, words } from "../file/wording.js";

/** A price for a weight as written: currency units for so many exact grams, and the name of that weight. */
export interface PriceForWeight {
  readonly amount: Decimal;
  readonly grams: Decimal;
  readonly name: string;
}

/** `8 lb 9 oz` and the other ways to write it, as the pounds and the ounces. */
const POUNDS_AND_OUNCES = /^(-?[\d.,]+\s*(?:lbs?\.?|pounds?))\s*([\d.,]+\s*(?:oz\.?|ounces?))$/i;
const NO_OUNCES = /^0+(?:\.0+)?(?=\s|o)/i;

/** A weight as a scale shows it, in exact grams: `4.2 kg`, `12 lb`, `8 lb 9 oz`. More than nothing. */
export function parseScaleWeight(text: string): Parsed<Decimal> {
  const [, pounds, ounces] = POUNDS_AND_OUNCES.exec(text) ?? [];
  if (pounds === undefined || ounces === undefined) return exactGrams(text);
  const parts = [exactGrams(pounds), NO_OUNCES.test(ounces) ? ZERO : exactGrams(ounces)];
  return (
    parts.find(isWording) ??
    parts.reduce<Decimal>((sum, part) => (isWording(part) ? sum : sum.plus(part)), ZERO)
  );
}

/** `6.40 / kg`, and nothing but a price for a weight. */
export function parsePriceForWeight(text: string): Parsed<PriceForWeight> {
  const price = parsePrice(text, null, WRITE.pricePerWeight);
  if (isWording(price)) return price;
  if (price.per.kind !== "weight")
    return words.unreadable(text, "a price for a weight", WRITE.pricePerWeight);
  return { amount: price.amount, grams: price.per.grams, name: price.per.name };
}

function exactGrams(text: string): Parsed<Decimal> {
  const [number, unit] = numberAndUnit(text);
  const found = weightUnit(text, unit, null, WRITE.weight);
  if (isWording(found)) return found;
  const count = positive(number, text, WRITE.weight);
  if (isWording(count)) return count;
  const exact = count.times(found.factor);
  return grams(exact) === 0n ? words.nothing(text) : exact;
}
