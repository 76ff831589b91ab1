import { type LotOrigin, lotKey, originKey, type Part, type Step } from "../../kitchen/index.js";
import { type Decimal, ZERO } from "../../quantity/index.js";
import {
  beyondLeast,
  classesOf,
  foodFraction,
  peelOfFamily,
  type TakenOff,
  takenOffBy,
  takesAsItIs,
  thriftiestBreakdown,
  usableParts,
  worksInto,
} from "../../waste/index.js";
import { Sum } from "../builder.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { type BuildContext, type DrawHandle, originName } from "./context.js";
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
    const breakdown = thriftiestBreakdown(item, classOf);
    const food = breakdown === null ? 1 : rate(foodFraction(breakdown, classOf));
    sum.add(variable, kg(item.unitWeight) * food);
  }
  for (const { site, destination, variable } of handles.spares)
    if (destination === null) sum.addSum(weightOfPortions(site, [variable], context));
}

/** What cuts lose beyond the least, and steps where another step or none would have done. */
function addLostFood(sum: Sum, context: BuildContext): void {
  const { scenario, handles } = context;
  const parts = partsOf(context);
  for (const { item, breakdown: name, variable } of handles.cuts) {
    const breakdown = item.breakdowns.find((each) => each.name === name);
    if (breakdown === undefined) continue;
    const { loss } = beyondLeast(item, breakdown, (part) => parts.get(part));
    if (loss.gt(ZERO)) sum.add(variable, rate(loss) * kg(item.unitWeight));
  }
  const classOf = classesOf(context.scenario);
  for (const [step, draws] of groupBy(handles.draws, (draw) => draw.step).entries()) {
    const takenOff = takenOffBy(step, scenario, classOf);
    if (takenOff === null) continue;
    for (const [, ofOrigin] of groupBy(draws, ({ from }) => originKey(from.origin)).entries())
      addNeedless(sum, { step, takenOff, draws: ofOrigin }, context);
  }
}

function addNeedless(
  sum: Sum,
  { step, takenOff, draws }: { step: Step; takenOff: TakenOff; draws: readonly DrawHandle[] },
  context: BuildContext,
): void {
  const { scenario, builder } = context;
  const [first] = draws;
  if (first === undefined) return;
  const { origin } = first.from;
  const worked = new Sum();
  let most = 0;
  for (const { from, variable } of draws) {
    worked.add(variable, drawUnit(from));
    most += drawUnit(from) * builder.upperOf(variable);
  }
  sum.addSum(worked, rate(takenOff.beyond));
  const rest = rate(takenOff.all.minus(takenOff.beyond));
  if (rest === 0) return;
  const needed = worksInto(step, scenario)
    .map((stands) => neededFor(step, { origin, stands }, context))
    .filter(({ isEmpty }) => !isEmpty);
  if (needed.length === 0) {
    sum.addSum(worked, rest);
    return;
  }
  const tag = { family: "worked needlessly", step: step.name };
  const name = `${step.name}, ${originName(scenario, origin)}, needlessly`;
  const needless = builder.variable(tag, name, most);
  sum.add(needless, rest);
  const over = (by: Sum): Sum => new Sum().addSum(worked).addSum(by, -1).add(needless, -1);
  if (needed.length === 1) {
    for (const by of needed) builder.row(tag, name, over(by), { upper: 0 });
    return;
  }
  // It is worked for the one thing of which most is wanted.
  const one = new Sum();
  needed.forEach((by, index) => {
    const isFor = builder.variable(tag, `${name}, thing ${index + 1}`, 1, { integer: true });
    one.add(isFor, 1);
    builder.row(tag, `${name}, for thing ${index + 1}`, over(by).add(isFor, most), { upper: most });
  });
  builder.row(tag, `${name}, for one thing`, one, { lower: 1, upper: 1 });
}

/** What a step must take for lines that could not have it as it is, and for what is kept, of one thing it gives. */
function neededFor(
  step: Step,
  { origin, stands }: { readonly origin: LotOrigin; readonly stands: ReadonlyMap<string, Decimal> },
  { scenario, handles }: BuildContext,
): Sum {
  const key = originKey(origin);
  const needed = new Sum();
  for (const { lot, site, line: index, unit, variable } of handles.goes) {
    const of = stands.get(lot.part);
    const line = site.dish.lines[index];
    if (of === undefined || line === undefined || originKey(lot.origin) !== key) continue;
    if (!takesAsItIs({ line, service: site.service, part: lot.part, origin }, step, scenario))
      needed.add(variable, rate(of) * unit);
  }
  for (const { lot, variable } of handles.keeps) {
    const of = stands.get(lot.part);
    if (of !== undefined && originKey(lot.origin) === key) needed.add(variable, rate(of));
  }
  return needed;
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
