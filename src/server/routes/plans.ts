import express, { type Express } from "express";
import { isPlanKept } from "../../kitchen-files/index.js";
import { busy, notFound } from "../answers.js";
import type { Context } from "../context.js";
import { sendProgress } from "../events.js";
import { addressOf } from "../frame.js";
import { fromOwnPage } from "../guards.js";
import { progressText, SECONDS_OFFERED, scenarioScreen } from "../screens.js";
import { typedText } from "./typed.js";
import { pathOf, withFile } from "./with-file.js";

/** A scenario's screen, the way to its plan, and the plan as pages and as JSON. */
export function addPlanRoutes(app: Express, context: Context): void {
  const { planner, seconds } = context;

  app.get(
    "/scenario/:name/",
    withFile(context, async (file, _request, response) => {
      const isKept = await isPlanKept(pathOf(file.texts, context));
      response.send(scenarioScreen(file, planner.watched(file.texts.hash), isKept));
    }),
  );

  app.post(
    "/scenario/:name/plan",
    fromOwnPage,
    express.urlencoded({ extended: false, limit: "1kb" }),
    withFile(context, ({ texts: file, summary }, request, response) => {
      const wanted = Number(typedText(request.body, "seconds"));
      const allowed = SECONDS_OFFERED.find((each) => each === wanted) ?? seconds;
      const taken = summary === null || planner.plan({ file, seconds: allowed }) !== null;
      if (taken) response.redirect(303, addressOf(file.name));
      else busy(response);
    }),
  );

  app.post(
    "/scenario/:name/stop",
    fromOwnPage,
    withFile(context, ({ texts: file }, _request, response) => {
      planner.stop(file.name);
      response.redirect(303, addressOf(file.name));
    }),
  );

  app.get(
    "/scenario/:name/progress",
    withFile(context, ({ texts: file }, request, response) => {
      const now = () => {
        const job = planner.watched(file.hash);
        return { text: progressText(job), done: job?.kind !== "waiting" && job?.kind !== "planning" };
      };
      sendProgress(now, request, response);
    }),
  );

  app.get(
    "/scenario/:name/plan.json",
    withFile(context, ({ texts: file }, _request, response) => {
      const job = planner.watched(file.hash);
      if (job?.kind === "planned") response.type("json").send(job.planned.json);
      else response.status(404).json({ problem: `${file.name} is not planned. Plan it first.` });
    }),
  );

  app.get(
    "/scenario/:name/pages/:page",
    withFile(context, ({ texts: file }, request, response) => {
      const job = planner.job(file.hash);
      const pages = job?.kind === "planned" ? job.planned.pages : [];
      const page = pages.find(({ slug }) => `${slug}.html` === request.params.page);
      if (page === undefined) notFound(request, response);
      else response.send(page.html);
    }),
  );
}
