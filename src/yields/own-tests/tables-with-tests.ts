import { nameOf } from "../table-reading/breakdowns.js";
import { grouped } from "../table-reading/groups.js";
import type { TableItem, YieldTables } from "../tables.js";
import { yieldsAfterTests } from "./combine.js";
import { testsByCutting } from "./summary.js";
import { unitWeightAfterTests } from "./unit-weight.js";
import type { YieldTest } from "./yield-test.js";

/**
 * The published tables with the kitchen's own tests weighed in: the unit weight of a tested item and the rows of a
 * tested breakdown have the basis "own test" and say how many tests count for how much. Tests of what the tables do
 * not hold change nothing. Hand in the published tables, not the result of an earlier call: its tests would count
 * twice.
 */
export function tablesWithTests(tables: YieldTables, tests: readonly YieldTest[]): YieldTables {
  const byCutting = testsByCutting(tests);
  const byForm = new Map(
    grouped(tests, ({ item, form }) => nameOf(item, form)).map(({ key, rows }) => [key, rows]),
  );
  return {
    ...tables,
    items: tables.items.map((item) => ({
      ...item,
      ...unitAfterTests(item, byForm.get(nameOf(item.name, item.form)) ?? []),
      breakdowns: item.breakdowns.map((breakdown) => {
        const own = byCutting.get(nameOf(item.name, item.form, breakdown.name));
        if (own === undefined) return breakdown;
        const { shares: _, ...after } = yieldsAfterTests(breakdown, own);
        return after;
      }),
    })),
  };
}

function unitAfterTests(item: TableItem, tests: readonly YieldTest[]): Partial<TableItem> {
  const after = unitWeightAfterTests(item, tests);
  if (after === null) return {};
  const percent = Math.round(after.testsCount * 100);
  return {
    unitWeight: after.combined,
    unitSpread: after.unitSpread,
    source: `own tests n=${after.tests} up to ${after.upTo}, combined with ${item.source} (tests count ${percent} %)`,
    basis: "own test",
  };
}
