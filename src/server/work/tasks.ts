import type { Engines } from "../../allocation/index.js";
import { type FormsTask, planForms } from "./forms.js";
import { makePlan, type PlanTask } from "./plan.js";
import { answerQuestion, type QuestionTask } from "./questions.js";
import { planRest, type RestTask } from "./rest.js";
import type { Works } from "./serve-tasks.js";

/** What the server has planned, or worked out by plans. */
export type PlanTasks = {
  readonly plan: PlanTask;
  readonly question: QuestionTask;
  readonly forms: FormsTask;
  readonly rest: RestTask;
};

export function planWorks(engines: Engines): Works<PlanTasks> {
  engines.warm();
  return {
    plan: (asked, tell) => makePlan(asked, engines, tell),
    question: (asked, tell) => answerQuestion(asked, engines, tell),
    forms: (asked) => planForms(asked, engines),
    rest: (asked) => planRest(asked, engines),
  };
}
