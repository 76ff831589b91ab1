import { fill, TESTS } from "../pages/index.js";
import { progressLine } from "../planning/index.js";
import { problemLines } from "../reading/index.js";
import type { Held, HeldAnswer } from "./answers-held.js";
import type { TestCardLine } from "./desk/test-cards.js";
import type { ScenarioFile } from "./folder.js";
import { addressOf, frame } from "./frame.js";
import type { Job } from "./planner.js";
import { QUESTION_SECONDS, QUESTIONS, type Question } from "./questions.js";
import { placeText } from "./queue.js";

/** How long a plan may take, as offered to whoever asks for one. */
export const SECONDS_OFFERED = [10, 60, 300] as const;

/** All scenarios of the folder, with how each stands. */
export function scenariosScreen(
  folder: string,
  files: readonly { file: ScenarioFile; job: Job | null }[],
  testCards: readonly TestCardLine[],
): string {
  return fill("scenarios", {
    ...frame("Scenarios", { back: false }),
    folder,
    scenarios: files.map(({ file, job }) => ({
      ...namesOf(file),
      href: addressOf(file.texts.name),
      state: stateText(file, job),
    })),
    testCards,
    forms: Object.values(TESTS).map(({ title, slug }) => ({ title, href: `/forms/${slug}-form.html` })),
  });
}

/** One scenario: its problems, the way to its plan, how far the planning has come, or the plan's pages. */
export function scenarioScreen(file: ScenarioFile, job: Job | null, isKept: boolean): string {
  const { summary, problems } = file;
  const { name, file: other } = namesOf(file);
  const isBusy = job?.kind === "waiting" || job?.kind === "planning";
  const planned = job?.kind === "planned" ? job.planned : null;
  const asks = summary !== null && !isBusy && planned?.isProved !== true;
  return fill("scenario", {
    ...frame(name, { watches: isBusy }),
    file: other,
    state: stateText(file, job),
    problems: problemLines(problems),
    busy: isBusy ? [{ text: progressText(job), events: "progress", stop: "stop" }] : [],
    pages: (planned?.pages ?? []).map(({ slug, title }) => ({ href: `pages/${slug}.html`, title })),
    forms: summary?.severalForms ?? [],
    keep: planned === null || planned.weighIn === null ? [] : ["keep"],
    weighIn: isKept ? ["weigh-in"] : [],
    questions: summary === null ? [] : QUESTIONS.map(({ slug, title }) => ({ href: slug, title })),
    parts: summary?.parts ?? [],
    json: planned === null ? [] : [{ href: "plan.json" }],
    ask: asks
      ? [
          {
            button: job === null ? "Plan it" : "Plan again",
            seconds: SECONDS_OFFERED.map((each) => String(each)),
          },
        ]
      : [],
  });
}

/** A question that takes many plans: what it is, the way to ask it, and how far its answer has come. */
export function questionScreen({ slug, title, about }: Question, held: Held | null): string {
  const ask = { action: slug, seconds: QUESTION_SECONDS.map((each) => String(each)) };
  const answer = held?.answer ?? null;
  return answerScreen(title, answer, slug, about, answer?.kind === "waiting" ? [] : [ask]);
}

/** A form's answer that is waited for, or was not found. `address` is its own, beside the scenario's screen. */
export function waitingScreen({ title, answer }: Held, address: string): string {
  const about = "The answer takes several plans. Leave this page open: without it nothing is planned.";
  return answerScreen(title, answer, address, about, []);
}

type Ask = {
  readonly action: string;
  readonly seconds: readonly string[];
};

function answerScreen(
  title: string,
  answer: HeldAnswer | null,
  address: string,
  about: string,
  ask: readonly Ask[],
): string {
  return fill("question", {
    ...frame(title, { watches: answer?.kind === "waiting" }),
    about,
    broken: answer?.kind === "broken" ? [`Not answered: ${answer.reason}`] : [],
    busy:
      answer?.kind === "waiting"
        ? [{ text: answer.text, events: `${address}/progress`, stop: `${address}/stop` }]
        : [],
    ask,
  });
}

/** A scenario by its name, with its file where that is called otherwise. */
function namesOf({ summary, texts }: ScenarioFile): { name: string; file: readonly string[] } {
  return summary === null ? { name: texts.name, file: [] } : { name: summary.name, file: [texts.name] };
}

function stateText({ problems }: ScenarioFile, job: Job | null): string {
  if (problems.length > 0) return problems.length === 1 ? "1 problem" : `${problems.length} problems`;
  if (job === null) return "Not planned yet";
  if (job.kind === "waiting") return "Waiting for its turn";
  if (job.kind === "planning") return "Being planned";
  if (job.kind === "broken") return `Not planned: ${job.reason}`;
  return job.planned.headline;
}

/** What is said while a plan is waited for. */
export function progressText(job: Job | null): string {
  if (job?.kind === "waiting") return placeText(job.ahead);
  if (job?.kind !== "planning") return "Done.";
  if (job.progress === null) return "Started.";
  return `${progressLine(job.progress, job.allowed)}.`;
}
