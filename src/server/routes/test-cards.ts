import type { Express, Response } from "express";
import { notFound, send } from "../answers.js";
import type { Context } from "../context.js";

/** A folder's butcher's tests and cooking-loss tests, each with its card and a form for the next, and blank forms. */
export function addTestCardRoutes(app: Express, { folder, desk }: Context): void {
  const answer = async (name: string, page: string, response: Response): Promise<void> => {
    const source = await folder.testCard(name);
    if (source === null) notFound(response.req, response);
    else send(await desk.run("testCardPage", { source, page }), response);
  };

  app.get("/test-card/:name/", async ({ params }, response) => {
    await answer(params.name, "", response);
  });

  app.get("/test-card/:name/:page", async ({ params }, response) => {
    await answer(params.name, params.page, response);
  });

  app.get("/forms/:page", async (request, response) => {
    send(await desk.run("blankForm", { page: request.params.page }), response);
  });
}
