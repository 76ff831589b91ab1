import {
  type CupSystem,
  type Decimal,
  type NamedUnit,
  type Unit,
  unitNamed,
  VOLUME_UNIT_NAMES,
  WEIGHT_UNIT_NAMES,
} from "../../quantity/index.js";
import { didYouMean, isWording, type Wording } from "../../reading/index.js";
import { type Parsed, parseNumber } from "./numbers.js";
import { words } from "./wording.js";

/** Splits `1.2 kg` into the figure and the unit; either may be empty. */
export function numberAndUnit(text: string): [number: string, unit: string] {
  const [, number = "", unit = ""] = /^(-?\s*[\d.,]*)\s*(.*)$/s.exec(text.trim()) ?? [];
  return [number.trim(), unit.trim()];
}

/** A number above zero; `text` is what the cook wrote around it. */
export function positive(number: string, text: string, remedy: string): Parsed<Decimal> {
  const count = number === "" ? words.unreadable(text, "an amount", remedy) : parseNumber(number, remedy);
  return !isWording(count) && count.isZero() ? words.nothing(text) : count;
}

/** A unit of weight; for anything else, what is wrong with it. */
export function weightUnit(text: string, unit: string, cups: CupSystem | null, remedy: string): Parsed<Unit> {
  if (unit === "")
    return /\d/.test(text) ? words.noUnit(text, remedy) : words.unreadable(text, "an amount", remedy);
  return asWeight(text, unit, unitNamed(unit, cups), remedy);
}

/** The named unit where it is one of weight. */
export function asWeight(text: string, unit: string, named: NamedUnit, remedy: string): Parsed<Unit> {
  if (named.kind === "unknown") return unknown(text, unit, WEIGHT_UNIT_NAMES, remedy);
  return named.kind === "unit" && named.unit.measure === "mass" ? named.unit : words.volumeForWeight(text);
}

/** A unit of weight or of volume. */
export function anyUnit(text: string, unit: string, cups: CupSystem | null, remedy: string): Parsed<Unit> {
  const named = unitNamed(unit, cups);
  if (named.kind === "unit") return named.unit;
  if (named.kind === "which cup") return words.whichCup(text);
  if (named.kind === "not in system") return words.notInSystem(named.name, named.system);
  return unknown(text, unit, [...WEIGHT_UNIT_NAMES, ...VOLUME_UNIT_NAMES], remedy);
}

/** The name of one of what a plural names: `heads`, `bunches` and `loaves` are a head, a bunch and a loaf. */
export function singular(name: string): string {
  if (/(ch|sh|x|ss)es$/.test(name)) return name.slice(0, -2);
  if (/ves$/.test(name)) return `${name.slice(0, -3)}f`;
  return /[^s]s$/.test(name) ? name.slice(0, -1) : name;
}

function unknown(text: string, unit: string, known: readonly string[], remedy: string): Wording {
  return /^\p{L}/u.test(unit) && /\d/.test(text)
    ? words.unknownUnit(unit, didYouMean(unit, known), remedy)
    : words.unreadable(text, "an amount", remedy);
}
