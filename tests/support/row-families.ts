import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Every family that the builder's sources name, of rows and of variables. */
export function familiesWritten(): string[] {
  const folder = fileURLToPath(new URL("../../src/allocation/formulate/", import.meta.url));
  const texts = readdirSync(folder).map((file) => readFileSync(`${folder}${file}`, "utf8"));
  const found = texts.flatMap((text) => [...text.matchAll(/\bfamily(?::| =) "([^"]+)"/g)]);
  return [...new Set(found.map((match) => match[1] ?? ""))].sort();
}
