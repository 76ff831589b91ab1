import { join } from "node:path";
import express, { type Express } from "express";
import { isPlanKept } from "../../kitchen-files/index.js";
import type { Page } from "../../pages/index.js";
import { busy, notFound } from "../answers.js";
import type { Context } from "../context.js";
import { sendProgress } from "../events.js";
import { isRead, type ScenarioFile } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import type { Planner } from "../planner.js";
import { addressOf, progressText, SECONDS_OFFERED, scenarioScreen } from "../screens.js";
import { withFile } from "./with-file.js";

/** A scenario's screen, the way to its plan, and the plan as pages and as JSON. */
export function addPlanRoutes(app: Express, context: Context): void {
  const { folder, planner, seconds } = context;

  app.get(
    "/scenario/:name/",
    withFile(context, async (file, _request, response) => {
      const isKept = await isPlanKept(join(folder.path, file.name));
      response.send(scenarioScreen(file, planner.watched(file.hash), pagesOf(file, planner), isKept));
    }),
  );

  app.post(
    "/scenario/:name/plan",
    fromOwnPage,
    express.urlencoded({ extended: false, limit: "1kb" }),
    withFile(context, (file, request, response) => {
      const wanted = Number((request.body as { seconds?: unknown } | undefined)?.seconds);
      const allowed = SECONDS_OFFERED.find((each) => each === wanted) ?? seconds;
      const taken = !isRead(file) || planner.plan({ file, seconds: allowed }) !== null;
      if (taken) response.redirect(303, addressOf(file.name));
      else busy(response);
    }),
  );

  app.post(
    "/scenario/:name/stop",
    fromOwnPage,
    withFile(context, (file, _request, response) => {
      planner.stop(file.name);
      response.redirect(303, addressOf(file.name));
    }),
  );

  app.get(
    "/scenario/:name/progress",
    withFile(context, (file, request, response) => {
      const now = () => {
        const job = planner.watched(file.hash);
        return { text: progressText(job), done: job?.kind !== "waiting" && job?.kind !== "planning" };
      };
      sendProgress(now, request, response);
    }),
  );

  app.get(
    "/scenario/:name/plan.json",
    withFile(context, (file, _request, response) => {
      const job = planner.watched(file.hash);
      if (job?.kind === "planned") response.json(job.planned.plan);
      else response.status(404).json({ problem: `${file.name} is not planned. Plan it first.` });
    }),
  );

  app.get(
    "/scenario/:name/pages/:page",
    withFile(context, (file, request, response) => {
      const page = pagesOf(file, planner).find(({ slug }) => `${slug}.html` === request.params.page);
      if (page === undefined) notFound(request, response);
      else response.send(page.html);
    }),
  );
}

/** The pages of the plan made of this file; none where there is no plan yet. */
function pagesOf(file: ScenarioFile, planner: Planner): readonly Page[] {
  const job = planner.job(file.hash);
  return job?.kind === "planned" ? job.planned.pages : [];
}
