/** The tables that come with the package: from their folder to rows of checked cells. */
export { BASES, type Basis, needRows, type Provenance, RowCells, rowsOf, SeenOnce } from "./cells.js";
export { namedTables, packagedTables } from "./packaged.js";
export { words } from "./words.js";
