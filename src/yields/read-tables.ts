import type { Problem, Source } from "../reading/index.js";
import { namedTables, packagedTables } from "../table-files/index.js";
import { disagreements, type ReadRows } from "./table-reading/agreement.js";
import { readBreakdowns, readCuts } from "./table-reading/breakdowns.js";
import { grouped } from "./table-reading/groups.js";
import { readCooking, readDensities, readItems } from "./table-reading/single-rows.js";
import { readSteps } from "./table-reading/steps.js";
import { nameOf, type TableItem, type YieldTables } from "./tables.js";

/** The tables with a fixed name; every other file holds breakdowns. */
const NAMED = [
  "items.csv",
  "cuts.csv",
  "steps.csv",
  "step-parts.csv",
  "cooking.csv",
  "densities.csv",
] as const;

/**
 * Reads the yield tables: items, their breakdowns and cuts, preparation steps, cooking yields and densities. All that is
 * wrong in them is reported at once, by file, line and column; a row that cannot be read is left out.
 */
export function readYieldTables(sources: readonly Source[]): { tables: YieldTables; problems: Problem[] } {
  const problems: Problem[] = [];
  const { named, others } = namedTables(NAMED, sources, "yield tables", problems);
  const items = readItems(named.get("items.csv"), problems);
  const cuts = readCuts(named.get("cuts.csv"), problems);
  const breakdowns = others.flatMap((source) => readBreakdowns(source, problems));
  const stepTable = named.get("steps.csv");
  const stepParts = named.get("step-parts.csv");
  const steps =
    stepTable === undefined || stepParts === undefined ? [] : readSteps(stepTable, stepParts, problems);
  const cooking = readCooking(named.get("cooking.csv"), problems);
  const densities = readDensities(named.get("densities.csv"), problems);
  const rows: ReadRows = { items, breakdowns, cuts, steps };
  problems.push(...disagreements(rows));
  return {
    tables: { items: joined(rows), steps: steps.map(({ step }) => step), cooking, densities },
    problems,
  };
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

/** Reads the yield tables that come with the package. */
export function loadYieldTables(): { tables: YieldTables; problems: Problem[] } {
  return readYieldTables(packagedTables("yield-tables"));
}
