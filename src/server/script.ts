import { readFileSync } from "node:fs";

/** The one script of these screens: it shows progress without loading the screen again. */
export function progressScript(): string {
  return readFileSync(new URL("../../templates/progress.js", import.meta.url), "utf8");
}
