import { Decimal } from "./decimal.js";
import { milligrams, type Weight } from "./exact.js";
import { type CupSystem, type Unit, unitNamed } from "./units.js";

/**
 * Rounding of what a line needs to what a kitchen can measure out. It goes up, always: a figure rounded here is
 * never less than the need. A need below zero is a RangeError.
 */

/** An amount as a kitchen measures it out: the words, and exactly how much that is. */
export interface Measured<T> {
  readonly text: string;
  readonly amount: T;
}

const TABLESPOON_IN_TEASPOONS = 3;
const SPOON_PARTS = 4;
const OUNCES_IN_POUND = 16;
const OUNCE_PARTS = 4;

/** The measuring cups of a US set, and the two sizes that two of them make up. */
const CUP_FRACTIONS: readonly Fraction[] = [
  { text: "", over: [0, 1] },
  { text: "1/4", over: [1, 4] },
  { text: "1/3", over: [1, 3] },
  { text: "1/2", over: [1, 2] },
  { text: "2/3", over: [2, 3] },
  { text: "3/4", over: [3, 4] },
];

/** Level scoops in a US quart: the number of a scoop (USDA Food Buying Guide, tables of measures, from memory). */
export const SCOOP_NUMBERS = [6, 8, 10, 12, 16, 20, 24, 30, 40, 50, 60] as const;
export type ScoopNumber = (typeof SCOOP_NUMBERS)[number];

interface Fraction {
  readonly text: string;
  readonly over: readonly [number, number];
}

/** The least whole number of `unit` that holds `needed`: packs, cases, half pounds to be ordered. */
export function unitsToCover(needed: Weight, unit: Weight): bigint {
  if (unit <= 0n) throw new RangeError("the unit to round up to weighs nothing");
  if (needed < 0n) throw new RangeError("a need is below zero");
  return (needed + unit - 1n) / unit;
}

/** The next weight that the scale shows, or that is sold: 501 g to steps of 5 g is 505 g. */
export function roundUpToStep(needed: Weight, step: Weight): Weight {
  return milligrams(unitsToCover(needed, step) * step);
}

/** Millilitres to quarter teaspoons, said in tablespoons and teaspoons: "2 tbsp 1 1/4 tsp". */
export function roundUpToSpoons(millilitres: Decimal, system: CupSystem): Measured<Decimal> {
  const quarter = unitOf("tsp", system).factor.div(SPOON_PARTS);
  const quarters = wholeUp(millilitres, quarter);
  const perTablespoon = TABLESPOON_IN_TEASPOONS * SPOON_PARTS;
  const tablespoons = Math.floor(quarters / perTablespoon);
  const teaspoons = mixedNumber(quarters % perTablespoon, SPOON_PARTS);
  return { text: joined([tablespoons, "tbsp"], [teaspoons, "tsp"]), amount: quarter.times(quarters) };
}

/** Millilitres to whole cups and quarters, thirds or halves of one: "1 2/3 cup". */
export function roundUpToCups(millilitres: Decimal, system: CupSystem): Measured<Decimal> {
  const cup = unitOf("cup", system).factor;
  const whole = Math.floor(notBelowZero(millilitres).div(cup).toNumber());
  const sizes = [whole, whole + 1].flatMap((count) => CUP_FRACTIONS.map((fraction) => ({ count, fraction })));
  const amountOf = ({ count, fraction }: { readonly count: number; readonly fraction: Fraction }) =>
    cup.times(count * fraction.over[1] + fraction.over[0]).div(fraction.over[1]);
  const least = sizes.find((size) => amountOf(size).gte(millilitres));
  if (least === undefined) throw new RangeError(`${millilitres.toString()} mL is no number of cups`);
  const number = [least.count === 0 ? "" : String(least.count), least.fraction.text]
    .filter(Boolean)
    .join(" ");
  return { text: `${number || "0"} cup`, amount: amountOf(least) };
}

/** The scoop that holds at least the portion, the nearest above it; null where none is large enough. */
export function scoopFor(portionMillilitres: Decimal): Measured<Decimal> | null {
  const needed = notBelowZero(portionMillilitres);
  const sizes = [...SCOOP_NUMBERS].reverse().map((number) => ({ number, amount: scoopVolume(number) }));
  const least = sizes.find(({ amount }) => amount.gte(needed));
  return least === undefined ? null : { text: `scoop no. ${least.number}`, amount: least.amount };
}

/** Millilitres to whole level scoops of one size. */
export function roundUpToScoops(millilitres: Decimal, number: ScoopNumber): Measured<Decimal> {
  const volume = scoopVolume(number);
  const count = wholeUp(millilitres, volume);
  return { text: `${count} x scoop no. ${number}`, amount: volume.times(count) };
}

/** A weight to quarter ounces, said in avoirdupois pounds and ounces: "9 lb 6 1/4 oz". The amount is in grams. */
export function roundUpToPounds(needed: Weight): Measured<Decimal> {
  const quarter = unitOf("oz", null).factor.div(OUNCE_PARTS);
  const quarters = wholeUp(new Decimal(needed.toString()).div(1000), quarter);
  const perPound = OUNCES_IN_POUND * OUNCE_PARTS;
  const ounces = mixedNumber(quarters % perPound, OUNCE_PARTS);
  return {
    text: joined([Math.floor(quarters / perPound), "lb"], [ounces, "oz"]),
    amount: quarter.times(quarters),
  };
}

/** US quart of 946.352946 mL over the number of the scoop. */
function scoopVolume(number: ScoopNumber): Decimal {
  return unitOf("quart", "us").factor.div(number);
}

function unitOf(name: string, system: CupSystem | null): Unit {
  const named = unitNamed(name, system);
  if (named.kind !== "unit") throw new RangeError(`there is no ${name} in the ${system} system`);
  return named.unit;
}

/** The least whole number of `unit` that is not below `amount`. */
function wholeUp(amount: Decimal, unit: Decimal): number {
  return notBelowZero(amount).div(unit).ceil().toNumber();
}

function notBelowZero(amount: Decimal): Decimal {
  if (amount.isNegative() && !amount.isZero()) throw new RangeError("a need is below zero");
  return amount;
}

/** 5 quarters as "1 1/4", 2 as "1/2", 0 as "". */
function mixedNumber(count: number, parts: number): string {
  const whole = Math.floor(count / parts);
  const rest = count % parts;
  const common = rest % 2 === 0 && parts % 2 === 0 ? 2 : 1;
  const fraction = rest === 0 ? "" : `${rest / common}/${parts / common}`;
  return [whole === 0 ? "" : String(whole), fraction].filter(Boolean).join(" ");
}

/** "1 lb 4 oz", without what is nothing; all nothing is "0" of the smallest. */
function joined(large: readonly [number, string], small: readonly [string, string]): string {
  const words = [
    large[0] === 0 ? "" : `${large[0]} ${large[1]}`,
    small[0] === "" ? "" : `${small[0]} ${small[1]}`,
  ];
  return words.filter(Boolean).join(" ") || `0 ${small[1]}`;
}
