import type { Express } from "express";
import type { Context } from "../context.js";
import { scenariosScreen } from "../screens.js";

/** The first page: the folder's scenarios, and how each stands; its test cards, and blank forms. */
export function addFirstPageRoutes(app: Express, { folder, planner }: Context): void {
  app.get("/", async (_request, response) => {
    const standing: Parameters<typeof scenariosScreen>[1][number][] = [];
    // One after the other, so that whatever else is asked meanwhile comes in between.
    for (const name of await folder.names()) {
      const file = await folder.read(name);
      if (file !== null) standing.push({ file, job: planner.job(file.texts.hash) });
    }
    response.send(scenariosScreen(folder.path, standing, await folder.testCards()));
  });
}
