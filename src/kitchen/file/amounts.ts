import {
  type CupSystem,
  type Decimal,
  grams,
  unitNamed,
  type Weight,
  weightIn,
} from "../../quantity/index.js";
import { isWording } from "../../reading/index.js";
import { anyUnit, asWeight, numberAndUnit, positive, singular, weightUnit } from "./measures.js";
import { type Parsed, parseNumber, parsePercent } from "./numbers.js";
import { WRITE, words } from "./wording.js";

/** What one unit of an item gives of a part: in exact grams, so that pounds and ounces close too, or as a fraction. */
export type YieldAmount =
  | { readonly kind: "weight"; readonly grams: Decimal }
  | { readonly kind: "fraction"; readonly fraction: Decimal };

/** What one portion takes for a recipe line: by weight, or in whole pieces of the part. */
export type LineAmount =
  | { readonly kind: "weight"; readonly least: Weight; readonly most: Weight; readonly stated: Stated }
  | { readonly kind: "pieces"; readonly least: number; readonly most: number };

type Stated = "raw" | "cooked";

export type StockAmount =
  | { readonly kind: "weight"; readonly weight: Weight }
  | { readonly kind: "units"; readonly units: Decimal; readonly unitName: string };

/** An amount of a staple, exact. */
export interface StapleAmount {
  readonly value: Decimal;
  readonly unit: "g" | "mL" | "each";
}

const PIECES = /^(each|pieces?)$/;

/** `620 g`, more than nothing, to the nearest milligram. */
export function parseWeight(text: string, cups: CupSystem | null): Parsed<Weight> {
  const [number, unit] = numberAndUnit(text);
  const found = weightUnit(text, unit, cups, WRITE.weight);
  if (isWording(found)) return found;
  const count = positive(number, text, WRITE.weight);
  if (isWording(count)) return count;
  const weight = weightIn(found, count);
  return weight === 0n ? words.nothing(text) : weight;
}

const MOST_STEP = grams("1000");

/** The smallest weight that a scale shows, at most a kilogram. */
export function parseScaleStep(text: string, cups: CupSystem | null): Parsed<Weight> {
  const step = parseWeight(text, cups);
  return !isWording(step) && step > MOST_STEP ? words.atMost(text, "1 kg") : step;
}

/** `480 g` or `34 %`. */
export function parseYieldAmount(text: string, cups: CupSystem | null): Parsed<YieldAmount> {
  if (text.endsWith("%")) {
    const fraction = parsePercent(text, WRITE.yieldAmount);
    return isWording(fraction) ? fraction : { kind: "fraction", fraction };
  }
  const [number, unit] = numberAndUnit(text);
  const found = weightUnit(text, unit, cups, WRITE.yieldAmount);
  if (isWording(found)) return found;
  const count = parseNumber(number, WRITE.yieldAmount);
  return isWording(count) ? count : { kind: "weight", grams: count.times(found.factor) };
}

/** `170 g`, `150 to 180 g`, `120 g cooked`, `2 each`. */
export function parseLineAmount(text: string, cups: CupSystem | null): Parsed<LineAmount> {
  const remedy = WRITE.lineAmount;
  const stated: Stated = /\scooked$/.test(text) ? "cooked" : "raw";
  const figures = text.replace(/\s(cooked|raw)$/, "").trimEnd();
  const [first = "", second = first] = figures.split(/\sto\s/).map((side) => side.trim());
  const [mostText, unit] = numberAndUnit(second);
  const [leastText, leastUnit] = numberAndUnit(first);
  const least = positive(leastText, text, remedy);
  if (isWording(least)) return least;
  const most = positive(mostText, text, remedy);
  if (isWording(most)) return most;
  if (PIECES.test(unit)) {
    if (!least.isInteger() || !most.isInteger()) return words.unreadable(text, "whole pieces", remedy);
    if (least.greaterThan(most)) return words.mostBelowLeast(leastText, mostText);
    return { kind: "pieces", least: least.toNumber(), most: most.toNumber() };
  }
  const mostUnit = weightUnit(figures, unit, cups, remedy);
  if (isWording(mostUnit)) return mostUnit;
  const ownUnit = leastUnit === "" ? mostUnit : weightUnit(first, leastUnit, cups, remedy);
  if (isWording(ownUnit)) return ownUnit;
  const bounds = { least: weightIn(ownUnit, least), most: weightIn(mostUnit, most) };
  if (bounds.least === 0n) return words.nothing(first);
  return bounds.least > bounds.most
    ? words.mostBelowLeast(leastUnit === "" ? `${first} ${unit}` : first, second)
    : { kind: "weight", ...bounds, stated };
}

/** `2 head` or `1.2 kg`, more than nothing. */
export function parseStockAmount(text: string, cups: CupSystem | null): Parsed<StockAmount> {
  const [number, unit] = numberAndUnit(text);
  const count = positive(number, text, WRITE.stockAmount);
  if (isWording(count)) return count;
  if (unit === "") return words.noUnit(text, WRITE.stockAmount);
  const named = unitNamed(unit, cups);
  if (named.kind === "unknown") return { kind: "units", units: count, unitName: singular(unit) };
  const found = asWeight(text, unit, named, WRITE.stockAmount);
  if (isWording(found)) return found;
  const weight = weightIn(found, count);
  return weight === 0n ? words.nothing(text) : { kind: "weight", weight };
}

/** `15 g`, `10 mL`, `1 each`, more than nothing. */
export function parseStapleAmount(text: string, cups: CupSystem | null): Parsed<StapleAmount> {
  const [number, unit] = numberAndUnit(text);
  const count = positive(number, text, WRITE.stapleAmount);
  if (isWording(count)) return count;
  if (unit === "") return words.noUnit(text, WRITE.stapleAmount);
  if (PIECES.test(unit)) return { value: count, unit: "each" };
  const found = anyUnit(text, unit, cups, WRITE.stapleAmount);
  if (isWording(found)) return found;
  return { value: count.times(found.factor), unit: found.measure === "mass" ? "g" : "mL" };
}
