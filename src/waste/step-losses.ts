import {
  type Decision,
  type Lot,
  type LotOrigin,
  originKey,
  type RecipeLine,
  type Scenario,
  type Step,
} from "../kitchen/index.js";
import {
  type Decimal,
  larger,
  minus,
  NO_WEIGHT,
  plus,
  scale,
  total,
  type Weight,
  ZERO,
} from "../quantity/index.js";
import { classesOf, isNeededFor, setsWorked, takenAsItIs, takenOffBy, worksInto } from "./steps.js";

/** Food that a step on food of one origin loses, where it was not needed, or where another would lose less. */
export interface LossOfStep {
  readonly step: string;
  readonly origin: LotOrigin;
  readonly lost: Weight;
}

/** What each step loses, by what it was worked on; nothing of steps that lose nothing. */
export function stepLosses(scenario: Scenario, decision: Decision): LossOfStep[] {
  const classOf = classesOf(scenario);
  const usesOf = usesByOrigin(scenario, decision);
  return scenario.steps.flatMap((step) => {
    const takenOff = takenOffBy(step, scenario, classOf);
    if (takenOff === null) return [];
    const into = worksInto(step, scenario);
    return worksOf(step, decision).flatMap(({ origin, bySource }) => {
      const uses = usesOf(origin).filter(({ lot }) => into.some((stands) => stands.has(lot.part)));
      const needless = workedNeedlessly(step, bySource, { uses, into, scenario });
      const worked = total([...bySource.values()]);
      const lost = plus(scale(worked, takenOff.beyond), scale(needless, takenOff.all.minus(takenOff.beyond)));
      return lost === NO_WEIGHT ? [] : [{ step: step.name, origin, lost }];
    });
  });
}

/** A step behind a going of which the line could have had sources as they were: these. */
interface NeedlessStep {
  readonly step: string;
  readonly sources: readonly string[];
}

/** By going, in the decision's order: the steps behind it that its line could have done without, in whole or in part. */
export function needlessSteps(scenario: Scenario, decision: Decision): NeedlessStep[][] {
  const classOf = classesOf(scenario);
  const losing = scenario.steps
    .filter((step) => takenOffBy(step, scenario, classOf) !== null)
    .map((step) => ({ step, into: worksInto(step, scenario) }));
  const dishes = new Map(scenario.dishes.map((dish) => [dish.name, dish]));
  return decision.goings.map(({ lot, dish, service, line: index }) => {
    const line = dishes.get(dish)?.lines[index];
    if (line === undefined) return [];
    return losing.flatMap(({ step, into }) => {
      if (!into.some((stands) => stands.has(lot.part))) return [];
      const sources = takenAsItIs({ ...lot, line, service }, step, scenario);
      return sources.length === 0 ? [] : [{ step: step.name, sources }];
    });
  });
}

/** Weight that a step was worked on, of one origin. */
interface Work {
  readonly origin: LotOrigin;
  readonly bySource: ReadonlyMap<string, Weight>;
}

function worksOf({ name }: Step, { preps }: Decision): Work[] {
  const works = new Map<string, { readonly origin: LotOrigin; readonly bySource: Map<string, Weight> }>();
  for (const { step, from, weight } of preps) {
    if (step !== name) continue;
    const key = originKey(from.origin);
    const work = works.get(key) ?? { origin: from.origin, bySource: new Map() };
    works.set(key, work);
    work.bySource.set(from.part, plus(work.bySource.get(from.part) ?? NO_WEIGHT, weight));
  }
  return [...works.values()];
}

/** Weight of a lot that someone has the use of, with the line it is given to; null for what is kept. */
interface Use {
  readonly lot: Lot;
  readonly weight: Weight;
  readonly to: { readonly line: RecipeLine; readonly service: number } | null;
}

function usesByOrigin(scenario: Scenario, { goings, kept }: Decision): (origin: LotOrigin) => readonly Use[] {
  const dishes = new Map(scenario.dishes.map((dish) => [dish.name, dish]));
  const uses = new Map<string, Use[]>();
  const add = (use: Use): void => {
    const key = originKey(use.lot.origin);
    const known = uses.get(key);
    if (known === undefined) uses.set(key, [use]);
    else known.push(use);
  };
  for (const { lot, dish, service, line: index, weight } of goings) {
    const line = dishes.get(dish)?.lines[index];
    if (line !== undefined) add({ lot, weight, to: { line, service } });
  }
  for (const { lot, weight } of kept) add({ lot, weight, to: null });
  return (origin) => uses.get(originKey(origin)) ?? [];
}

/**
 * Weight worked beyond what was needed for lines that could not have had it as it was, and for what is kept: of what
 * the step gives, for that of which most was wanted.
 */
function workedNeedlessly(
  step: Step,
  bySource: ReadonlyMap<string, Weight>,
  { uses, into, scenario }: Uses,
): Weight {
  const known = uses.map(({ lot, weight, to }) => {
    const asItIs = to === null ? [] : takenAsItIs({ ...lot, ...to }, step, scenario);
    return { part: lot.part, weight, asItIs };
  });
  const asked = setsWorked(
    step,
    known.map(({ asItIs }) => asItIs),
  ).map((set) => {
    const worked = total(set.map((part) => bySource.get(part) ?? NO_WEIGHT));
    const needing = known.filter(({ asItIs }) => isNeededFor(set, asItIs));
    const needed = into.map((stands) =>
      total(needing.map(({ part, weight }) => scale(weight, stands.get(part) ?? ZERO))),
    );
    return minus(worked, needed.reduce(larger, NO_WEIGHT));
  });
  return asked.reduce(larger, NO_WEIGHT);
}

/** Uses of one origin, and what a step's work comes to by each thing that it gives. */
interface Uses {
  readonly uses: readonly Use[];
  readonly into: readonly ReadonlyMap<string, Decimal>[];
  readonly scenario: Scenario;
}
