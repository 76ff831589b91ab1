import { setTimeout as pause } from "node:timers/promises";
import type { Express, Response } from "express";
import { busy, notFound } from "../answers.js";
import type { FormTask, HeldAnswer } from "../answers-held.js";
import type { Context } from "../context.js";
import { sendProgress } from "../events.js";
import type { ScenarioFile } from "../folder.js";
import { fromOwnPage } from "../guards.js";
import { addressOf, waitingScreen } from "../screens.js";
import type { PageAnswer } from "../work/tasks.js";
import { withFile } from "./with-file.js";

/** An answer that is there so soon needs no page to wait on. */
const AT_ONCE_MS = 2_000;

/** Where an answer is waited for, shown, and stopped. */
export function addAnswerRoutes(app: Express, context: Context): void {
  const { answers } = context;
  const idOf = (params: Record<string, unknown>): string => String(params.id ?? "");

  app.get(
    "/scenario/:name/answer-:id",
    withFile(context, (_file, request, response) => {
      const id = idOf(request.params);
      const held = answers.answer(id);
      if (held === null) notFound(request, response);
      else if (held.answer.kind === "answered") send(held.answer.page, response);
      else response.send(waitingScreen(held.title, `answer-${id}`, held.answer));
    }),
  );

  app.get(
    "/scenario/:name/answer-:id/progress",
    withFile(context, (_file, request, response) => {
      sendProgress(() => standingOf(answers.answer(idOf(request.params))?.answer), request, response);
    }),
  );

  app.post(
    "/scenario/:name/answer-:id/stop",
    fromOwnPage,
    withFile(context, (file, request, response) => {
      const id = idOf(request.params);
      answers.stop(id);
      response.redirect(303, `${addressOf(file.name)}answer-${id}`);
    }),
  );
}

/** Answers a form that takes plans: at once where it can, else on a page to wait on, which says how it stands. */
export async function answerForm(
  { answers }: Context,
  file: ScenarioFile,
  { title, ...task }: FormTask & { readonly title: string },
  response: Response,
): Promise<void> {
  const asked = answers.ask(title, task);
  if (asked === null) {
    busy(response);
    return;
  }
  await Promise.race([asked.done, pause(AT_ONCE_MS, undefined, { ref: false })]);
  const answer = answers.answer(asked.id)?.answer;
  if (answer?.kind === "answered") send(answer.page, response);
  else response.redirect(303, `${addressOf(file.name)}answer-${asked.id}`);
}

function send({ status, html }: PageAnswer, response: Response): void {
  response.status(status).send(html);
}

function standingOf(answer: HeldAnswer | undefined): { text: string; done: boolean } {
  return answer?.kind === "waiting" ? { text: answer.text, done: false } : { text: "Done.", done: true };
}
