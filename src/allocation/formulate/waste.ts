import { type Lot, lotKey, originKey, originName, type Scenario, type Step } from "../../kitchen/index.js";
import { type Decimal, ZERO } from "../../quantity/index.js";
import {
  beyondLeast,
  breakdownOfMostFood,
  classesOf,
  foodFraction,
  isNeededFor,
  peelOfFamily,
  setsWorked,
  type TakenOff,
  takenAsItIs,
  takenOffBy,
  usableParts,
  worksInto,
} from "../../waste/index.js";
import { partsByName } from "../costs.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { Sum, type Tag } from "../model.js";
import type { BuildContext, DrawHandle, GoHandle } from "./context.js";
import { drawUnit } from "./parts.js";
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
  const parts = partsByName(context.scenario);
  for (const { item, breakdown, variable } of handles.cuts) {
    const { loss } = beyondLeast(item, breakdown, (part) => parts.get(part));
    if (loss.gt(ZERO)) sum.add(variable, rate(loss) * kg(item.unitWeight));
  }
  addLostInSteps(sum, context);
}

/** By family: what cuts peel off beyond the least, but no more than the peel that is thrown away. */
function addAvoidablePeel(sum: Sum, counted: number, context: BuildContext): void {
  const { handles, builder } = context;
  const parts = partsByName(context.scenario);
  const used = new Set([
    ...handles.goes.map(({ lot }) => lotKey(lot)),
    ...handles.draws.map(({ from }) => lotKey(from)),
    ...handles.keeps.map(({ lot }) => lotKey(lot)),
  ]);
  for (const [family, cuts] of groupBy(handles.cuts, ({ item }) => item.of).entries()) {
    const beyond = new Sum();
    let most = 0;
    for (const { item, breakdown, variable } of cuts) {
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
  const mostThrown = builder.mostOf(all);
  const tag = { family: "avoidable peel", item: family };
  const avoidable = builder.variable(tag, `avoidable peel of ${family}`, Math.min(most, mostThrown));
  const isUsed = builder.variable(tag, `peel of ${family} is put to use`, 1, { integer: true });
  const byBeyond = new Sum().addSum(beyond).add(avoidable, -1).add(isUsed, -most);
  builder.row(tag, `${family} peeled beyond need`, byBeyond, { upper: 0 });
  const byThrown = new Sum().addSum(all).add(avoidable, -1).add(isUsed, mostThrown);
  builder.row(tag, `${family} peel thrown away`, byThrown, { upper: mostThrown });
  return avoidable;
}

/** What steps on food take off where another step, or none, would have done: `stepLosses`, in kilograms. */
export function addLostInSteps(sum: Sum, context: BuildContext): void {
  const { scenario, handles } = context;
  const classOf = classesOf(scenario);
  const goesOf = groupBy(handles.goes, ({ lot }) => originKey(lot.origin));
  const keepsOf = groupBy(handles.keeps, ({ lot }) => originKey(lot.origin));
  for (const [step, draws] of groupBy(handles.draws, (draw) => draw.step).entries()) {
    const takenOff = takenOffBy(step, scenario, classOf);
    if (takenOff === null) continue;
    const into = worksInto(step, scenario);
    for (const [key, ofOrigin] of groupBy(draws, ({ from }) => originKey(from.origin)).entries()) {
      const uses = usesOf(step, into, { goes: goesOf.of(key), keeps: keepsOf.of(key) }, scenario);
      addWork(sum, { step, takenOff, draws: ofOrigin, into, uses }, context);
    }
  }
}

/** A step on food of one origin. */
interface Work {
  readonly step: Step;
  readonly takenOff: TakenOff;
  readonly draws: readonly DrawHandle[];
  readonly into: readonly ReadonlyMap<string, Decimal>[];
  readonly uses: readonly UseOfWork[];
}

/** What goes into a line, or is kept, with the sources of a step that could have gone there as they were. */
interface UseOfWork {
  readonly part: string;
  readonly variable: number;
  readonly unit: number;
  readonly asItIs: readonly string[];
}

function usesOf(
  step: Step,
  into: Work["into"],
  {
    goes,
    keeps,
  }: { readonly goes: readonly GoHandle[]; readonly keeps: Readonly<BuildContext["handles"]["keeps"]> },
  scenario: Scenario,
): UseOfWork[] {
  const isMade = ({ part }: Lot): boolean => into.some((stands) => stands.has(part));
  const gone = goes.flatMap(({ lot, site, line: index, unit, variable }): UseOfWork[] => {
    const line = site.dish.lines[index];
    if (line === undefined || !isMade(lot)) return [];
    const asItIs = takenAsItIs(
      { line, service: site.service, part: lot.part, origin: lot.origin },
      step,
      scenario,
    );
    return [{ part: lot.part, variable, unit, asItIs }];
  });
  const kept = keeps
    .filter(({ lot }) => isMade(lot))
    .map(({ lot, variable }): UseOfWork => ({ part: lot.part, variable, unit: 1, asItIs: [] }));
  return [...gone, ...kept];
}

function addWork(sum: Sum, work: Work, context: BuildContext): void {
  const { step, takenOff, draws, uses } = work;
  const [first] = draws;
  if (first === undefined) return;
  const all = weightOf(draws, context);
  sum.addSum(all.worked, rate(takenOff.beyond));
  const rest = rate(takenOff.all.minus(takenOff.beyond));
  if (rest === 0) return;
  if (uses.length === 0) {
    sum.addSum(all.worked, rest);
    return;
  }
  const tag = { family: "worked needlessly", step: step.name };
  const name = `${step.name}, ${originName(context.scenario, first.from.origin)}, needlessly`;
  const needless = context.builder.variable(tag, name, all.most);
  sum.add(needless, rest);
  const asItIs = uses.map((use) => use.asItIs);
  for (const set of setsWorked(step, asItIs)) {
    const about = set.length === step.from.length ? name : `${name}: ${set.join(", ")}`;
    addNeedlessRows(set, { ...work, tag, about, needless }, context);
  }
}

/** The needless weight is no less than what was worked of a set of sources, less what needed any of them worked. */
function addNeedlessRows(
  set: readonly string[],
  { draws, into, uses, tag, about, needless }: Work & Needless,
  context: BuildContext,
): void {
  const { builder } = context;
  const { worked, most } = weightOf(
    draws.filter(({ from }) => set.includes(from.part)),
    context,
  );
  if (worked.isEmpty) return;
  const needing = uses.filter(({ asItIs }) => isNeededFor(set, asItIs));
  const needed = into.map((stands) => neededFor(needing, stands)).filter(({ isEmpty }) => !isEmpty);
  const over = (by: Sum): Sum => new Sum().addSum(worked).addSum(by, -1).add(needless, -1);
  if (needed.length < 2) {
    builder.row(tag, about, over(needed[0] ?? new Sum()), { upper: 0 });
    return;
  }
  // It is worked for the one thing of which most is wanted.
  const one = new Sum();
  needed.forEach((by, index) => {
    const isFor = builder.variable(tag, `${about}, thing ${index + 1}`, 1, { integer: true });
    one.add(isFor, 1);
    builder.row(tag, `${about}, for thing ${index + 1}`, over(by).add(isFor, most), { upper: most });
  });
  builder.row(tag, `${about}, for one thing`, one, { lower: 1, upper: 1 });
}

/** The variable of what is worked needlessly, and what its rows are called. */
interface Needless {
  readonly tag: Tag;
  readonly about: string;
  readonly needless: number;
}

function weightOf(draws: readonly DrawHandle[], { builder }: BuildContext): { worked: Sum; most: number } {
  const worked = new Sum();
  let most = 0;
  for (const { from, variable } of draws) {
    worked.add(variable, drawUnit(from));
    most += drawUnit(from) * builder.upperOf(variable);
  }
  return { worked, most };
}

/** What a step must take for these uses, of one thing that it gives. */
function neededFor(uses: readonly UseOfWork[], stands: ReadonlyMap<string, Decimal>): Sum {
  const needed = new Sum();
  for (const { part, variable, unit } of uses) {
    const of = stands.get(part);
    if (of !== undefined) needed.add(variable, rate(of) * unit);
  }
  return needed;
}
