/** YAML and CSV text to values that know their file, line and column, and the list of problems. */
export { alikes } from "./alike.js";
export { asLines, codeOf } from "./clean.js";
export { type CsvCell, type CsvColumns, type CsvRow, type CsvTable, readCsv, type Separator } from "./csv.js";
export { csvCell } from "./csv-cell.js";
export * from "./did-you-mean.js";
export { MOST } from "./limits.js";
export { Lines, withLineFeeds } from "./lines.js";
export * from "./problem.js";
export * from "./schema.js";
export * from "./source.js";
export * from "./yaml.js";
