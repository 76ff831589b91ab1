import type { Express } from "express";
import { safetyCasePage } from "../../pages/index.js";

/** Every rule of safety, with its tests and sources. */
export function addSafetyCaseRoute(app: Express): void {
  app.get("/safety-case", (_request, response) => {
    const home = { href: "/", text: "All scenarios" };
    response.send(safetyCasePage({ assets: "/assets/", home }).html);
  });
}
