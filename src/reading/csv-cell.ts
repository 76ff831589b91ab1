/**
 * What a spreadsheet takes for the beginning of a formula, and would run: OWASP, "CSV Injection" (from memory; the wide
 * forms too). Apostrophes before it are one more in the file, so that each text is read back as it was.
 */
const FORMULA = /^'*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;
const GUARDED = /^''*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;
const NUMBER = /^-\d+(\.\d+)?$/;

/** A cell of a CSV file: with an apostrophe before what would be run, and in quotes where CSV wants them. */
export function csvCell(text: string): string {
  const safe = FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The text that `csvCell` made a cell of. */
export function withoutGuard(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}
