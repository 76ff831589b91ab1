import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Problem, Source } from "../reading/index.js";
import { words } from "./words.js";

/** The folder that holds yield-tables/, from src/table-files/ as from dist/table-files/. */
const PACKAGE = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

/** Every CSV file of a folder of the package, by name, such as "yield-tables". */
export function packagedTables(folder: string): Source[] {
  return readdirSync(join(PACKAGE, folder))
    .filter((name) => name.endsWith(".csv"))
    .sort()
    .map((name) => ({ file: join(folder, name), text: readFileSync(join(PACKAGE, folder, name), "utf8") }));
}

/**
 * The tables by the file names they must have, and all other files; a table that is not there is a problem.
 * `tables` says what it is missing from.
 */
export function namedTables<Name extends string>(
  names: readonly Name[],
  sources: readonly Source[],
  tables: string,
  problems: Problem[],
): { named: ReadonlyMap<Name, Source>; others: Source[] } {
  const named = new Map<Name, Source>();
  for (const name of names) {
    const source = sources.find((each) => baseName(each) === name);
    if (source === undefined)
      problems.push({ file: name, line: 1, column: 1, ...words.missingFile(name, tables) });
    else named.set(name, source);
  }
  return { named, others: sources.filter((source) => !names.some((name) => name === baseName(source))) };
}

function baseName({ file }: Source): string {
  return file.split(/[\\/]/).at(-1) ?? file;
}
