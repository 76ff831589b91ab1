import { readdirSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Problem } from "../reading/index.js";
import { readYieldTables } from "./read-tables.js";
import type { YieldTables } from "./tables.js";

/** The folder yield-tables/ that comes with the package, from src/yields/ as from dist/yields/. */
const OWN_TABLES = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "yield-tables");

/** Reads every CSV file of a folder as yield tables; without a folder, those that come with the package. */
export function loadYieldTables(folder: string = OWN_TABLES): { tables: YieldTables; problems: Problem[] } {
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(".csv"))
    .sort();
  return readYieldTables(
    names.map((name) => ({
      file: join(basename(folder), name),
      text: readFileSync(join(folder, name), "utf8"),
    })),
  );
}
