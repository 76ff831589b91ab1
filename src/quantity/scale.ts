import { Decimal, milligrams, type Weight } from "./exact.js";

/** How a kitchen's scale reads: in grams and kilograms, or in ounces and pounds. */
export interface Scale {
  readonly unit: "g" | "oz";
  /** Decimals that the smallest step has in that unit. */
  readonly places: number;
  /** A weight in that unit; exact for whole steps. */
  read(weight: Weight): Decimal;
  /** The larger unit, in which weights of `from` of the smaller and more are said in running text. */
  readonly large: { readonly unit: "kg" | "lb"; readonly size: number; readonly from: number };
}

/** Milligrams of the international avoirdupois ounce: 28.349523125 g (NIST Handbook 44, appendix C). */
export const OUNCE_MILLIGRAMS = new Decimal("28349.523125");
const FINEST_OUNCE_STEP = 100;

/** The scale that has such a step: one in ounces where the step is a whole part of an ounce and not of a gram. */
export function scaleWithStep(step: Weight): Scale {
  const parts = step % 100n === 0n ? null : partsOfOunce(step);
  if (parts === null)
    return {
      unit: "g",
      places: metricPlaces(step),
      read: (weight) => new Decimal(weight.toString()).div(1000),
      large: { unit: "kg", size: 1000, from: 10_000 },
    };
  return {
    unit: "oz",
    places: new Decimal(1).div(parts).decimalPlaces(),
    read: (weight) => new Decimal(weight.toString()).div(step.toString()).div(parts),
    large: { unit: "lb", size: 16, from: 16 },
  };
}

/** How many such steps make an ounce, with a decimal end to one of them; null where none do. */
function partsOfOunce(step: Weight): number | null {
  for (let parts = 1; parts <= FINEST_OUNCE_STEP; parts++)
    if (
      OUNCE_MILLIGRAMS.div(parts).toFixed(0) === step.toString() &&
      new Decimal(1).div(parts).decimalPlaces() <= 3
    )
      return parts;
  return null;
}

function metricPlaces(step: Weight): number {
  if (step % 1000n === 0n) return 0;
  if (step % 100n === 0n) return 1;
  return step % 10n === 0n ? 2 : 3;
}

/**
 * The least weight of whole steps that holds what is needed: 501 g to steps of 5 g is 505 g. A RangeError where the
 * step is nothing or the need below zero.
 */
export function roundUpToStep(needed: Weight, step: Weight): Weight {
  if (step <= 0n) throw new RangeError("the step to round up to weighs nothing");
  if (needed < 0n) throw new RangeError("a need is below zero");
  return milligrams(((needed + step - 1n) / step) * step);
}
