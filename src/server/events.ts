import type { Request, Response } from "express";
import type { Job } from "./planner.js";
import { progressText } from "./screens.js";

const EVERY_MS = 400;

/** Sends how the plan stands as server-sent events, whenever its words change, and ends with `done`. */
export function sendProgress(job: () => Job | null, request: Request, response: Response): void {
  response.set({ "Content-Type": "text/event-stream", "Cache-Control": "no-store" });
  response.flushHeaders();
  let said = "";
  const tell = (): void => {
    const now = job();
    const done = now?.kind !== "waiting" && now?.kind !== "planning";
    const text = progressText(now);
    if (text !== said) response.write(`data: ${JSON.stringify({ text, done })}\n\n`);
    said = text;
    if (!done) return;
    clearInterval(timer);
    response.end();
  };
  const timer = setInterval(tell, EVERY_MS);
  request.on("close", () => clearInterval(timer));
  tell();
}
