import type { PlanJson } from "../../contract/index.js";
import { type Page, renderPages } from "../../pages/index.js";
import { type PlanOptions, planScenario } from "../../planning/index.js";
import { type Means, type ScenarioTexts, scenarioOf, type Task } from "./tasks.js";

/** How far a plan has come: what the engine holds, and how good any plan could still be. */
export type PlanProgress = Parameters<NonNullable<PlanOptions["onProgress"]>>[0];

/** A plan with its pages; there are none where no answer was found. */
export interface MadePlan {
  readonly plan: PlanJson;
  readonly pages: readonly Page[];
}

export type PlanTask = Task<
  { readonly file: ScenarioTexts; readonly seconds: number },
  PlanProgress,
  MadePlan
>;

const LAYOUT = { assets: "/assets/", home: { href: "..", text: "Scenario" } };

export async function makePlan(
  { file, seconds }: PlanTask["asked"],
  { engines, tell }: Means<PlanProgress>,
): Promise<MadePlan> {
  const until = performance.now() + seconds * 1000;
  const read = scenarioOf(file);
  const left = Math.max(0, (until - performance.now()) / 1000);
  const { plan, scenario } = await planScenario(read, {
    seconds: left,
    engines,
    onProgress: tell,
    risk: { seconds },
  });
  return { plan, pages: plan.outcome.kind === "failed" ? [] : renderPages(plan, scenario, LAYOUT) };
}
