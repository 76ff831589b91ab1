import { lotKey, type Part } from "../../kitchen/index.js";
import { ZERO } from "../../quantity/index.js";
import {
  beyondLeast,
  breakdownOfMostFood,
  classesOf,
  foodFraction,
  peelOfFamily,
  usableParts,
} from "../../waste/index.js";
import { Sum } from "../builder.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import type { BuildContext } from "./context.js";
import { addLostInSteps } from "./lost-in-steps.js";
import { weightOfPortions } from "./portion-weights.js";

/** Kilograms of waste as a plan counts them: a sum over variables, and what is fixed beside it. */
export interface WasteSum {
  readonly sum: Sum;
  readonly constant: number;
}

/** What `wasteOf` counts of a decision, in kilograms, with the variables and rows that it needs. */
export function addWaste(context: BuildContext): WasteSum {
  const { scenario, handles } = context;
  const counts = scenario.wasteCounts;
  const sum = new Sum();
  let constant = 0;
  addFoodWasted(sum, context);
  addLostFood(sum, context);
  if (counts.avoidablePeel.gt(ZERO)) addAvoidablePeel(sum, rate(counts.avoidablePeel), context);
  if (counts.unusedUsable.gt(ZERO)) {
    const usable = usableParts(scenario);
    for (const { lot, sum: thrown, held } of handles.thrown) {
      if (!usable.has(lot.part)) continue;
      sum.addSum(thrown, rate(counts.unusedUsable));
      constant += rate(counts.unusedUsable) * held;
    }
  }
  if (counts.givenAway.gt(ZERO)) {
    for (const { variable } of handles.gives) sum.add(variable, rate(counts.givenAway));
    for (const { site, destination, variable } of handles.spares)
      if (destination !== null)
        sum.addSum(weightOfPortions(site, [variable], context), rate(counts.givenAway));
  }
  return { sum, constant };
}

/** Parts wasted, the food in items binned, and spare portions nobody is given. */
function addFoodWasted(sum: Sum, context: BuildContext): void {
  const { handles } = context;
  const classOf = classesOf(context.scenario);
  for (const { variable } of handles.wastes) sum.add(variable, 1);
  for (const { item, variable } of handles.bins) {
    const breakdown = breakdownOfMostFood(item, classOf);
    const food = breakdown === null ? 1 : rate(foodFraction(breakdown, classOf));
    sum.add(variable, kg(item.unitWeight) * food);
  }
  for (const { site, destination, variable } of handles.spares)
    if (destination === null) sum.addSum(weightOfPortions(site, [variable], context));
}

/** What cuts lose beyond the least, and steps where another step or none would have done. */
function addLostFood(sum: Sum, context: BuildContext): void {
  const { handles } = context;
  const parts = partsOf(context);
  for (const { item, breakdown: name, variable } of handles.cuts) {
    const breakdown = item.breakdowns.find((each) => each.name === name);
    if (breakdown === undefined) continue;
    const { loss } = beyondLeast(item, breakdown, (part) => parts.get(part));
    if (loss.gt(ZERO)) sum.add(variable, rate(loss) * kg(item.unitWeight));
  }
  addLostInSteps(sum, context);
}

/** By family: what cuts peel off beyond the least, but no more than the peel that is thrown away. */
function addAvoidablePeel(sum: Sum, counted: number, context: BuildContext): void {
  const { handles, builder } = context;
  const parts = partsOf(context);
  const used = new Set([
    ...handles.goes.map(({ lot }) => lotKey(lot)),
    ...handles.draws.map(({ from }) => lotKey(from)),
    ...handles.keeps.map(({ lot }) => lotKey(lot)),
  ]);
  for (const [family, cuts] of groupBy(handles.cuts, ({ item }) => item.of).entries()) {
    const beyond = new Sum();
    let most = 0;
    for (const { item, breakdown: name, variable } of cuts) {
      const breakdown = item.breakdowns.find((each) => each.name === name);
      if (breakdown === undefined) continue;
      const peel = rate(beyondLeast(item, breakdown, (part) => parts.get(part)).peel) * kg(item.unitWeight);
      if (peel === 0) continue;
      beyond.add(variable, peel);
      most += peel * builder.upperOf(variable);
    }
    if (beyond.isEmpty) continue;
    const peel = peelOfFamily(family, context.scenario.items, (part) => parts.get(part));
    const thrown = handles.thrown.filter(({ lot }) => peel.has(lot.part) && lot.origin.kind === "cut");
    if (thrown.some(({ lot }) => used.has(lotKey(lot))))
      sum.add(addSmaller(family, { beyond, most, thrown }, context), counted);
    else sum.addSum(beyond, counted);
  }
}

/** A variable no less than the smaller of what is peeled off beyond need and what peel is thrown away. */
function addSmaller(
  family: string,
  { beyond, most, thrown }: { beyond: Sum; most: number; thrown: readonly { sum: Sum }[] },
  { builder }: BuildContext,
): number {
  const all = new Sum();
  for (const { sum } of thrown) all.addSum(sum);
  const mostThrown = all
    .terms()
    .reduce(
      (found, { variable, coefficient }) => found + Math.max(0, coefficient) * builder.upperOf(variable),
      0,
    );
  const tag = { family: "avoidable peel", item: family };
  const avoidable = builder.variable(tag, `avoidable peel of ${family}`, Math.min(most, mostThrown));
  const isUsed = builder.variable(tag, `peel of ${family} is put to use`, 1, { integer: true });
  const byBeyond = new Sum().addSum(beyond).add(avoidable, -1).add(isUsed, -most);
  builder.row(tag, `${family} peeled beyond need`, byBeyond, { upper: 0 });
  const byThrown = new Sum().addSum(all).add(avoidable, -1).add(isUsed, mostThrown);
  builder.row(tag, `${family} peel thrown away`, byThrown, { upper: mostThrown });
  return avoidable;
}

function partsOf({ scenario }: BuildContext): ReadonlyMap<string, Part> {
  return new Map(scenario.parts.map((part) => [part.name, part]));
}
