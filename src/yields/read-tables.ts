import type { Problem, Source } from "../reading/index.js";
import { disagreements, type ReadRows } from "./table-reading/agreement.js";
import { nameOf, readBreakdowns, readCuts } from "./table-reading/breakdowns.js";
import { readCooking } from "./table-reading/cooking.js";
import { readDensities } from "./table-reading/densities.js";
import { grouped } from "./table-reading/groups.js";
import { readItems } from "./table-reading/items.js";
import { readSteps } from "./table-reading/steps.js";
import * as words from "./table-reading/words.js";
import type { TableItem, YieldTables } from "./tables.js";

/** The tables with a fixed name; every other file holds breakdowns. */
const NAMED = [
  "items.csv",
  "cuts.csv",
  "steps.csv",
  "step-parts.csv",
  "cooking.csv",
  "densities.csv",
] as const;
type Named = (typeof NAMED)[number];

/**
 * Reads the yield tables: items, their breakdowns and cuts, preparation steps, cooking yields and densities. All that is
 * wrong in them is reported at once, by file, line and column; a row that cannot be read is left out.
 */
export function readYieldTables(sources: readonly Source[]): { tables: YieldTables; problems: Problem[] } {
  const problems: Problem[] = NAMED.filter(
    (name) => !sources.some((source) => baseName(source) === name),
  ).map((name) => ({ file: name, line: 1, column: 1, ...words.missingFile(name) }));
  const named = (name: Named) => sources.find((source) => baseName(source) === name);
  const others = sources.filter((source) => !NAMED.some((name) => name === baseName(source)));
  const items = read(named("items.csv"), (source) => readItems(source, problems));
  const cuts = read(named("cuts.csv"), (source) => readCuts(source, problems));
  const breakdowns = others.flatMap((source) => readBreakdowns(source, problems));
  const stepParts = named("step-parts.csv");
  const steps = read(named("steps.csv"), (source) =>
    stepParts === undefined ? [] : readSteps(source, stepParts, problems),
  );
  const cooking = read(named("cooking.csv"), (source) => readCooking(source, problems));
  const densities = read(named("densities.csv"), (source) => readDensities(source, problems));
  const rows: ReadRows = { items, breakdowns, cuts, steps };
  problems.push(...disagreements(rows));
  return {
    tables: { items: joined(rows), steps: steps.map(({ step }) => step), cooking, densities },
    problems,
  };
}

function read<T>(source: Source | undefined, reader: (source: Source) => T[]): T[] {
  return source === undefined ? [] : reader(source);
}

function baseName({ file }: Source): string {
  return file.split(/[\\/]/).at(-1) ?? file;
}

function joined({ items, breakdowns, cuts }: ReadRows): TableItem[] {
  const cutOf = new Map(cuts.map((cut) => [nameOf(cut.item, cut.form, cut.breakdown), cut]));
  const byItem = new Map(
    grouped(breakdowns, ({ item, form }) => nameOf(item, form)).map(({ key, rows }) => [key, rows]),
  );
  return items.map(({ item }) => ({
    ...item,
    breakdowns: (byItem.get(nameOf(item.name, item.form)) ?? []).map(({ name, parts, loss }) => {
      const cut = cutOf.get(nameOf(item.name, item.form, name));
      return {
        name,
        parts: parts.map(({ part }) => part),
        loss,
        minutes: cut?.minutes ?? null,
        how: cut?.how ?? null,
      };
    }),
  }));
}
