import express, { type Express } from "express";
import { busy, send } from "../answers.js";
import type { Context } from "../context.js";
import { sendProgress } from "../events.js";
import { addressOf } from "../frame.js";
import { fromOwnPage } from "../guards.js";
import { QUESTION_SECONDS, QUESTIONS, type Question } from "../questions.js";
import type { ScenarioTexts } from "../scenario-texts.js";
import { questionScreen } from "../screens.js";
import { standingOf } from "./answers.js";
import { typedText } from "./typed.js";
import { withFile } from "./with-file.js";

/** Questions on a scenario that take many plans: the asking, how far it has come, and the answer's page. */
export function addQuestionRoutes(app: Express, context: Context): void {
  const { answers, queue } = context;
  for (const question of QUESTIONS) {
    const { slug, title } = question;
    const address = `/scenario/:name/${slug}`;

    app.get(
      address,
      withFile(context, ({ texts }, _request, response) => {
        const held = answers.answer(keyOf(question, texts));
        if (held?.answer.kind === "answered") send(held.answer.answer, response);
        else response.send(questionScreen(question, held));
      }),
    );

    app.post(
      address,
      fromOwnPage,
      express.urlencoded({ extended: false, limit: "1kb" }),
      withFile(context, ({ texts: file, summary }, request, response) => {
        const wanted = Number(typedText(request.body, "seconds"));
        const seconds = QUESTION_SECONDS.find((each) => each === wanted) ?? QUESTION_SECONDS[0];
        const begin = (tell: (text: string) => void) =>
          queue.add("question", { slug, file, seconds }, { tell });
        if (summary === null) response.redirect(303, addressOf(file.name));
        else if (answers.ask(keyOf(question, file), title, begin) === null) busy(response);
        else response.redirect(303, `${addressOf(file.name)}${slug}`);
      }),
    );

    app.post(
      `${address}/stop`,
      fromOwnPage,
      withFile(context, ({ texts }, _request, response) => {
        answers.stop(keyOf(question, texts));
        response.redirect(303, `${addressOf(texts.name)}${slug}`);
      }),
    );

    app.get(
      `${address}/progress`,
      withFile(context, ({ texts }, request, response) => {
        sendProgress(() => standingOf(answers.answer(keyOf(question, texts))), request, response);
      }),
    );
  }
}

/** The same question on the same texts is asked once. */
function keyOf({ slug }: Question, { hash }: ScenarioTexts): string {
  return `question ${slug} ${hash}`;
}
