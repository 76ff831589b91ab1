import type { Engines } from "../../allocation/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { loadScenarioText, type OwnTestsFile } from "../../kitchen-files/index.js";
import { type FormsTask, planForms } from "./forms.js";
import { makePlan, type PlanTask } from "./plan.js";
import { answerQuestion, type QuestionTask } from "./questions.js";
import { planRest, type RestTask } from "./rest.js";

/** A task that is given to a thread: all of it can be copied there and back. */
export interface Task<Asked, News, Answer> {
  readonly asked: Asked;
  /** What is told on the way. */
  readonly news: News;
  readonly answer: Answer;
}

/** What the server has planned, or worked out by plans. */
export interface Tasks {
  readonly plan: PlanTask;
  readonly question: QuestionTask;
  readonly forms: FormsTask;
  readonly rest: RestTask;
}

/** What a task is worked at with. */
export interface Means<News> {
  readonly engines: Engines;
  readonly tell: (news: News) => void;
}

export const TASKS: {
  readonly [Kind in keyof Tasks]: (
    asked: Tasks[Kind]["asked"],
    means: Means<Tasks[Kind]["news"]>,
  ) => Promise<Tasks[Kind]["answer"]>;
} = { plan: makePlan, question: answerQuestion, forms: planForms, rest: planRest };

/** A page that took plans to answer. */
export interface PageAnswer {
  readonly status: number;
  readonly html: string;
}

/** The texts that a scenario is read from. */
export interface ScenarioTexts {
  readonly name: string;
  readonly text: string;
  readonly ownTests: OwnTestsFile | null;
}

/** The scenario as the server has read it, without a problem. */
export function scenarioOf({ name, text, ownTests }: ScenarioTexts): Scenario {
  const { scenario } = loadScenarioText(name, text, undefined, ownTests);
  if (scenario === null) throw new RangeError(`${name} has problems`);
  return scenario;
}
