import type { Express } from "express";
import { pageAssets } from "../../pages/index.js";
import { SCRIPTS, scriptText } from "../script.js";

/** What the pages need beside them: styles, fonts and scripts. */
export function addAssetRoutes(app: Express): void {
  for (const name of SCRIPTS)
    app.get(`/assets/${name}`, (_request, response) => {
      response.type("text/javascript").send(scriptText(name));
    });
  for (const { path, type, content } of pageAssets())
    app.get(`/assets/${path}`, (_request, response) => {
      response.type(type).send(content);
    });
}
