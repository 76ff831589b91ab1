import type { Express } from "express";
import { pageAssets } from "../../pages/index.js";
import { progressScript } from "../script.js";

/** What the pages need beside them: styles, fonts, and the script that shows how far a plan has come. */
export function addAssetRoutes(app: Express): void {
  app.get("/assets/progress.js", (_request, response) => {
    response.type("text/javascript").send(progressScript());
  });
  for (const { path, type, content } of pageAssets())
    app.get(`/assets/${path}`, (_request, response) => {
      response.type(type).send(content);
    });
}
