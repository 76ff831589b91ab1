import { basename } from "node:path";
import { type Kept, keepTexts } from "../../keeping/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { fillIn, happenedAt, learnFrom, weighInAt } from "../../kitchen-files/index.js";
import { renderHappened, weighInFormPage } from "../../pages/index.js";
import { type Problem, problemLines } from "../../reading/index.js";
import { diskProblem, weighInFile } from "../../records/index.js";
import { carriedOver, type FilledRow } from "../../weigh-in/index.js";
import { ASSETS, addressOf, fromScenario } from "../frame.js";
import { notHere, notice, type PageAnswer, page, wordsOf } from "../page-answer.js";
import type { ScenarioAt, ScenarioTexts } from "../scenario-texts.js";
import type { Task } from "../work/serve-tasks.js";
import { scenarioOf } from "./readings.js";
import { lostWords, saidOf, strayWords, typedIn } from "./weigh-in-typed.js";

export type KeepTask = Task<
  Pick<ScenarioAt, "path"> & { readonly texts: Kept; readonly insteadOf?: string },
  never,
  readonly Problem[]
>;
/** The form of the weigh-in, saying what was done last, as the address has it. */
export type WeighInFormTask = Task<
  ScenarioAt & { readonly saved: string; readonly learnt: string },
  never,
  PageAnswer
>;
/** `body`: the form as it was sent; `unread`: why the scenario could not be read. */
export type SaveWeighInTask = Task<
  ScenarioAt & { readonly body: string; readonly unread: readonly Problem[] },
  never,
  PageAnswer
>;
export type LearnTask = Task<ScenarioAt, never, PageAnswer>;
export type HappenedTask = Task<ScenarioAt & { readonly page: string }, never, PageAnswer>;

/** Keeps a plan with its weigh-in; the problems that leave both as they were. */
export async function keep({ path, texts, insteadOf }: KeepTask["asked"]): Promise<readonly Problem[]> {
  try {
    return (await keepTexts(path, texts, insteadOf)).problems;
  } catch (error) {
    return [unsaved(error)];
  }
}

export async function weighInForm(asked: WeighInFormTask["asked"]): Promise<PageAnswer> {
  const { file, path, saved, learnt } = asked;
  const scenario = scenarioOf(file);
  const { rows, problems } = await weighInAt(path, scenario);
  if (rows === null) return notice(404, "Nothing to weigh", wordsOf(problems));
  const { problems: gaps } = await happenedAt(path, scenario);
  return page(
    weighInFormPage(scenario, rows, new Map<string, FilledRow>(), {
      ...layoutOf(scenario, asked),
      said: saidOf(saved, learnt),
      isWrong: false,
      strays: [],
      problems: gaps.map(({ what, remedy }) => `${what}. ${remedy}`),
      errors: new Map(),
      initials: saved === "yes" ? "" : saved,
    }).html,
  );
}

export async function saveWeighIn(asked: SaveWeighInTask["asked"]): Promise<PageAnswer> {
  const { file, path, body, unread } = asked;
  const typed = typedIn(body);
  if (typed === null) return notice(400, "Not saved", NO_FORM);
  const { changes, initials } = typed;
  const lost = (problems: readonly Problem[]) =>
    notice(409, "Not saved", [wordsOf(problems), ...lostWords(changes)].join(" "));
  if (unread.length > 0) return lost(unread);
  const scenario = scenarioOf(file);
  const found = await weighInAt(path, scenario);
  if (found.rows === null) return lost(found.problems);
  const { rows } = found;
  const written = { changes, by: initials, time: new Date().toTimeString().slice(0, 5) };
  const { errors, problems } = await fillIn(path, scenario, written).catch((error: unknown) => ({
    errors: new Map<string, string>(),
    problems: [unsaved(error)],
  }));
  if (errors.size + problems.length === 0)
    return { seeOther: `${addressOfForm(file)}?saved=${encodeURIComponent(initials || "yes")}` };
  const carried = carriedOver(changes, rows);
  const before = new Map(rows.map((row) => [row.key, row]));
  const isOther = [...changes.keys()].some((key) => !before.has(key));
  const filled = rows.map((row) => ({ ...row, ...carried.changes.get(row.key) }));
  const form = weighInFormPage(scenario, filled, before, {
    ...layoutOf(scenario, asked),
    said: isOther ? OTHER_PLAN : UNREAD,
    isWrong: true,
    strays: carried.strays.map(strayWords),
    problems: problemLines(problems),
    errors,
    initials,
  });
  return page(form.html, isOther ? 409 : 422);
}

/** Learns yield tests from the weigh-in. */
export async function learn({ file, path }: LearnTask["asked"]): Promise<PageAnswer> {
  const { happened, problems } = await happenedAt(path, scenarioOf(file));
  if (happened === null) return notice(409, "Not learnt", wordsOf(problems));
  const lesson = await learnFrom(path, happened).catch((error: unknown) => ({
    problems: [unsaved(error)],
    tests: 0,
  }));
  return lesson.problems.length > 0
    ? notice(409, "Not learnt", wordsOf(lesson.problems))
    : { seeOther: `${addressOfForm(file)}?learnt=${lesson.tests}` };
}

export async function happenedPage({ file, path, page: wanted }: HappenedTask["asked"]): Promise<PageAnswer> {
  const scenario = scenarioOf(file);
  const { planned, happened, problems } = await happenedAt(path, scenario);
  if (planned === null || happened === null) return notice(404, "Not known what happened", wordsOf(problems));
  const layout = { assets: ASSETS, home: { href: addressOfForm(file), text: "Weigh in" } };
  const pages = renderHappened(planned, scenario, happened, layout);
  const found = pages.find(({ slug }) => `${slug}.html` === wanted);
  return found === undefined ? notHere() : page(found.html);
}

const OTHER_PLAN =
  "Not saved: another plan was kept since this form was opened. What you wrote is still here: look whether it fits this plan, then save again.";
const UNREAD = "Not saved: some figures cannot be read. What you wrote is still here.";
const NO_FORM = "This is not what the form of a weigh-in sends. Open the weigh-in anew, and write it there.";

function addressOfForm({ name }: ScenarioTexts): string {
  return `${addressOf(name)}weigh-in`;
}

function layoutOf({ name }: Scenario, { file, path }: ScenarioAt) {
  return {
    ...fromScenario(file.name),
    head: [name],
    action: addressOfForm(file),
    happened: `${addressOf(file.name)}happened/happened.html`,
    learn: `${addressOf(file.name)}learn`,
    file: basename(weighInFile(path)),
  };
}

/** What is told where a file could not be written. */
function unsaved(error: unknown): Problem {
  const problem = diskProblem(error);
  if (problem === null) throw error;
  return problem;
}
