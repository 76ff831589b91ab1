import { keptPlan, type PlanJson } from "../../src/contract/index.js";
import type { Scenario } from "../../src/kitchen/index.js";

/** A plan as JSON that was kept in a file; null where it is none. */
export function keptIn(json: unknown, scenario: Scenario): PlanJson | null {
  const read = keptPlan({ file: "p.json", text: JSON.stringify(json) }, scenario, "Do this");
  return "plan" in read ? read.plan : null;
}
