import express, { type Express } from "express";
import type { Engines } from "../../allocation/index.js";
import { planFormChoice } from "../../insight/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { CostingError } from "../../ledger/index.js";
import { formChoicePage } from "../../pages/index.js";
import { planningWith } from "../../planning/index.js";
import { hourlyWage, NO_MONEY, WAGE_REMEDY } from "../../quantity/index.js";
import { boughtInSeveralForms, foodServedOf } from "../../yields/index.js";
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
        const scenario: Scenario = { ...read, wage };
        const options = { assets: "/assets/", home: { href: ".", text: "Scenario" } };
        const task = (engines: Engines) =>
          planFormChoice(of, foodServedOf(of, scenario), scenario, planningWith(engines), { seconds }).then(
            (found) => ({ status: 200, html: formChoicePage(found, scenario, options).html }),
            (error: unknown) => {
              if (!(error instanceof CostingError)) throw error;
              return { status: 400, html: noticeScreen("The costing method does not fit", error.message) };
            },
          );
        await answerForm(context, file, { title: "Which form to buy", task }, response);
      }
    }),
  );
}
