import {
  composeDecision,
  words as contractWords,
  decisionOf,
  type PlanJson,
  PlanMismatch,
  planHash,
  withStockOf,
} from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { CostingError, keepLedger, type Ledger, NothingToCarry } from "../ledger/index.js";
import { scaleWithStep } from "../quantity/index.js";
import { type Problem, problemOf, type Source } from "../reading/index.js";
import { readWeighIn } from "./read.js";
import { reconcile } from "./reconcile.js";
import type { Note } from "./reconciliation.js";
import { figureOf, type Row } from "./row.js";
import { rowsOf } from "./rows-of.js";
import { words } from "./words.js";
import { NOTHING_FILLED, nameCells, unitOf } from "./write.js";

/** One figure as planned and as it was, and whether it was weighed or told by the rest. */
export interface WeighedRow extends Row, Note {
  readonly actual: bigint;
  /** As the scale showed it, before what the scale's step explains was taken to the loss; else as reckoned. */
  readonly reading: bigint;
  readonly weighed: boolean;
}

export interface Happened {
  /** What happened, in the words of a plan: its weights and money close as a plan's do. */
  readonly plan: PlanJson;
  /** The scenario with the weights that were really in the house. */
  readonly scenario: Scenario;
  readonly rows: readonly WeighedRow[];
}

/**
 * Joins a kept plan with what was weighed after service. Null, with every problem, where a row cannot be read, the
 * weighings do not close, or the plan is not of this scenario. `planFile` names the plan in problems.
 */
export function whatHappened(
  plan: PlanJson,
  now: Scenario,
  weighIn: Source,
  planFile: string,
): { happened: Happened | null; problems: readonly Problem[] } {
  const rows = rowsOfPlan(plan, now, planFile);
  if (!Array.isArray(rows)) return { happened: null, problems: [rows] };
  const scenario = withStockOf(plan, now);
  const { sheet, problems } = readWeighIn(weighIn, rows, scenario, planHash(plan));
  if (problems.length > 0) return { happened: null, problems };
  const { reckoned, problems: gaps } = reconcile(sheet, scenario, decisionOf(plan, scenario).purchases);
  if (reckoned === null) return { happened: null, problems: gaps };
  const kept = ledgerOf(reckoned.scenario, reckoned.decision, weighIn.file);
  if (Array.isArray(kept)) return { happened: null, problems: kept };
  const weighed = reckoned.rows.map((row): WeighedRow => {
    const actual = reckoned.actual.get(row) ?? row.planned;
    const reading = sheet.readings.get(row)?.value;
    const note = sheet.notes.get(row) ?? NOTHING_FILLED.note;
    return { ...row, ...note, actual, reading: reading ?? actual, weighed: reading !== undefined };
  });
  const happened = {
    ...headingOf(plan),
    ...composeDecision(reckoned.scenario, reckoned.decision, kept),
    weighIn: weighInOf(weighed, scenario),
  };
  return { happened: { plan: happened, scenario: reckoned.scenario, rows: weighed }, problems: [] };
}

/** What there is to weigh after a plan; a problem where the plan is not of this scenario as it now is. */
export function rowsOfPlan(plan: PlanJson, scenario: Scenario, planFile: string): Row[] | Problem {
  try {
    return rowsOf(decisionOf(plan, scenario), withStockOf(plan, scenario));
  } catch (error) {
    if (!(error instanceof PlanMismatch)) throw error;
    return problemOf(planFile, contractWords.ofAnotherScenario(error.message));
  }
}

function ledgerOf(
  scenario: Scenario,
  decision: Parameters<typeof keepLedger>[1],
  file: string,
): Ledger | Problem[] {
  try {
    return keepLedger(scenario, decision);
  } catch (error) {
    if (error instanceof NothingToCarry) return [problemOf(file, words.nothingToCarry(error.message))];
    if (!(error instanceof CostingError)) throw error;
    return error.problems.map((problem) => problemOf(file, problem));
  }
}

/** Nothing was solved: what happened is known, not best. */
function headingOf({ schema, scenario, aim, warnings }: PlanJson) {
  return {
    ...{ schema, scenario, aim, warnings, stages: [], reasons: [], risk: null },
    outcome: {
      kind: "feasible" as const,
      engine: "weigh-in",
      ...{
        objective: null,
        beforeRounding: null,
        rounding: null,
        bound: null,
        gap: null,
        seconds: 0,
        certified: false,
        stoppedBy: null,
        stopCode: null,
      },
    },
  };
}

function weighInOf(rows: readonly WeighedRow[], scenario: Scenario): NonNullable<PlanJson["weighIn"]> {
  const { unit } = scaleWithStep(scenario.scaleStep);
  return {
    figures: rows.length,
    weighed: rows.filter(({ weighed }) => weighed).length,
    rows: rows.map((row) => ({
      ...nameCells(row, scenario),
      unit: row.measure === "weight" ? "g" : unitOf(row, scenario, unit),
      planned: figureOf(row.measure, row.planned).toFixed(),
      actual: figureOf(row.measure, row.actual).toFixed(),
      weighed: row.weighed,
      reason: row.reason,
      by: row.by,
      time: row.time,
    })),
  };
}
