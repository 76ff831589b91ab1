/** The tables that come with the package: from their folder to rows of checked cells. */
export { RowCells, SeenOnce } from "./cells.js";
export { namedTables, packagedTables } from "./packaged.js";
export { BASES, type Basis, type Provenance } from "./provenance.js";
export { needRows, rowsOf } from "./rows.js";
export { words } from "./words.js";
