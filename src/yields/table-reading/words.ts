/** The words of a problem, without its place. */
export interface Wording {
  readonly what: string;
  readonly remedy: string;
}

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

/** `difference` in percent: what is there less what should be. */
export function doesNotClose(what: string, sum: string, target: string, difference: string): Wording {
  const missing = difference.startsWith("-");
  const by = missing ? difference.slice(1) : difference;
  return {
    what: `${what} make ${sum} %, ${by} % too ${missing ? "little" : "much"}`,
    remedy: `Correct a percent or the loss until they make ${target} %`,
  };
}

export function differsElsewhere(
  part: string,
  column: string,
  here: string,
  there: string,
  place: string,
): Wording {
  return {
    what: `${column} of ${part} is ${here} here and ${there} on ${place}`,
    remedy: "Write the same in both rows, or give one of the parts another name",
  };
}

export function without(name: string, lacking: string, file: string): Wording {
  return { what: `${name} has no ${lacking}`, remedy: `Add a row for it to ${file}` };
}

export function inTwoFiles(name: string, file: string): Wording {
  return { what: `rows of ${name} stand in ${file} already`, remedy: "Put all its rows into one file" };
}

export function missingFile(file: string): Wording {
  return {
    what: `${file} is missing from the yield tables`,
    remedy: "Put it back, with at least its heading row",
  };
}
