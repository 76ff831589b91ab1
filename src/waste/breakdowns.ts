import type { Breakdown, Item, Part, PartClass } from "../kitchen/index.js";
import { type Decimal, ZERO } from "../quantity/index.js";

/** A part by its name; undefined for one the scenario does not hold. */
export type PartNamed = (name: string) => Part | undefined;

/** What a cut leaves beyond the least that breakdowns of its item leave, of one weight cut: 0.05 being 5 %. */
export interface Beyond {
  /** Beyond the breakdown with the least peel. */
  readonly peel: Decimal;
  /** Beyond the breakdown that loses least. */
  readonly loss: Decimal;
}

/** Beyond the least that the item's breakdowns of the scenario leave: of peel and of loss, each for itself. */
export function beyondLeast(item: Item, breakdown: Breakdown, partNamed: PartNamed): Beyond {
  const least = (of: (each: Breakdown) => Decimal): Decimal =>
    item.breakdowns.reduce((found, each) => (of(each).lt(found) ? of(each) : found), of(breakdown));
  const peel = (each: Breakdown): Decimal => peelFraction(each, partNamed);
  return {
    peel: peel(breakdown).minus(least(peel)),
    loss: breakdown.loss.minus(least(({ loss }) => loss)),
  };
}

/** Part of the weight cut that becomes peel: what the knife takes off more or less of. Bones and shells are none. */
function peelFraction({ yields }: Breakdown, partNamed: PartNamed): Decimal {
  return yields
    .filter(({ part }) => partNamed(part)?.isPeel)
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}

/** The peel that cutting any form of an item gives, by name. */
export function peelOfFamily(
  family: string,
  items: readonly Item[],
  partNamed: PartNamed,
): ReadonlySet<string> {
  const given = items
    .filter(({ of }) => of === family)
    .flatMap(({ breakdowns }) => breakdowns.flatMap(({ yields }) => yields.map(({ part }) => part)));
  return new Set(given.filter((part) => partNamed(part)?.isPeel));
}

/**
 * The breakdown that makes most food of an item, and of those alike the one with the least inedible weight; the
 * first stated where they tie. Null for an item without breakdowns.
 */
export function breakdownOfMostFood(item: Item, classOf: (part: string) => PartClass): Breakdown | null {
  const inedible = (each: Breakdown): Decimal => fractionOf(each, ["inedible", "never"], classOf);
  return item.breakdowns.reduce<Breakdown | null>((best, candidate) => {
    if (best === null) return candidate;
    const moreFood = foodFraction(candidate, classOf).comparedTo(foodFraction(best, classOf));
    const lessPeel = inedible(best).comparedTo(inedible(candidate));
    return moreFood > 0 || (moreFood === 0 && lessPeel > 0) ? candidate : best;
  }, null);
}

/** Part of a breakdown's source that becomes food, 0.39 being 39 %. */
export function foodFraction(breakdown: Breakdown, classOf: (part: string) => PartClass): Decimal {
  return fractionOf(breakdown, ["food"], classOf);
}

function fractionOf(
  { yields }: Breakdown,
  classes: readonly PartClass[],
  classOf: (part: string) => PartClass,
): Decimal {
  return yields
    .filter(({ part }) => classes.includes(classOf(part)))
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
}
