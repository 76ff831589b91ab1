import type { Request, Response } from "express";

const EVERY_MS = 400;

/** How something stands that is waited for, in words. */
export interface Standing {
  readonly text: string;
  readonly done: boolean;
}

/** Sends how it stands as server-sent events, whenever its words change, and ends with `done`. */
export function sendProgress(now: () => Standing, request: Request, response: Response): void {
  response.set({ "Content-Type": "text/event-stream", "Cache-Control": "no-store" });
  response.flushHeaders();
  let said = "";
  const tell = (): void => {
    const { text, done } = now();
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
