import type { Engines } from "../../allocation/index.js";
import { decodePlan, hasPlan, isProved, type PlanJson } from "../../contract/index.js";
import { textsToKeep } from "../../keeping/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { outcomeWords, type Page, renderPages, writingFor } from "../../pages/index.js";
import { type PlanOptions, planScenario } from "../../planning/index.js";
import { ASSETS } from "../frame.js";
import { wordsOf } from "../page-answer.js";
import { type ScenarioTexts, scenarioOf } from "../scenario-texts.js";
import type { Task } from "./serve-tasks.js";

/** How far a plan has come: what the engine holds, and how good any plan could still be. */
export type PlanProgress = Parameters<NonNullable<PlanOptions["onProgress"]>>[0];

/** A plan as it is served, all in text. */
export interface MadePlan {
  readonly json: string;
  /** There are none where no answer was found. */
  readonly pages: readonly Page[];
  /** How it stands, for the list of scenarios. */
  readonly headline: string;
  readonly isProved: boolean;
  /** The weigh-in to be kept with it; null where there is no plan to keep. */
  readonly weighIn: string | null;
}

export type PlanTask = Task<
  { readonly file: ScenarioTexts; readonly seconds: number },
  PlanProgress,
  MadePlan
>;

const LAYOUT = { assets: ASSETS, home: { href: "..", text: "Scenario" } };

export async function makePlan(
  { file, seconds }: PlanTask["asked"],
  engines: Engines,
  tell: (progress: PlanProgress) => void,
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
  return {
    json: `${JSON.stringify(plan, null, 2)}\n`,
    pages: plan.outcome.kind === "failed" ? [] : renderPages(plan, scenario, LAYOUT),
    headline: headlineOf(plan, scenario),
    isProved: isProved(plan),
    weighIn: hasPlan(plan) ? weighInOf(plan, scenario, file.name) : null,
  };
}

function weighInOf(plan: PlanJson, scenario: Scenario, name: string): string {
  const { texts, problem } = textsToKeep(plan, scenario, name);
  if (texts === null) throw new RangeError(wordsOf([problem]));
  return texts.weighIn;
}

function headlineOf(plan: PlanJson, scenario: Scenario): string {
  if (plan.outcome.kind === "infeasible") return "No plan is possible as it stands";
  if (!hasPlan(plan)) return "No answer in the time";
  return outcomeWords(decodePlan(plan), writingFor(scenario)).headline;
}
