import express, { type Express } from "express";
import { busy } from "../answers.js";
import type { Context } from "../context.js";
import { sendProgress } from "../events.js";
import { isRead } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import { QUESTION_SECONDS, QUESTIONS } from "../questions.js";
import { addressOf, questionScreen } from "../screens.js";
import { withFile } from "./with-file.js";

/** Questions on a scenario that take many plans: the asking, how far it has come, and the answer's page. */
export function addQuestionRoutes(app: Express, context: Context): void {
  const { questions } = context;
  for (const question of QUESTIONS) {
    const address = `/scenario/:name/${question.slug}`;

    app.get(
      address,
      withFile(context, (file, _request, response) => {
        const answer = questions.answer(question, file);
        response.send(answer?.kind === "answered" ? answer.html : questionScreen(question, answer));
      }),
    );

    app.post(
      address,
      fromOwnPage,
      express.urlencoded({ extended: false, limit: "1kb" }),
      withFile(context, (file, request, response) => {
        const wanted = Number((request.body as { seconds?: unknown } | undefined)?.seconds);
        const seconds = QUESTION_SECONDS.find((each) => each === wanted) ?? QUESTION_SECONDS[0];
        if (!isRead(file)) response.redirect(303, addressOf(file.name));
        else if (questions.ask(question, file, seconds))
          response.redirect(303, `${addressOf(file.name)}${question.slug}`);
        else busy(response);
      }),
    );

    app.post(
      `${address}/stop`,
      fromOwnPage,
      withFile(context, (file, _request, response) => {
        questions.stop(question, file);
        response.redirect(303, `${addressOf(file.name)}${question.slug}`);
      }),
    );

    app.get(
      `${address}/progress`,
      withFile(context, (file, request, response) => {
        const now = () => {
          const answer = questions.answer(question, file);
          return answer?.kind === "waiting"
            ? { text: answer.text, done: false }
            : { text: "Done.", done: true };
        };
        sendProgress(now, request, response);
      }),
    );
  }
}
