import type { Problem } from "../reading/index.js";
import { packagedTables } from "../table-files/index.js";
import { readYieldTables } from "./read-tables.js";
import type { YieldTables } from "./tables.js";

/** Reads the yield tables that come with the package. */
export function loadYieldTables(): { tables: YieldTables; problems: Problem[] } {
  return readYieldTables(packagedTables("yield-tables"));
}
