import express, { type Express } from "express";
import { notFound, send } from "../answers.js";
import type { Context } from "../context.js";
import { addressOf } from "../frame.js";
import { fromOwnPage } from "../guards.js";
import { notice, wordsOf } from "../page-answer.js";
import { text } from "./typed.js";
import { pathOf, withFile, withScenario } from "./with-file.js";

/** So long is the form of a large week. */
const form = express.text({ type: "application/x-www-form-urlencoded", limit: "4mb" });

/** Keeping a plan, the weigh-in after service as a form, what happened by it, and learning from it. */
export function addWeighInRoutes(app: Express, context: Context): void {
  const { desk, planner } = context;

  app.post(
    "/scenario/:name/keep",
    fromOwnPage,
    withFile(context, async ({ texts: file }, request, response) => {
      const job = planner.job(file.hash);
      const planned = job?.kind === "planned" ? job.planned : null;
      if (planned === null || planned.weighIn === null) {
        notFound(request, response);
        return;
      }
      const texts = { plan: planned.json, weighIn: planned.weighIn };
      const problems = await desk.run("keep", { path: pathOf(file, context), texts });
      const kept = { seeOther: `${addressOf(file.name)}weigh-in` };
      send(problems.length === 0 ? kept : notice(409, "Not kept", wordsOf(problems)), response);
    }),
  );

  app.get(
    "/scenario/:name/weigh-in",
    withScenario(context, async (at, { query }, response) => {
      const said = { saved: text(query.saved), learnt: text(query.learnt) };
      send(await desk.run("weighInForm", { ...at, ...said }), response);
    }),
  );

  app.post(
    "/scenario/:name/weigh-in",
    fromOwnPage,
    form,
    withFile(context, async ({ texts: file, problems: unread }, request, response) => {
      const body = text(request.body);
      send(await desk.run("saveWeighIn", { file, path: pathOf(file, context), body, unread }), response);
    }),
  );

  app.post(
    "/scenario/:name/learn",
    fromOwnPage,
    withScenario(context, async (at, _request, response) => {
      send(await desk.run("learn", at), response);
    }),
  );

  app.get(
    "/scenario/:name/happened/:page",
    withFile(context, async ({ texts: file, summary, problems }, request, response) => {
      const page = text(request.params.page);
      if (summary === null) send(notice(404, "Not known what happened", wordsOf(problems)), response);
      else send(await desk.run("happened", { file, path: pathOf(file, context), page }), response);
    }),
  );
}
