import { nameOf } from "../table-reading/breakdowns.js";
import type { YieldTables } from "../tables.js";
import { yieldsAfterTests } from "./combine.js";
import { testsByCutting } from "./summary.js";
import type { YieldTest } from "./yield-test.js";

/**
 * The published tables with the kitchen's own tests weighed in: rows of a tested breakdown have the basis
 * "own test" and say how many tests count for how much. Tests of what the tables do not hold change nothing.
 * Hand in the published tables, not the result of an earlier call: its tests would count twice.
 */
export function tablesWithTests(tables: YieldTables, tests: readonly YieldTest[]): YieldTables {
  const byCutting = testsByCutting(tests);
  return {
    ...tables,
    items: tables.items.map((item) => ({
      ...item,
      breakdowns: item.breakdowns.map((breakdown) => {
        const own = byCutting.get(nameOf(item.name, item.form, breakdown.name));
        if (own === undefined) return breakdown;
        const { shares: _, ...after } = yieldsAfterTests(breakdown, own);
        return after;
      }),
    })),
  };
}
