import type { Breakdown, Cut, Item, PartClass } from "../kitchen/index.js";
import { type Decimal, NO_WEIGHT, scale, type Weight, ZERO } from "../quantity/index.js";
import { LedgerError } from "./errors.js";

type ClassOf = (part: string) => PartClass;

/** Part of a breakdown's source that becomes parts of the classes, 0.39 being 39 %. */
function fractionOf(breakdown: Breakdown, classes: readonly PartClass[], classOf: ClassOf): Decimal {
  return breakdown.yields
    .filter(({ part }) => classes.includes(classOf(part)))
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

/** What is not for eating: inedible parts, and never-eat ones with them. */
function inedibleFraction(breakdown: Breakdown, classOf: ClassOf): Decimal {
  return fractionOf(breakdown, ["inedible", "never"], classOf);
}

/**
 * The breakdown that makes most food of an item, and of those alike the one with the least inedible weight; the
 * first stated where they tie. Null for an item without breakdowns.
 */
export function thriftiestBreakdown(item: Item, classOf: ClassOf): Breakdown | null {
  return item.breakdowns.reduce<Breakdown | null>((best, candidate) => {
    if (best === null) return candidate;
    const moreFood = fractionOf(candidate, ["food"], classOf).comparedTo(fractionOf(best, ["food"], classOf));
    const lessPeel = inedibleFraction(best, classOf).comparedTo(inedibleFraction(candidate, classOf));
    return moreFood > 0 || (moreFood === 0 && lessPeel > 0) ? candidate : best;
  }, null);
}

/**
 * Inedible weight of a cut (never-eat parts counted with it) beyond the least that any of the item's breakdowns
 * leaves of the same weight, by the stated yields, to the nearest milligram.
 */
export function avoidablePeelOf(cut: Cut, item: Item, classOf: ClassOf): Weight {
  const chosen = item.breakdowns.find(({ name }) => name === cut.breakdown);
  if (chosen === undefined) throw new LedgerError(`${item.name} has no breakdown "${cut.breakdown}"`);
  const inedible = inedibleFraction(chosen, classOf);
  const least = item.breakdowns
    .map((breakdown) => inedibleFraction(breakdown, classOf))
    .reduce((smallest, fraction) => (fraction.lessThan(smallest) ? fraction : smallest), inedible);
  return inedible.equals(least) ? NO_WEIGHT : scale(cut.weight, inedible.minus(least));
}
