import { basename, join } from "node:path";
import express, { type Express, type Request, type Response } from "express";
import { hasPlan } from "../../contract/index.js";
import { keepPlan } from "../../keeping/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { fillIn, happenedAt, learnFrom, weighInAt } from "../../kitchen-files/index.js";
import { renderHappened, weighInFormPage } from "../../pages/index.js";
import { type Problem, problemLines } from "../../reading/index.js";
import { NotSaved, weighInFile } from "../../records/index.js";
import { type Change, carriedOver, type FilledRow } from "../../weigh-in/index.js";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import type { ScenarioFile } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import { addressOf, noticeScreen } from "../screens.js";
import { withFile } from "./with-file.js";

/** So many fields has the form of a large week. */
const MOST_FIELDS = 50_000;
const form = express.urlencoded({ extended: false, limit: "4mb", parameterLimit: MOST_FIELDS });

/** Keeping a plan, the weigh-in after service as a form, what happened by it, and learning from it. */
export function addWeighInRoutes(app: Express, context: Context): void {
  const pathOf = ({ name }: ScenarioFile): string => join(context.folder.path, name);

  app.post(
    "/scenario/:name/keep",
    fromOwnPage,
    withFile(context, async (file, request, response) => {
      const job = context.planner.job(file.hash);
      if (job?.kind !== "planned" || !hasPlan(job.planned.plan)) {
        notFound(request, response);
        return;
      }
      const { plan, scenario } = job.planned;
      const { problems } = await keepPlan(pathOf(file), plan, scenario).catch(notSaved);
      if (problems.length === 0) response.redirect(303, weighInAddress(file.name));
      else response.status(409).send(noticeScreen("Not kept", wordsOf(problems)));
    }),
  );

  app.get(
    "/scenario/:name/weigh-in",
    withFile(context, async (file, request, response) => {
      if (file.scenario === null) notFound(request, response);
      else await sendForm(file, file.scenario, pathOf(file), request, response);
    }),
  );

  app.post(
    "/scenario/:name/weigh-in",
    fromOwnPage,
    form,
    withFile(context, async (file, request, response) => {
      const { scenario } = file;
      const path = pathOf(file);
      const typed = typedIn(request.body);
      if (typed === null) {
        response.status(400).send(noticeScreen("Not saved", NO_FORM));
        return;
      }
      const { changes, initials } = typed;
      const found = scenario === null ? file : await weighInAt(path, scenario);
      if (scenario === null || !("rows" in found) || found.rows === null) {
        const lost = carriedOver(changes, []).strays.map(strayWords);
        const why = wordsOf(found.problems);
        response.status(409).send(noticeScreen("Not saved", [why, ...kept(lost)].join(" ")));
        return;
      }
      const { rows } = found;
      const written = { changes, by: initials, time: new Date().toTimeString().slice(0, 5) };
      const { errors, problems } = await fillIn(path, scenario, written).catch(unwritten);
      if (errors.size + problems.length === 0) {
        response.redirect(303, `${weighInAddress(file.name)}?saved=${encodeURIComponent(initials || "yes")}`);
        return;
      }
      const carried = carriedOver(changes, rows);
      const before = new Map(rows.map((row) => [row.key, row]));
      const isOther = [...changes.keys()].some((key) => !before.has(key));
      const filled = rows.map((row) => ({ ...row, ...carried.changes.get(row.key) }));
      const page = weighInFormPage(scenario, filled, before, {
        ...layoutOf(file, path),
        said: isOther ? OTHER_PLAN : "Not saved: some figures cannot be read. What you wrote is still here.",
        isWrong: true,
        strays: carried.strays.map(strayWords),
        problems: problemLines(problems),
        errors,
        initials,
      });
      response.status(isOther ? 409 : 422).send(page.html);
    }),
  );

  app.post(
    "/scenario/:name/learn",
    fromOwnPage,
    withFile(context, async (file, request, response) => {
      if (file.scenario === null) {
        notFound(request, response);
        return;
      }
      const { happened, problems } = await happenedAt(pathOf(file), file.scenario);
      const lesson =
        happened === null ? { problems, tests: 0 } : await learnFrom(pathOf(file), happened).catch(unlearnt);
      if (lesson.problems.length > 0)
        response.status(409).send(noticeScreen("Not learnt", wordsOf(lesson.problems)));
      else response.redirect(303, `${weighInAddress(file.name)}?learnt=${lesson.tests}`);
    }),
  );

  app.get(
    "/scenario/:name/happened/:page",
    withFile(context, async (file, request, response) => {
      const { planned, happened, problems } =
        file.scenario === null
          ? { planned: null, happened: null, problems: file.problems }
          : await happenedAt(pathOf(file), file.scenario);
      if (happened === null) {
        response.status(404).send(noticeScreen("Not known what happened", wordsOf(problems)));
        return;
      }
      const pages =
        file.scenario === null || planned === null
          ? []
          : renderHappened(planned, file.scenario, happened, {
              assets: "/assets/",
              home: { href: weighInAddress(file.name), text: "Weigh in" },
            });
      const page = pages.find(({ slug }) => `${slug}.html` === request.params.page);
      if (page === undefined) notFound(request, response);
      else response.send(page.html);
    }),
  );
}

function weighInAddress(name: string): string {
  return `${addressOf(name)}weigh-in`;
}

function layoutOf(file: ScenarioFile, path: string) {
  return {
    assets: "/assets/",
    home: { href: addressOf(file.name), text: "Scenario" },
    head: [file.scenario?.name ?? file.name],
    action: weighInAddress(file.name),
    happened: `${addressOf(file.name)}happened/happened.html`,
    learn: `${addressOf(file.name)}learn`,
    file: basename(weighInFile(path)),
  };
}

async function sendForm(
  file: ScenarioFile,
  scenario: Scenario,
  path: string,
  { query }: Pick<Request, "query">,
  response: Response,
): Promise<void> {
  const { rows, problems } = await weighInAt(path, scenario);
  if (rows === null) {
    response.status(404).send(noticeScreen("Nothing to weigh", wordsOf(problems)));
    return;
  }
  const { problems: gaps } = await happenedAt(path, scenario);
  const saved = typeof query.saved === "string" ? query.saved : "";
  const page = weighInFormPage(scenario, rows, new Map<string, FilledRow>(), {
    ...layoutOf(file, path),
    said: saidOf(saved, query.learnt),
    isWrong: false,
    strays: [],
    problems: gaps.map(({ what, remedy }) => `${what}. ${remedy}`),
    errors: new Map(),
    initials: saved === "yes" ? "" : saved,
  });
  response.send(page.html);
}

function saidOf(saved: string, learnt: unknown): string {
  if (saved !== "") return "Saved.";
  if (typeof learnt !== "string" || !/^\d+$/.test(learnt)) return "";
  return learnt === "0"
    ? "No cut was weighed whole and part for part: there is nothing to learn."
    : `Learnt: yield tests of ${learnt} ${learnt === "1" ? "cut" : "cuts"} count from the next plan on.`;
}

const OTHER_PLAN =
  "Not saved: another plan was kept since this form was opened. What you wrote is still here: look whether it fits this plan, then save again.";
const NO_FORM = "This is not what the form of a weigh-in sends. Open the weigh-in anew, and write it there.";

function strayWords({ words, change }: { words: string; change: Change }): string {
  return `${words}: ${[change.actual, change.reason].filter((text) => text !== undefined && text !== "").join(", ")}`;
}

function kept(lost: readonly string[]): string[] {
  return lost.length === 0 ? [] : [`You wrote: ${lost.join("; ")}.`];
}

const FIELDS = ["key", "was", "wasReason", "actual", "reason"];

/** The rows that were typed otherwise than they were shown; null for what no form of ours sends. */
function typedIn(body: unknown): { changes: ReadonlyMap<string, Change>; initials: string } | null {
  const fields =
    typeof body === "object" && body !== null ? new Map<string, unknown>(Object.entries(body)) : new Map();
  const list = (name: string): string[] => {
    const value: unknown = fields.get(name);
    return (Array.isArray(value) ? value : [value]).map((each: unknown) =>
      typeof each === "string" ? each.trim().replace(/\s+/g, " ") : "",
    );
  };
  const rows = FIELDS.map((name) => (fields.has(name) ? list(name).length : 0));
  const isOurs = [...fields.keys()].every((name) => name === "initials" || FIELDS.includes(name));
  if (!isOurs || new Set(rows).size > 1) return null;
  if (rows[0] === 0) return { changes: new Map(), initials: "" };
  const [was, wasReason, actual, reason] = [list("was"), list("wasReason"), list("actual"), list("reason")];
  const changes = new Map<string, Change>();
  list("key").forEach((key, index) => {
    const change = {
      ...(actual[index] === was[index] ? {} : { actual: actual[index] ?? "" }),
      ...(reason[index] === wasReason[index] ? {} : { reason: reason[index] ?? "" }),
    };
    if (Object.keys(change).length > 0) changes.set(key, change);
  });
  return { changes, initials: list("initials")[0] ?? "" };
}

function wordsOf(problems: readonly Problem[]): string {
  return problems.map(({ file, what, remedy }) => `${basename(file)}: ${what}. ${remedy}.`).join(" ");
}

function problemOf(error: unknown): Problem {
  if (error instanceof NotSaved) return error.problem;
  throw error;
}

function notSaved(error: unknown): { problems: readonly Problem[] } {
  return { problems: [problemOf(error)] };
}

function unwritten(error: unknown): { errors: ReadonlyMap<string, string>; problems: readonly Problem[] } {
  return { errors: new Map(), problems: [problemOf(error)] };
}

function unlearnt(error: unknown): { problems: readonly Problem[]; tests: number } {
  return { problems: [problemOf(error)], tests: 0 };
}
