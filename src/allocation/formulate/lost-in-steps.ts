import { type Lot, originKey, originName, type Scenario, type Step } from "../../kitchen/index.js";
import type { Decimal } from "../../quantity/index.js";
import {
  classesOf,
  isNeededFor,
  setsWorked,
  type TakenOff,
  takenAsItIs,
  takenOffBy,
  worksInto,
} from "../../waste/index.js";
import { Sum } from "../builder.js";
import { rate } from "../floats.js";
import { groupBy } from "../group.js";
import type { Tag } from "../model.js";
import type { BuildContext, DrawHandle, GoHandle } from "./context.js";
import { drawUnit } from "./parts.js";

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
