import type { Part, PartClass, ScenarioFile, Step, Yield } from "../kitchen/index.js";
import { ONE, ZERO } from "../quantity/index.js";
import type { Path } from "../reading/index.js";
import type { TableStep } from "../yields/index.js";
import { STATED_SPREAD, spreadFrom } from "../yields/index.js";
import { type Resolving, unknownPart } from "./context.js";
import { words } from "./wording/index.js";

/** A step with what it says of the parts it gives. */
export interface StepDraft {
  readonly step: Step;
  readonly gives: readonly MadeFact[];
  /** Where the scenario states it; null for a step of the tables. */
  readonly path: Path | null;
}

interface MadeFact {
  readonly part: string;
  readonly class: PartClass | null;
  readonly state: Part["state"] | null;
  /** Undefined where nothing is said. */
  readonly keepsDays: number | undefined;
  readonly place: Path | null;
}

type StepEntry = NonNullable<ScenarioFile["steps"]>[string];

/**
 * The scenario's own steps and those of the tables that it does not replace, as far as something they take can
 * be had. `known` are the parts that may be named, `cut` those that breakdowns in use or the stock on hand give.
 */
export function resolveSteps(context: Resolving, known: Set<string>, cut: ReadonlySet<string>): StepDraft[] {
  const ownNames = context.namesWritten(["steps"]);
  const own = Object.entries(context.file.steps ?? {}).map(([name, entry]) => ownStep(context, name, entry));
  const ofTable = context.tables.steps.filter(({ name }) => !ownNames.includes(name)).map(tableStep);
  for (const { gives } of own) for (const { part } of gives) known.add(part);
  for (const { gives } of reachable(ofTable, known)) for (const { part } of gives) known.add(part);
  for (const name of ownNames) {
    const draft = own.find(({ step }) => step.name === name);
    const faulty =
      draft === undefined ||
      context.isLeftOut(["steps", name]) ||
      !sourcesKnown(context, draft, known, [...cut]);
    if (faulty)
      for (const part of context.namesWritten(["steps", name, "gives"])) context.unsettledParts.add(part);
  }
  const possible = reachable([...own, ...ofTable], cut);
  const had = new Set([...cut, ...possible.flatMap(({ gives }) => gives.map(({ part }) => part))]);
  return possible.map((draft) => ({
    ...draft,
    step: { ...draft.step, from: draft.step.from.filter((part) => had.has(part)) },
  }));
}

/** Whether all parts that a step takes are declared; each that is not is reported. */
function sourcesKnown(
  context: Resolving,
  { step }: StepDraft,
  known: ReadonlySet<string>,
  had: readonly string[],
): boolean {
  const faults = step.from.filter((part, index) => {
    if (known.has(part)) return false;
    const place = context.elementOf(["steps", step.name, "from"], index);
    if (!context.isUnsettled(part)) context.at(place, unknownPart(context, part, known, had));
    return true;
  });
  return faults.length === 0;
}

/** The steps that can be taken when these parts are there, and what other steps make of them. */
function reachable(steps: readonly StepDraft[], start: ReadonlySet<string>): StepDraft[] {
  const had = new Set(start);
  const taken = new Set<StepDraft>();
  for (let grown = true; grown; ) {
    grown = false;
    for (const draft of steps) {
      if (taken.has(draft) || !draft.step.from.some((part) => had.has(part))) continue;
      taken.add(draft);
      for (const { part } of draft.gives) had.add(part);
      grown = true;
    }
  }
  return steps.filter((draft) => taken.has(draft));
}

function ownStep(context: Resolving, name: string, entry: StepEntry): StepDraft {
  const path = ["steps", name];
  const gives = Object.entries(entry.gives).map(([part, amount]) => {
    const { percent, class: partClass = null } = "percent" in amount ? amount : { percent: amount };
    return { part, fraction: percent, class: partClass, place: [...path, "gives", part] };
  });
  const loss = entry.loss ?? ZERO;
  const water = entry.water ?? ZERO;
  if (gives.length === 0 && !context.isLeftOut(path))
    context.at([...path, "gives"], words.stepGivesNothing());
  for (const { part, fraction, place } of gives)
    if (fraction.isZero()) context.at(place, words.emptyPart(part));
  const sum = gives.reduce((acc, { fraction }) => acc.plus(fraction), loss);
  if (gives.length > 0 && !context.isLeftOut(path) && !sum.equals(water.plus(ONE))) {
    context.atKey(path, words.stepOpen(sum, water.plus(ONE)));
  }
  return {
    path,
    gives: gives.map(({ part, class: partClass, place }) => ({
      part,
      class: partClass,
      state: null,
      keepsDays: undefined,
      place,
    })),
    step: {
      name,
      from: entry.from,
      yields: gives.map(({ part, fraction }): Yield => ({ part, fraction })),
      loss,
      water,
      yieldSpread: STATED_SPREAD,
      capacity: entry.capacity ?? null,
      minutesPerKilogram: entry.minutes_per_kg ?? null,
      how: entry.how ?? null,
      source: entry.source ?? "this scenario",
    },
  };
}

function tableStep(row: TableStep): StepDraft {
  return {
    path: null,
    gives: row.yields.map(({ part, class: partClass, state, keepsDays }) => ({
      part,
      class: partClass,
      state,
      keepsDays: keepsDays ?? undefined,
      place: null,
    })),
    step: {
      name: row.name,
      from: row.from,
      yields: row.yields.map(({ part, fraction }) => ({ part, fraction })),
      loss: row.loss,
      water: row.water,
      yieldSpread: spreadFrom(row.basis),
      capacity: null,
      minutesPerKilogram: row.minutesPerKilogram,
      how: row.how,
      source: row.source,
    },
  };
}
