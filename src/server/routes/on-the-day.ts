import { basename, join } from "node:path";
import express, { type Express, type Request, type Response } from "express";
import type { Engines } from "../../allocation/index.js";
import type { PlanJson } from "../../contract/index.js";
import { usesOf } from "../../insight/index.js";
import { keepPlan } from "../../keeping/index.js";
import { isIsoDate, parseWeight, type Scenario } from "../../kitchen/index.js";
import { loadWithOffcut, readKeptPlan } from "../../kitchen-files/index.js";
import { renderPages, replanPage, replanText, usesPage, writingFor } from "../../pages/index.js";
import { type Replanned, replan } from "../../planning/index.js";
import { isWording, type Problem, type Source } from "../../reading/index.js";
import { NotSaved, planFile } from "../../records/index.js";
import { notFound } from "../answers.js";
import type { PageAnswer } from "../answers-held.js";
import type { Context } from "../context.js";
import type { ScenarioFile } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import { happenedText, notOfThisPlan, replanScreen, type Typed } from "../replan-form.js";
import { addressOf, noticeScreen } from "../screens.js";
import { answerForm } from "./answers.js";
import { withFile } from "./with-file.js";

/** A large week has some hundred figures of what happened. */
const form = express.urlencoded({ extended: false, limit: "256kb", parameterLimit: 5_000 });

/** What is asked while the kitchen works: what an offcut is good for, and the rest of a kept plan planned anew. */
export function addOnTheDayRoutes(app: Express, context: Context): void {
  const pathOf = ({ name }: ScenarioFile): string => join(context.folder.path, name);

  app.post(
    "/scenario/:name/uses",
    fromOwnPage,
    form,
    withFile(context, async (file, request, response) => {
      const [part = ""] = typedIn(request.body).get("part") ?? [];
      const [written = ""] = typedIn(request.body).get("weight") ?? [];
      const [useBy = ""] = typedIn(request.body).get("use-by") ?? [];
      const weight = parseWeight(written, null);
      const refuse = (what: string, remedy: string): void => {
        response.status(400).send(noticeScreen("Not read", `${what}. ${remedy}.`));
      };
      if (file.scenario === null) notFound(request, response);
      else if (isWording(weight)) refuse(`Weight: ${weight.what}`, weight.remedy);
      else if (useBy !== "" && !isIsoDate(useBy))
        refuse(`Use by: \`${useBy}\` is no day`, "Write it as 2026-10-02");
      else {
        const offcut = { part, weight, ...(useBy === "" ? {} : { useBy }) };
        const { scenario, stock, problems } = await loadWithOffcut(pathOf(file), offcut);
        const [first] = problems;
        if (scenario !== null)
          response.send(usesPage(usesOf(stock, scenario), scenario, layoutOf(file)).html);
        else refuse(`${part}: ${first?.what ?? "it is not known"}`, first?.remedy ?? "Choose a part");
      }
    }),
  );

  app.get(
    "/scenario/:name/replan",
    withFile(context, async (file, request, response) => {
      const kept = await keptOf(file, pathOf(file), request, response);
      if (kept !== null) response.send(replanScreen(kept.scenario, kept.plan, new Map(), []));
    }),
  );

  app.post(
    "/scenario/:name/replan",
    fromOwnPage,
    form,
    withFile(context, async (file, request, response) => {
      const kept = await keptOf(file, pathOf(file), request, response);
      if (kept === null) return;
      const typed = typedIn(request.body);
      const strange = notOfThisPlan(kept.scenario, kept.plan, typed);
      if (strange.length > 0) {
        response.status(409).send(replanScreen(kept.scenario, kept.plan, typed, strange));
        return;
      }
      const source = { file: "form", text: happenedText(kept.scenario, kept.plan, typed) };
      const title = "On the day";
      const task = (engines: Engines) => replanned({ file, kept, typed, source }, engines);
      await answerForm(context, file, { title, task }, response);
    }),
  );

  async function replanned({ file, kept, typed, source }: Asked, engines: Engines): Promise<PageAnswer> {
    const before = { plan: kept.plan, file: planFile(file.name) };
    const { replanned: found, problems } = await replan(before, kept.scenario, source, {
      engines,
      seconds: context.seconds,
    });
    if (found === null) {
      const wrong = problems.map(({ what, remedy }) => `${what}. ${remedy}.`);
      return { status: 422, html: replanScreen(kept.scenario, kept.plan, typed, wrong) };
    }
    if (found.plan !== null && typed.has("keep")) {
      const plans = { plan: found.plan, before: kept.plan };
      const unsaved = await keepAnew(pathOf(file), plans, found.scenario);
      const words = unsaved.map(({ file: at, what, remedy }) => `${basename(at)}: ${what}. ${remedy}.`);
      if (unsaved.length > 0) return { status: 409, html: noticeScreen("Not kept", words.join(" ")) };
    }
    return { status: 200, html: answerOf(kept.plan, found, file) };
  }
}

interface Kept {
  readonly plan: PlanJson;
  readonly scenario: Scenario;
}

/** A form of the day that can be read. */
interface Asked {
  readonly file: ScenarioFile;
  readonly kept: Kept;
  readonly typed: Typed;
  readonly source: Source;
}

async function keptOf(
  file: ScenarioFile,
  path: string,
  request: Request,
  response: Response,
): Promise<Kept | null> {
  const { scenario } = file;
  if (scenario === null) {
    notFound(request, response);
    return null;
  }
  const { kept, problems } = await readKeptPlan(path, scenario);
  if (kept !== null) return { plan: kept.plan, scenario };
  const words = problems.map((each) => `${basename(each.file)}: ${each.what}. ${each.remedy}.`).join(" ");
  response.status(404).send(noticeScreen("No plan to go on from", words));
  return null;
}

/** The page of what changes; where there is no plan, what would make one. */
function answerOf(
  before: PlanJson,
  { plan, scenario, rest, overCeiling, changes }: Replanned,
  file: ScenarioFile,
) {
  if (plan === null) {
    const [page] = renderPages(rest.plan, rest.scenario, layoutOf(file));
    return page?.html ?? noticeScreen("No plan for the rest", "With what is left there is none.");
  }
  const from = rest.scenario.services[0]?.name ?? "";
  const words = replanText(before, plan, { from, overCeiling, changes }, writingFor(scenario));
  return replanPage(words, scenario, layoutOf(file)).html;
}

async function keepAnew(
  path: string,
  { plan, before }: { readonly plan: PlanJson; readonly before: PlanJson },
  scenario: Scenario,
): Promise<readonly Problem[]> {
  try {
    return (await keepPlan(path, plan, scenario, before)).problems;
  } catch (error) {
    if (error instanceof NotSaved) return [error.problem];
    throw error;
  }
}

function layoutOf({ name }: ScenarioFile) {
  return { assets: "/assets/", home: { href: addressOf(name), text: "Scenario" } };
}

/** The fields of a form, in order, without blanks about what was typed. */
function typedIn(body: unknown): Typed {
  const fields = typeof body === "object" && body !== null ? Object.entries(body) : [];
  return new Map(
    fields.map(([name, value]: [string, unknown]) => {
      const all: unknown[] = Array.isArray(value) ? value : [value];
      return [name, all.map((each) => (typeof each === "string" ? each.trim() : ""))];
    }),
  );
}
