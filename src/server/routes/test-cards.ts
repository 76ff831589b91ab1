import type { Express } from "express";
import { notFound, send } from "../answers.js";
import type { Context } from "../context.js";

/** A folder's butcher's tests and cooking-loss tests, each with its card and a form for the next, and blank forms. */
export function addTestCardRoutes(app: Express, { folder, desk }: Context): void {
  app.get("/test-card/:name/", async (request, response) => {
    const card = await folder.testCard(request.params.name);
    if (card === null) notFound(request, response);
    else response.send(card.screen);
  });

  app.get("/test-card/:name/:page", async (request, response) => {
    const card = await folder.testCard(request.params.name);
    const page = card?.pages.find(({ slug }) => `${slug}.html` === request.params.page);
    if (page === undefined) notFound(request, response);
    else response.send(page.html);
  });

  app.get("/forms/:page", async (request, response) => {
    send(await desk.run("blankForm", { page: request.params.page }), response);
  });
}
