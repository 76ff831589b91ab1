import { hasPlan, isProved } from "../contract/index.js";
import { fill, outcomeWords, type Page, TESTS, writingFor } from "../pages/index.js";
import { progressLine } from "../planning/index.js";
import { problemLines } from "../reading/index.js";
import { boughtInSeveralForms } from "../yields/index.js";
import type { HeldAnswer } from "./answers-held.js";
import type { ScenarioFile } from "./folder.js";
import type { Job } from "./planner.js";
import { type Answer, QUESTION_SECONDS, QUESTIONS, type Question } from "./questions.js";
import { placeText } from "./queue.js";

/** How long a plan may take, as offered to whoever asks for one. */
export const SECONDS_OFFERED = [10, 60, 300] as const;

/** Address of a scenario's own screen; everything about it lies below. */
export function addressOf(name: string): string {
  return `/scenario/${encodeURIComponent(name)}/`;
}

/** A test card of the folder as the first page lists it. */
export type TestCardLine = {
  readonly name: string;
  /** Its file, where it is called otherwise. */
  readonly file: readonly string[];
  readonly href: string;
  readonly state: string;
};

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
      name: file.scenario?.name ?? file.name,
      file: file.scenario === null ? [] : [file.name],
      href: addressOf(file.name),
      state: stateText(file, job),
    })),
    testCards,
    forms: Object.values(TESTS).map(({ title, slug }) => ({ title, href: `/forms/${slug}-form.html` })),
  });
}

/** One scenario: its problems, the way to its plan, how far the planning has come, or the plan's pages. */
export function scenarioScreen(
  file: ScenarioFile,
  job: Job | null,
  pages: readonly Page[],
  isKept: boolean,
): string {
  const isBusy = job?.kind === "waiting" || job?.kind === "planning";
  const asks = file.scenario !== null && !isBusy && !(job?.kind === "planned" && isProved(job.planned.plan));
  return fill("scenario", {
    ...frame(file.scenario?.name ?? file.name, { watches: isBusy }),
    file: file.scenario === null ? [] : [file.name],
    state: stateText(file, job),
    problems: problemLines(file.problems),
    busy: isBusy ? [{ text: progressText(job), events: "progress", stop: "stop" }] : [],
    pages: pages.map(({ slug, title }) => ({ href: `pages/${slug}.html`, title })),
    forms: file.scenario === null ? [] : boughtInSeveralForms(file.scenario),
    keep: job?.kind === "planned" && hasPlan(job.planned.plan) ? ["keep"] : [],
    weighIn: isKept ? ["weigh-in"] : [],
    questions: file.scenario === null ? [] : QUESTIONS.map(({ slug, title }) => ({ href: slug, title })),
    parts: (file.scenario?.parts ?? []).filter((part) => part.class !== "never").map(({ name }) => name),
    json: job?.kind === "planned" ? [{ href: "plan.json" }] : [],
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
export function questionScreen({ slug, title, about }: Question, answer: Answer | null): string {
  const isBusy = answer?.kind === "waiting";
  return fill("question", {
    ...frame(title, { watches: isBusy }),
    about,
    broken: answer?.kind === "broken" ? [`Not answered: ${answer.reason}`] : [],
    busy: answer?.kind === "waiting" ? [busyAt(slug, answer.text)] : [],
    ask: isBusy ? [] : [{ action: slug, seconds: QUESTION_SECONDS.map((each) => String(each)) }],
  });
}

/** A form's answer that is waited for, or was not found. `address` is its own, beside the scenario's screen. */
export function waitingScreen(
  title: string,
  address: string,
  answer: Exclude<HeldAnswer, { readonly kind: "answered" }>,
): string {
  const isBusy = answer.kind === "waiting";
  return fill("question", {
    ...frame(title, { watches: isBusy }),
    about: "The answer takes several plans. Leave this page open: without it nothing is planned.",
    broken: answer.kind === "broken" ? [`Not answered: ${answer.reason}`] : [],
    busy: answer.kind === "waiting" ? [busyAt(address, answer.text)] : [],
    ask: [],
  });
}

function busyAt(address: string, text: string) {
  return { text, events: `${address}/progress`, stop: `${address}/stop` };
}

/** One thing to say and a way back: an error, a wrong address. */
export function noticeScreen(title: string, text: string): string {
  return fill("notice", { ...frame(title, {}), text });
}

/** What the frame of every screen holds: whether it has a way back, and whether it watches a plan being made. */
export function frame(title: string, { back = true, watches = false }) {
  return { title, back: back ? "yes" : "", watches: watches ? "yes" : "" };
}

function stateText({ problems }: ScenarioFile, job: Job | null): string {
  if (problems.length > 0) return problems.length === 1 ? "1 problem" : `${problems.length} problems`;
  if (job === null) return "Not planned yet";
  if (job.kind === "waiting") return "Waiting for its turn";
  if (job.kind === "planning") return "Being planned";
  if (job.kind === "broken") return `Not planned: ${job.reason}`;
  const { plan, scenario } = job.planned;
  if (plan.outcome.kind === "infeasible") return "No plan is possible as it stands";
  if (!hasPlan(plan)) return "No answer in the time";
  return outcomeWords(plan, writingFor(scenario)).headline;
}

/** What is said while a plan is waited for. */
export function progressText(job: Job | null): string {
  if (job?.kind === "waiting") return placeText(job.ahead);
  if (job?.kind !== "planning") return "Done.";
  if (job.progress === null) return "Started.";
  return `${progressLine(job.progress, job.allowed)}.`;
}
