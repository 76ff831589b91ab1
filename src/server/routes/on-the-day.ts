import express, { type Express } from "express";
import { send } from "../answers.js";
import type { Context } from "../context.js";
import { fromOwnPage } from "../guards.js";
import { notice, type PageAnswer, wordsOf } from "../page-answer.js";
import type { Place } from "../queue.js";
import type { RestTask } from "../work/rest.js";
import { answerForm } from "./answers.js";
import { typedFields, typedText } from "./typed.js";
import { withScenario } from "./with-file.js";

/** A large week has some hundred figures of what happened. */
const form = express.urlencoded({ extended: false, limit: "256kb", parameterLimit: 5_000 });

/** What is asked while the kitchen works: what an offcut is good for, and the rest of a kept plan planned anew. */
export function addOnTheDayRoutes(app: Express, context: Context): void {
  const { desk, seconds } = context;

  app.post(
    "/scenario/:name/uses",
    fromOwnPage,
    form,
    withScenario(context, async (at, { body }, response) => {
      const [part, weight, useBy] = [
        typedText(body, "part"),
        typedText(body, "weight"),
        typedText(body, "use-by"),
      ];
      send(await desk.run("uses", { ...at, part, weight, useBy }), response);
    }),
  );

  app.get(
    "/scenario/:name/replan",
    withScenario(context, async (at, _request, response) => {
      send(await desk.run("dayForm", at), response);
    }),
  );

  app.post(
    "/scenario/:name/replan",
    fromOwnPage,
    form,
    withScenario(context, async (at, { body }, response) => {
      const asked = { ...at, typed: typedFields(body) };
      const refusal = await desk.run("dayFormRefusal", asked);
      if (refusal !== null) send(refusal, response);
      else {
        const begin = () => restOf({ ...asked, seconds }, context);
        await answerForm(context, at.file.name, "On the day", begin, response);
      }
    }),
  );
}

/** Plans the rest in its turn. What it is to keep is kept by another thread, as this one may be ended at any moment. */
function restOf(asked: RestTask["asked"], { queue, desk }: Context): Place<PageAnswer> | null {
  const place = queue.add("rest", asked);
  if (place === null) return null;
  const kept = async (): Promise<PageAnswer> => {
    const { page, keep } = await place.done;
    if (keep === null) return page;
    const problems = await desk.run("keep", { path: asked.path, ...keep });
    return problems.length === 0 ? page : notice(409, "Not kept", wordsOf(problems));
  };
  return { ...place, done: kept() };
}
