import { readFileSync } from "node:fs";

/** Scripts of the screens, all of which work without: how far a plan has come; what is missing of a yield test. */
export const SCRIPTS = ["progress.js", "missing.js"] as const;

export function scriptText(name: (typeof SCRIPTS)[number]): string {
  return readFileSync(new URL(`../../templates/${name}`, import.meta.url), "utf8");
}
