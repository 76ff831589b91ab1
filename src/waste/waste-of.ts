import type {
  Breakdown,
  Decision,
  Item,
  LotOrigin,
  Part,
  PartClass,
  Scenario,
  Step,
} from "../kitchen/index.js";
import { type Decimal, NO_WEIGHT, scale, smaller, total, type Weight, ZERO } from "../quantity/index.js";
import { type LossOfStep, stepLosses } from "./step-losses.js";
import { classesOf, worksInto } from "./steps.js";

/** Food and peel that a decision loses where another way of cutting or working would not. */
export interface Losses {
  /** Of each cut, in the decision's order. */
  readonly cuts: readonly LossOfCut[];
  /** Of each step, by what it was worked on: cut before a service, or an entry of the stock. */
  readonly steps: readonly LossOfStep[];
  /** Food lost in all, in cutting and in steps. */
  readonly lostFood: Weight;
  /** Peel beyond the least that breakdowns give, as far as peel was thrown away. */
  readonly avoidablePeel: Weight;
  /** Inedible parts thrown away that a step of the scenario makes food of: in all, and each, the heaviest first. */
  readonly unusedUsable: Weight;
  readonly unusedParts: readonly UnusedPart[];
}

interface UnusedPart {
  readonly part: string;
  readonly weight: Weight;
}

interface LossOfCut {
  readonly lost: Weight;
  readonly peelBeyond: Weight;
}

/** All that a cook may call waste, and what the aim counts of it. */
export interface Waste {
  readonly foodWasted: Weight;
  readonly lostFood: Weight;
  readonly avoidablePeel: Weight;
  readonly unusedUsable: Weight;
  readonly givenAway: Weight;
  /** What is made least: food wasted and lost, and so much of the others as the scenario says. */
  readonly counted: Weight;
}

/** The waste of a plan, from its losses and from the totals of its ledger. */
export function wasteOf(
  { wasteCounts: counts }: Scenario,
  { lostFood, avoidablePeel, unusedUsable }: Losses,
  totals: { readonly wastedFood: Weight; readonly givenAway: Weight },
): Waste {
  const { wastedFood: foodWasted, givenAway } = totals;
  const counted = total([
    foodWasted,
    lostFood,
    scale(avoidablePeel, counts.avoidablePeel),
    scale(unusedUsable, counts.unusedUsable),
    scale(givenAway, counts.givenAway),
  ]);
  return { foodWasted, lostFood, avoidablePeel, unusedUsable, givenAway, counted };
}

/** What a decision loses, from the scenario and the decision alone. */
export function lossesOf(scenario: Scenario, decision: Decision): Losses {
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const cuts = cutLosses(scenario, decision, parts);
  const steps = stepLosses(scenario, decision);
  const unusedParts = partsUnused(scenario, decision);
  return {
    cuts,
    steps,
    lostFood: total([...cuts, ...steps].map(({ lost }) => lost)),
    avoidablePeel: peelThrown(scenario, decision, parts, cuts),
    unusedUsable: total(unusedParts.map(({ weight }) => weight)),
    unusedParts,
  };
}

function partsUnused(scenario: Scenario, decision: Decision): UnusedPart[] {
  return [...usableParts(scenario)]
    .map((part) => ({ part, weight: sentOf(decision, new Set([part])) }))
    .filter(({ weight }) => weight > NO_WEIGHT)
    .sort((a, b) => Number(b.weight - a.weight));
}

function cutLosses({ items }: Scenario, { cuts }: Decision, parts: ReadonlyMap<string, Part>): LossOfCut[] {
  const byName = new Map(items.map((item) => [item.name, item]));
  return cuts.map(({ item: name, breakdown: way, weight }) => {
    const item = byName.get(name);
    const breakdown = item?.breakdowns.find((each) => each.name === way);
    if (item === undefined || breakdown === undefined) return { lost: NO_WEIGHT, peelBeyond: NO_WEIGHT };
    const { loss, peel } = beyondLeast(item, breakdown, (part) => parts.get(part));
    return { lost: scale(weight, loss), peelBeyond: scale(weight, peel) };
  });
}

/** By family, the forms of one item together: peel beyond the least, but no more than was thrown away. */
function peelThrown(
  { items }: Scenario,
  decision: Decision,
  parts: ReadonlyMap<string, Part>,
  losses: readonly LossOfCut[],
): Weight {
  const families = new Set(items.map(({ of }) => of));
  const familyOf = new Map(items.map(({ name, of }) => [name, of]));
  const byFamily = [...families].map((family) => {
    const beyond = total(
      decision.cuts.map(({ item }, index) =>
        familyOf.get(item) === family ? (losses[index]?.peelBeyond ?? NO_WEIGHT) : NO_WEIGHT,
      ),
    );
    const peel = peelOfFamily(family, items, (part) => parts.get(part));
    return smaller(beyond, sentOf(decision, peel, "cut"));
  });
  return total(byFamily);
}

function sentOf({ sends }: Decision, parts: ReadonlySet<string>, from?: LotOrigin["kind"]): Weight {
  return total(
    sends
      .filter(({ lot }) => parts.has(lot.part) && (from === undefined || lot.origin.kind === from))
      .map(({ weight }) => weight),
  );
}

/** Inedible parts that a step takes towards food, at once or through what further steps make of them. */
export function usableParts(scenario: Scenario): ReadonlySet<string> {
  const classOf = classesOf(scenario);
  const becomesFood = (step: Step): boolean =>
    worksInto(step, scenario).some((stands) => [...stands.keys()].some((part) => classOf(part) === "food"));
  const taken = new Set(scenario.steps.filter(becomesFood).flatMap(({ from }) => from));
  return new Set([...taken].filter((part) => classOf(part) === "inedible"));
}

/** A part by its name; undefined for one the scenario does not hold. */
type PartNamed = (name: string) => Part | undefined;

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
