import { Decimal, grams, type Weight } from "./exact.js";

/**
 * Which cup, and with it which spoon and fluid ounce: the US customary ones, exact; the metric ones; or the
 * rounded ones that US food labels use.
 */
export type CupSystem = "us" | "metric" | "us_label";

export const CUP_SYSTEMS: readonly CupSystem[] = ["us", "metric", "us_label"];

/** A unit of weight (factor in grams) or of volume (factor in millilitres), exact. */
export interface Unit {
  readonly name: string;
  readonly measure: "mass" | "volume";
  readonly factor: Decimal;
}

/** What a written unit name stands for. */
export type NamedUnit =
  | { readonly kind: "unit"; readonly unit: Unit }
  /** A cup, spoon or the like, and no system stated. */
  | { readonly kind: "which cup"; readonly name: string }
  /** The stated system has no such measure. */
  | { readonly kind: "not in system"; readonly name: string; readonly system: CupSystem }
  | { readonly kind: "unknown" };

/**
 * Avoirdupois pound: 453.59237 g exactly, its sixteenth the ounce. International yard and pound agreement of
 * 1959; NIST SP 811 App. B, NIST Handbook 44 App. C (from memory). The label ounce of 28 g is a rule of its
 * own: 21 CFR 101.9(b)(5)(viii).
 */
const MASSES: Readonly<Record<string, string>> = {
  g: "1",
  mg: "0.001",
  kg: "1000",
  oz: "28.349523125",
  lb: "453.59237",
  "label oz": "28",
};

const VOLUMES: Readonly<Record<string, string>> = {
  mL: "1",
  cL: "10",
  L: "1000",
  // US gallon: 231 cubic inches of 25.4 mm exactly; 4 quarts, 8 pints, 16 cups, 128 fluid ounces; a cup is 16
  // tablespoons or 48 teaspoons. Structure: NIST SP 430, 2004; figures: NIST Handbook 44 App. C, from memory.
  "us tsp": "4.92892159375",
  "us tbsp": "14.78676478125",
  "us fl oz": "29.5735295625",
  "us cup": "236.5882365",
  "us pint": "473.176473",
  "us quart": "946.352946",
  "us gallon": "3785.411784",
  // The cup of 250 mL with the 15 mL spoon is Canadian usage, from memory. An Australian tablespoon is 20 mL, and is
  // to be written in mL.
  "metric tsp": "5",
  "metric tbsp": "15",
  "metric cup": "250",
  // 21 CFR 101.9(b)(5)(viii).
  "us_label tsp": "5",
  "us_label tbsp": "15",
  "us_label fl oz": "30",
  "us_label cup": "240",
  // Imperial gallon: 4.54609 L exactly, 8 pints, 160 fluid ounces. UK Units of Measurement Regulations and NIST
  // SP 811 App. B, from memory.
  "imperial fl oz": "28.4130625",
  "imperial pint": "568.26125",
  "imperial quart": "1136.5225",
  "imperial gallon": "4546.09",
};

/** Measures whose size depends on the system. */
const BARE_MEASURES: readonly string[] = ["tsp", "tbsp", "fl oz", "cup", "pint", "quart", "gallon"];

const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ["gram", "g"],
  ["kilogram", "kg"],
  ["kilo", "kg"],
  ["ounce", "oz"],
  ["pound", "lb"],
  ["ml", "mL"],
  ["millilitre", "mL"],
  ["milliliter", "mL"],
  ["cl", "cL"],
  ["l", "L"],
  ["litre", "L"],
  ["liter", "L"],
  ["teaspoon", "tsp"],
  ["tablespoon", "tbsp"],
  ["fluid ounce", "fl oz"],
  ["pt", "pint"],
  ["qt", "quart"],
  ["gal", "gallon"],
]);

const UNITS: ReadonlyMap<string, Unit> = new Map(
  [
    ...Object.entries(MASSES).map(([name, factor]) => ({ name, measure: "mass" as const, factor })),
    ...Object.entries(VOLUMES).map(([name, factor]) => ({ name, measure: "volume" as const, factor })),
  ].map(({ name, measure, factor }) => [name, { name, measure, factor: new Decimal(factor) }]),
);

/** Every name a weight may be written in, for "did you mean". */
export const WEIGHT_UNIT_NAMES: readonly string[] = [
  ...Object.keys(MASSES),
  ...[...OTHER_NAMES].flatMap(([other, name]) => (Object.hasOwn(MASSES, name) ? [other] : [])),
];

/** Every name a volume may be written in, for "did you mean". */
export const VOLUME_UNIT_NAMES: readonly string[] = [
  ...Object.keys(VOLUMES).filter((name) => !name.includes(" ")),
  ...BARE_MEASURES,
];

/**
 * The unit that a name stands for: `kg`, `pounds`, `us cup`, `imperial pint`, or a bare `cup` under the
 * system stated. Plurals and the written-out names are taken too.
 */
export function unitNamed(name: string, system: CupSystem | null): NamedUnit {
  const written = name.trim().replace(/\s+/g, " ").replace(/\.$/, "");
  for (const candidate of [written, written.replace(/s$/, ""), written.toLowerCase().replace(/s$/, "")]) {
    const plain = OTHER_NAMES.get(candidate) ?? candidate;
    const unit = UNITS.get(plain);
    if (unit !== undefined) return { kind: "unit", unit };
    if (!BARE_MEASURES.includes(plain)) continue;
    if (system === null) return { kind: "which cup", name: plain };
    const stated = UNITS.get(`${system} ${plain}`);
    return stated === undefined
      ? { kind: "not in system", name: plain, system }
      : { kind: "unit", unit: stated };
  }
  return { kind: "unknown" };
}

/** So many of a unit of weight, to the nearest milligram (half up). Throws RangeError for a unit of volume. */
export function weightIn(unit: Unit, count: Decimal): Weight {
  if (unit.measure !== "mass")
    throw new RangeError(`${unit.name} is a unit of volume: a weight needs a density`);
  return grams(count.times(unit.factor));
}

/** So many of a unit of volume in millilitres, exact. Throws RangeError for a unit of weight. */
export function millilitresIn(unit: Unit, count: Decimal): Decimal {
  if (unit.measure !== "volume")
    throw new RangeError(`${unit.name} is a unit of weight: a volume needs a density`);
  return count.times(unit.factor);
}
