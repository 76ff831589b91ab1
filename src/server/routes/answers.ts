import { randomUUID } from "node:crypto";
import { setTimeout as pause } from "node:timers/promises";
import type { Express, Response } from "express";
import { busy, notFound, send } from "../answers.js";
import type { Begin, Held } from "../answers-held.js";
import type { Context } from "../context.js";
import { type Standing, sendProgress } from "../events.js";
import { addressOf } from "../frame.js";
import { fromOwnPage } from "../guards.js";
import { waitingScreen } from "../screens.js";
import { withFile } from "./with-file.js";

/** An answer that is there so soon needs no page to wait on. */
const AT_ONCE_MS = 2_000;

/** Where a form's answer is waited for, shown, and stopped. */
export function addAnswerRoutes(app: Express, context: Context): void {
  const { answers } = context;
  const idOf = (params: Record<string, unknown>): string => String(params.id ?? "");

  app.get(
    "/scenario/:name/answer-:id",
    withFile(context, (_file, request, response) => {
      const id = idOf(request.params);
      const held = answers.answer(keyOf(id));
      if (held === null) notFound(request, response);
      else if (held.answer.kind === "answered") send(held.answer.answer, response);
      else response.send(waitingScreen(held, `answer-${id}`));
    }),
  );

  app.get(
    "/scenario/:name/answer-:id/progress",
    withFile(context, (_file, request, response) => {
      sendProgress(() => standingOf(answers.answer(keyOf(idOf(request.params)))), request, response);
    }),
  );

  app.post(
    "/scenario/:name/answer-:id/stop",
    fromOwnPage,
    withFile(context, ({ texts }, request, response) => {
      const id = idOf(request.params);
      answers.stop(keyOf(id));
      response.redirect(303, `${addressOf(texts.name)}answer-${id}`);
    }),
  );
}

/** Answers a form that takes plans: at once where it can, else on a page to wait on, which says how it stands. */
export async function answerForm(
  { answers }: Context,
  name: string,
  title: string,
  begin: Begin,
  response: Response,
): Promise<void> {
  const id = randomUUID();
  const done = answers.ask(keyOf(id), title, begin);
  if (done === null) {
    busy(response);
    return;
  }
  await Promise.race([done, pause(AT_ONCE_MS, undefined, { ref: false })]);
  const answer = answers.answer(keyOf(id))?.answer;
  if (answer?.kind === "answered") send(answer.answer, response);
  else response.redirect(303, `${addressOf(name)}answer-${id}`);
}

/** Of the answer to a form, apart from those to questions. */
function keyOf(id: string): string {
  return `form ${id}`;
}

/** How an answer stands, for whoever waits for it. */
export function standingOf(held: Held | null): Standing {
  const waits = held?.answer.kind === "waiting" ? held.answer.text : null;
  return { text: waits ?? "Done.", done: waits === null };
}
