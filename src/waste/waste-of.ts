import type { Decision, LotOrigin, Part, Scenario, Step } from "../kitchen/index.js";
import { NO_WEIGHT, scale, smaller, total, type Weight } from "../quantity/index.js";
import { beyondLeast, peelOfFamily } from "./breakdowns.js";
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

export interface UnusedPart {
  readonly part: string;
  readonly weight: Weight;
}

export interface LossOfCut {
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
