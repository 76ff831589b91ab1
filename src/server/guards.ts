import type { NextFunction, Request, Response } from "express";
import { noticeScreen } from "./frame.js";

/** Keeps pages out of every cache: they show the files as they are now. What they need beside them may be kept. */
export function notStored(request: Request, response: Response, next: NextFunction): void {
  if (!request.path.startsWith("/assets/")) response.set("Cache-Control", "no-store");
  next();
}

const OWN_NAMES = ["localhost", "127.0.0.1", "[::1]"];

/**
 * Answers only requests addressed to this machine by its own name, so that a foreign page whose name is made to
 * point here reads nothing.
 */
export function toThisMachine(request: Request, response: Response, next: NextFunction): void {
  const host = (request.headers.host ?? "").replace(/:\d+$/, "");
  if (OWN_NAMES.includes(host)) next();
  else response.status(421).send(noticeScreen("Wrong address", "Open the address that the program printed."));
}

/** Lets a form through only when it was sent from one of these pages: browsers say where a form comes from. */
export function fromOwnPage(request: Request, response: Response, next: NextFunction): void {
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  const isOwn = origin === undefined ? site === "same-origin" : origin === `http://${host}`;
  if (isOwn && (site === undefined || site === "same-origin")) next();
  else response.status(403).send(noticeScreen("Not from here", "Ask for it from the page it belongs to."));
}
