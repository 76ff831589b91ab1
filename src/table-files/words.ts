import type { Wording } from "../reading/index.js";

export function empty(column: string): Wording {
  return { what: `\`${column}\` is empty`, remedy: REMEDY_FOR_EMPTY[column] ?? `Write the ${column}` };
}

const REMEDY_FOR_EMPTY: Readonly<Record<string, string>> = {
  source: "Name the document and its number, or write: common practice, no source",
  keeps_source: "Name the document and its number, or write: common practice, no source",
};

export function unknownWord(column: string, text: string, known: readonly string[]): Wording {
  return {
    what: text === "" ? `\`${column}\` is empty` : `\`${text}\` is no ${column}`,
    remedy: `Write one of: ${known.join(", ")}`,
  };
}

export function outOfRange(column: string, text: string, most: number): Wording {
  return {
    what: `\`${text}\` is no number above 0 and up to ${most}`,
    remedy: `Write the ${column} in digits, such as 12.5`,
  };
}

export function notWhole(column: string, text: string, most: number): Wording {
  return {
    what: `\`${text}\` is no whole number from 1 to ${most}`,
    remedy: `Write the ${column} in digits, such as 12`,
  };
}

export function twice(name: string, firstLine: number): Wording {
  return { what: `${name} stands on line ${firstLine} already`, remedy: "Keep one of the two rows" };
}

export function unknownName(kind: string, name: string, meant: string | null, where: string): Wording {
  return {
    what: `${kind} \`${name}\` is not in ${where}`,
    remedy: meant === null ? `Add it to ${where}, or correct the name` : `Did you mean \`${meant}\``,
  };
}

export function missingFile(file: string, tables: string): Wording {
  return {
    what: `${file} is missing from the ${tables}`,
    remedy: "Put it back, with at least its heading row",
  };
}

export function withoutRow(name: string): Wording {
  return { what: `\`${name}\` has no row`, remedy: "Add one" };
}
