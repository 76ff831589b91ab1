import type { Express } from "express";
import { send } from "../answers.js";
import type { Context } from "../context.js";

/** Every rule of safety, with its tests and sources. */
export function addSafetyCaseRoute(app: Express, { desk }: Context): void {
  app.get("/safety-case", async (_request, response) => {
    send(await desk.run("safetyCase", null), response);
  });
}
