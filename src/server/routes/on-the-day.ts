import { join } from "node:path";
import express, { type Express, type Request, type Response } from "express";
import type { PlanJson } from "../../contract/index.js";
import { usesOf } from "../../insight/index.js";
import { isIsoDate, parseWeight, type Scenario } from "../../kitchen/index.js";
import { loadWithOffcut, readKeptPlan } from "../../kitchen-files/index.js";
import { usesPage } from "../../pages/index.js";
import { isWording } from "../../reading/index.js";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import type { ScenarioFile } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import { notOfThisPlan, replanScreen, type Typed } from "../replan-form.js";
import { addressOf, noticeScreen } from "../screens.js";
import { linesOf } from "../work/rest.js";
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
      const { seconds } = context;
      const asked = { file: file.texts, path: pathOf(file), typed, seconds };
      await answerForm(context, file, { title: "On the day", kind: "rest", asked }, response);
    }),
  );
}

interface Kept {
  readonly plan: PlanJson;
  readonly scenario: Scenario;
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
  response.status(404).send(noticeScreen("No plan to go on from", linesOf(problems).join(" ")));
  return null;
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
