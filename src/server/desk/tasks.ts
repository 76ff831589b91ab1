import { safetyCasePage } from "../../pages/index.js";
import { FROM_FIRST_PAGE } from "../frame.js";
import { type PageAnswer, page } from "../page-answer.js";
import type { Task, Works } from "../work/serve-tasks.js";
import * as day from "./on-the-day.js";
import { type ReadTask, readScenario } from "./scenarios.js";
import * as cards from "./test-cards.js";
import * as weighIn from "./weigh-in.js";
import * as yields from "./yields.js";

/** What the server has read or written out without a plan being made. */
export type DeskTasks = {
  readonly read: ReadTask;
  readonly testCard: cards.TestCardTask;
  readonly testCardPage: cards.TestCardPageTask;
  readonly keep: weighIn.KeepTask;
  readonly dayFormRefusal: day.RefusalTask;
  readonly blankForm: cards.BlankFormTask;
  readonly safetyCase: Task<null, never, PageAnswer>;
  readonly uses: day.UsesTask;
  readonly dayForm: day.DayFormTask;
  readonly weighInForm: weighIn.WeighInFormTask;
  readonly saveWeighIn: weighIn.SaveWeighInTask;
  readonly learn: weighIn.LearnTask;
  readonly happened: weighIn.HappenedTask;
  readonly yields: yields.YieldsTask;
  readonly itemYields: yields.ItemYieldsTask;
  readonly yieldTest: yields.YieldTestTask;
  readonly recordTest: yields.RecordTask;
};

export const DESK_WORKS: Works<DeskTasks> = {
  read: readScenario,
  testCard: cards.testCardLine,
  testCardPage: cards.testCardPage,
  keep: weighIn.keep,
  dayFormRefusal: day.dayFormRefusal,
  blankForm: cards.blankForm,
  safetyCase: async () => page(safetyCasePage(FROM_FIRST_PAGE).html),
  uses: day.uses,
  dayForm: day.dayForm,
  weighInForm: weighIn.weighInForm,
  saveWeighIn: weighIn.saveWeighIn,
  learn: weighIn.learn,
  happened: weighIn.happenedPage,
  yields: yields.yieldsIndex,
  itemYields: yields.yieldsOfItem,
  yieldTest: yields.yieldTest,
  recordTest: yields.recordTest,
};
