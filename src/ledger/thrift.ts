import type { Breakdown, Cut, Item, PartClass } from "../kitchen/index.js";
import { type Decimal, NO_WEIGHT, scale, type Weight, ZERO } from "../quantity/index.js";
import { LedgerError } from "./errors.js";

type ClassOf = (part: string) => PartClass;

/** Part of a breakdown's source that becomes parts of a class, 0.39 being 39 %. */
export function fractionOfClass(breakdown: Breakdown, wanted: PartClass, classOf: ClassOf): Decimal {
  return breakdown.yields
    .filter(({ part }) => classOf(part) === wanted)
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

/**
 * The breakdown that makes most food of an item, and of those alike the one with the least inedible weight; the
 * first stated where they tie. Null for an item without breakdowns.
 */
export function thriftiestBreakdown(item: Item, classOf: ClassOf): Breakdown | null {
  const food = (breakdown: Breakdown) => fractionOfClass(breakdown, "food", classOf);
  const inedible = (breakdown: Breakdown) => fractionOfClass(breakdown, "inedible", classOf);
  return item.breakdowns.reduce<Breakdown | null>((best, candidate) => {
    if (best === null) return candidate;
    const moreFood = food(candidate).comparedTo(food(best));
    const lessPeel = inedible(best).comparedTo(inedible(candidate));
    return moreFood > 0 || (moreFood === 0 && lessPeel > 0) ? candidate : best;
  }, null);
}

/**
 * Inedible-class weight of a cut beyond the least that any of the item's breakdowns leaves of the same weight,
 * by the stated yields, to the nearest milligram.
 */
export function avoidablePeelOf(cut: Cut, item: Item, classOf: ClassOf): Weight {
  const chosen = item.breakdowns.find(({ name }) => name === cut.breakdown);
  if (chosen === undefined) throw new LedgerError(`${item.name} has no breakdown "${cut.breakdown}"`);
  const inedible = fractionOfClass(chosen, "inedible", classOf);
  const least = item.breakdowns
    .map((breakdown) => fractionOfClass(breakdown, "inedible", classOf))
    .reduce((smallest, fraction) => (fraction.lessThan(smallest) ? fraction : smallest), inedible);
  return inedible.equals(least) ? NO_WEIGHT : scale(cut.weight, inedible.minus(least));
}
