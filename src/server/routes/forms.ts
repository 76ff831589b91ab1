import express, { type Express } from "express";
import { hourlyWage, NO_MONEY, WAGE_REMEDY } from "../../quantity/index.js";
import { boughtInSeveralForms } from "../../yields/index.js";
import type { Context } from "../context.js";
import { fromOwnPage } from "../guards.js";
import { noticeScreen } from "../screens.js";
import { answerForm } from "./answers.js";
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
    withFile(context, async (file, request, response) => {
      const { scenario: read } = file;
      const body = (request.body ?? {}) as { item?: unknown; wage?: unknown };
      const of = String(body.item ?? "");
      const written = String(body.wage ?? "").trim();
      const wage = written === "" ? NO_MONEY : hourlyWage(written);
      if (read === null || !boughtInSeveralForms(read).includes(of)) {
        response
          .status(400)
          .send(noticeScreen("Nothing to choose", "The scenario buys no two forms of that."));
      } else if (wage === null) {
        response
          .status(400)
          .send(noticeScreen("This is no wage", `"${written}" cannot be read. ${WAGE_REMEDY}.`));
      } else {
        const asked = { file: file.texts, of, wage, seconds };
        await answerForm(context, file, { title: "Which form to buy", kind: "forms", asked }, response);
      }
    }),
  );
}
