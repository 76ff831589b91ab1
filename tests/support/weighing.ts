import { composePlan, type PlanJson, planSchema } from "../../src/contract/index.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { keepLedger } from "../../src/ledger/index.js";
import { problemText } from "../../src/reading/index.js";
import { type Happened, rowsOfPlan, whatHappened, writeWeighIn } from "../../src/weigh-in/index.js";
import type { Row } from "../../src/weigh-in/row.js";
import { exactText } from "../../src/weigh-in/write.js";

/** The plan of a decision, as it is read back from its file. */
export function keptPlan(scenario: Scenario, decision: Decision): PlanJson {
  const outcome = { kind: "infeasible", engine: "highs", seconds: 0 } as const;
  const findings = { outcome, stages: [], warnings: [], reasons: [] };
  const plan = composePlan(scenario, decision, keepLedger(scenario, decision), findings);
  return planSchema.parse(JSON.parse(JSON.stringify(plan)));
}

export function rowsToWeigh(plan: PlanJson, scenario: Scenario): readonly Row[] {
  const rows = rowsOfPlan(plan, scenario, "test.plan.json");
  if (!Array.isArray(rows)) throw new Error(problemText(rows));
  return rows;
}

/** A weigh-in file with these figures, in the row's own measure; null leaves a row blank. */
export function weighedFile(plan: PlanJson, scenario: Scenario, figure: (row: Row) => bigint | null): string {
  return writeWeighIn(rowsToWeigh(plan, scenario), scenario, (row) => {
    const value = figure(row);
    const note = { reason: "", by: "", time: "" };
    return { actual: value === null ? "" : exactText(row, value, scenario), note };
  });
}

/** What happened by a weigh-in file, or its problems, a line each. */
export function happenedBy(plan: PlanJson, scenario: Scenario, text: string): Happened | string[] {
  const file = "test.weigh-in.csv";
  const { happened, problems } = whatHappened(plan, scenario, { file, text }, "test.plan.json");
  return happened ?? problems.map(problemText);
}
