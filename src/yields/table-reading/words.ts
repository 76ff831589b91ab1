import type { Wording } from "../../reading/index.js";

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
