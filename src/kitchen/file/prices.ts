import { type CupSystem, Decimal, millilitresIn, ONE, unitNamed } from "../../quantity/index.js";
import { isWording } from "../../reading/index.js";
import { anyUnit, asWeight, numberAndUnit, positive, singular } from "./measures.js";
import { isLostInRounding, type Parsed, parseMoney, parseWhole } from "./numbers.js";
import { WRITE, words } from "./wording.js";

/** A price in currency units and what it buys. Weights are exact grams, volumes exact millilitres. */
export interface WrittenPrice {
  readonly amount: Decimal;
  readonly per: PricedBy;
}

/** A price that falls with the number of order units bought in one delivery. */
export interface WrittenPrices extends WrittenPrice {
  /** Fewest first. */
  readonly breaks: readonly (WrittenPrice & { readonly from: number })[];
}

type PricedBy =
  | { readonly kind: "unit"; readonly name: string }
  | { readonly kind: "weight"; readonly grams: Decimal; readonly name: string }
  | { readonly kind: "volume"; readonly millilitres: Decimal; readonly name: string }
  | { readonly kind: "pack"; readonly name: string; readonly count: number }
  | { readonly kind: "pack of weight"; readonly name: string; readonly grams: Decimal };

const NAME = /^\p{L}[\p{L} '-]*$/u;

/** `1.35 / head`, `1.35 each`, `4.00 / kg`, `1.20 / 100 g`, `8.40 / case of 6`, `6.20 / bag of 5 kg`. */
export function parsePrice(
  text: string,
  cups: CupSystem | null,
  remedy: string = WRITE.price,
): Parsed<WrittenPrice> {
  const [figure = "", ...rest] = perEach(text).split("/");
  const amount = parseMoney(figure.trim(), remedy);
  if (isWording(amount)) return amount;
  const per = rest.join("/").trim();
  if (per === "") return words.priceForWhat(text, remedy);
  const priced = pricedBy(text, per, cups, remedy);
  if (isWording(priced)) return priced;
  return isLostInRounding(amount.times(perThousand(priced)))
    ? words.roundsToNothing(text)
    : { amount, per: priced };
}

/** `1.35 each` as `1.35 / each`. */
function perEach(text: string): string {
  const figure = text.replace(/\seach$/, "").trimEnd();
  return figure.length < text.length && /[\d.]$/.test(figure) ? `${figure} / each` : text;
}

/** A price, and the lower ones from some number of order units on: `1.10 each; from 24: 0.95 each; from 48: 0.90 each`. */
export function parsePrices(text: string, cups: CupSystem | null): Parsed<WrittenPrices> {
  const [first = "", ...rest] = text.split(";").map((piece) => piece.trim());
  const price = parsePrice(first, cups);
  if (isWording(price)) return price;
  const breaks: WrittenPrices["breaks"][number][] = [];
  for (const piece of rest) {
    const [, units, written] = /^from\s+([^\s:]+)\s*:\s*(.+)$/s.exec(piece) ?? [];
    if (units === undefined || written === undefined)
      return words.unreadable(piece, "a price from some number on", WRITE.priceBreak);
    const from = parseWhole(units, WRITE.priceBreak);
    if (isWording(from)) return from;
    const lower = parsePrice(written, cups);
    if (isWording(lower)) return lower;
    const before = breaks.at(-1) ?? { ...price, from: 1 };
    if (from <= before.from) return words.breakNotAbove(from, before.from);
    breaks.push({ ...lower, from });
  }
  return { ...price, breaks };
}

/** A price for a weight, as currency units for a kilogram. */
export function parsePricePerKilogram(text: string, cups: CupSystem | null): Parsed<Decimal> {
  const price = parsePrice(text, cups, WRITE.pricePerWeight);
  if (isWording(price)) return price;
  if (price.per.kind !== "weight")
    return words.unreadable(text, "a price for a weight", WRITE.pricePerWeight);
  return price.amount.times(1000).div(price.per.grams);
}

/** From a price to that of a kilogram or litre; a unit or a pack is bought as it is. */
function perThousand(per: PricedBy): Decimal {
  if (per.kind === "weight") return new Decimal(1000).div(per.grams);
  return per.kind === "volume" ? new Decimal(1000).div(per.millilitres) : ONE;
}

function pricedBy(text: string, per: string, cups: CupSystem | null, remedy: string): Parsed<PricedBy> {
  const pack = /^(\p{L}[\p{L} -]*?) of (.+)$/su.exec(per);
  if (pack !== null) return packOf(text, per, pack[2] ?? "", cups, remedy);
  const [number, unit] = numberAndUnit(/^\d/.test(per) ? per : `1 ${per}`);
  const count = positive(number, per, remedy);
  if (isWording(count)) return count;
  if (unitNamed(unit, cups).kind === "unknown") {
    if (count.equals(1) && NAME.test(unit)) return { kind: "unit", name: singular(unit) };
    return words.unreadable(per, "something that is bought", remedy);
  }
  const found = anyUnit(per, unit, cups, remedy);
  if (isWording(found)) return found;
  return found.measure === "mass"
    ? { kind: "weight", grams: count.times(found.factor), name: per }
    : { kind: "volume", millilitres: millilitresIn(found, count), name: per };
}

function packOf(
  text: string,
  name: string,
  content: string,
  cups: CupSystem | null,
  remedy: string,
): Parsed<PricedBy> {
  const [number, unit] = numberAndUnit(content);
  const count = positive(number, text, remedy);
  if (isWording(count)) return count;
  const named = unitNamed(unit, cups);
  if (unit === "" || named.kind === "unknown") {
    return count.isInteger()
      ? { kind: "pack", name, count: count.toNumber() }
      : words.unreadable(content, "a whole number of units", remedy);
  }
  const found = asWeight(content, unit, named, remedy);
  return isWording(found) ? found : { kind: "pack of weight", name, grams: count.times(found.factor) };
}
