import type { ErrorRequestHandler, Express, Request, RequestHandler, Response } from "express";
import { reasonOf } from "../reading/index.js";
import { diskProblem } from "../records/index.js";
import { noticeScreen } from "./frame.js";
import { notHere, type PageAnswer } from "./page-answer.js";
import { Stopped } from "./work/stopped.js";

export function send(answer: PageAnswer, response: Response): void {
  if ("seeOther" in answer) response.redirect(303, answer.seeOther);
  else response.status(answer.status).send(answer.html);
}

export function notFound(_request: Request, response: Response): void {
  send(notHere(), response);
}

/** Says what a page takes, where it is asked for otherwise. */
export function otherMethod(app: Express): RequestHandler {
  return (request, response, next) => {
    const methods = app.router.stack
      .flatMap(({ route }) => (route !== undefined && isAt(route.path, request.path) ? route.stack : []))
      .map(({ method }) => method.toUpperCase());
    if (methods.length === 0) {
      next();
      return;
    }
    const taken = [...new Set(methods.flatMap((method) => (method === "GET" ? ["GET", "HEAD"] : [method])))];
    response.status(405).set("Allow", taken.join(", "));
    const text = taken.includes("GET")
      ? "This page can be read, and takes no form."
      : "This address takes a form only. Send it from the page it belongs to.";
    response.send(noticeScreen("Not in this way", text));
  };
}

/** Whether a path is one of a route's: a name in it stands for anything but a slash. */
function isAt(route: string, path: string): boolean {
  const pattern = route.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/:\w+/g, "[^/]+");
  return new RegExp(`^${pattern.replace(/\/$/, "")}/?$`, "i").test(path);
}

/** Says that too many plans wait. */
export function busy(response: Response): void {
  response.status(503).set("Retry-After", "10");
  response.send(noticeScreen("Busy", "Too many plans are waiting. Ask again when some are done."));
}

/** A mistake of the request says so, and so does a fault of the disk; anything else is our fault, said without its innards and noted on stderr. */
export const failed: ErrorRequestHandler = (error: unknown, _request, response, next) => {
  if (response.headersSent) {
    next(error);
    return;
  }
  const problem = diskProblem(error);
  if (problem !== null) {
    const { file, what, remedy } = problem;
    response.status(409).send(noticeScreen("The disk does not allow it", `${file}: ${what}. ${remedy}.`));
    return;
  }
  if (error instanceof Stopped) {
    response.status(503).send(noticeScreen("Closed", "The server is closed. Start it again."));
    return;
  }
  const status = statusOf(error);
  if (status >= 500) process.stderr.write(`${reasonOf(error)}\n`);
  const text =
    status < 500
      ? "The request could not be read. Go back and try again."
      : "Something went wrong on our side. The scenario and its file are as they were.";
  response.status(status).send(noticeScreen(status < 500 ? "Not understood" : "Our fault", text));
};

function statusOf(error: unknown): number {
  const status = error instanceof Error && "status" in error ? Number(error.status) : 500;
  return status >= 400 && status < 600 ? status : 500;
}
