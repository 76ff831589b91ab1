import { wordings } from "../reading/index.js";

export const words = wordings("table-files", {
  empty: (column: string) => ({
    what: `\`${column}\` is empty`,
    remedy: REMEDY_FOR_EMPTY[column] ?? `Write the ${column}`,
  }),
  unknownWord: (column: string, text: string, known: readonly string[]) => ({
    what: text === "" ? `\`${column}\` is empty` : `\`${text}\` is no ${column}`,
    remedy: `Write one of: ${known.join(", ")}`,
  }),
  outOfRange: (column: string, text: string, most: number) => ({
    what: `\`${text}\` is no number above 0 and up to ${most}`,
    remedy: `Write the ${column} in digits, such as 12.5`,
  }),
  notWhole: (column: string, text: string, most: number) => ({
    what: `\`${text}\` is no whole number from 1 to ${most}`,
    remedy: `Write the ${column} in digits, such as 12`,
  }),
  twice: (name: string, firstLine: number) => ({
    what: `${name} stands on line ${firstLine} already`,
    remedy: "Keep one of the two rows",
  }),
  unknownName: (kind: string, name: string, meant: string | null, where: string) => ({
    what: `${kind} \`${name}\` is not in ${where}`,
    remedy: meant === null ? `Add it to ${where}, or correct the name` : `Did you mean \`${meant}\``,
  }),
  missingFile: (file: string, tables: string) => ({
    what: `${file} is missing from the ${tables}`,
    remedy: "Put it back, with at least its heading row",
  }),
  withoutRow: (name: string) => ({ what: `\`${name}\` has no row`, remedy: "Add one" }),
});

const REMEDY_FOR_EMPTY: Readonly<Record<string, string>> = {
  source: "Name the document and its number, or write: common practice, no source",
  keeps_source: "Name the document and its number, or write: common practice, no source",
};
