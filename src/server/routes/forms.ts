import express, { type Express } from "express";
import { hourlyWage, NO_MONEY, WAGE_REMEDY } from "../../quantity/index.js";
import { send } from "../answers.js";
import type { Context } from "../context.js";
import { fromOwnPage } from "../guards.js";
import { notice } from "../page-answer.js";
import { answerForm } from "./answers.js";
import { typedText } from "./typed.js";
import { withFile } from "./with-file.js";

/** For each of the plans that are compared, of which there may be twenty. */
const MOST_SECONDS = 3;

/** Which form of an item to buy, planned while whoever asked waits. */
export function addFormRoutes(app: Express, context: Context): void {
  const seconds = Math.min(MOST_SECONDS, context.seconds);
  app.post(
    "/scenario/:name/forms",
    fromOwnPage,
    express.urlencoded({ extended: false, limit: "1kb" }),
    withFile(context, async ({ texts, summary }, request, response) => {
      const of = typedText(request.body, "item");
      const written = typedText(request.body, "wage");
      const wage = written === "" ? NO_MONEY : hourlyWage(written);
      if (summary?.severalForms.includes(of) !== true)
        send(notice(400, "Nothing to choose", "The scenario buys no two forms of that."), response);
      else if (wage === null)
        send(notice(400, "This is no wage", `"${written}" cannot be read. ${WAGE_REMEDY}.`), response);
      else {
        const asked = { file: texts, of, wage, seconds };
        const begin = () => context.queue.add("forms", asked);
        await answerForm(context, texts.name, "Which form to buy", begin, response);
      }
    }),
  );
}
