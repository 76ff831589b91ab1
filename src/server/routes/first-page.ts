import type { Express } from "express";
import type { Context } from "../context.js";
import { scenariosScreen } from "../screens.js";

/** The first page: the folder's scenarios, and how each stands; its test cards, and blank forms. */
export function addFirstPageRoutes(app: Express, { folder, planner }: Context): void {
  app.get("/", async (_request, response) => {
    const names = await folder.names();
    const files = (await Promise.all(names.map((name) => folder.read(name)))).filter((file) => file !== null);
    const standing = files.map((file) => ({ file, job: planner.job(file.texts.hash) }));
    const cards = (await folder.testCards()).map(({ line }) => line);
    response.send(scenariosScreen(folder.path, standing, cards));
  });
}
