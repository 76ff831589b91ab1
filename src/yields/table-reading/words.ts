import { wordings } from "../../reading/index.js";

export const words = wordings("yield-tables", {
  /** `difference` in percent: what is there less what should be. */
  doesNotClose: (what: string, sum: string, target: string, difference: string) => {
    const missing = difference.startsWith("-");
    const by = missing ? difference.slice(1) : difference;
    return {
      what: `${what} make ${sum} %, ${by} % too ${missing ? "little" : "much"}`,
      remedy: `Correct a percent or the loss until they make ${target} %`,
    };
  },
  differsElsewhere: (part: string, column: string, here: string, there: string, place: string) => ({
    what: `${column} of ${part} is ${here} here and ${there} on ${place}`,
    remedy: "Write the same in both rows, or give one of the parts another name",
  }),
  without: (name: string, lacking: string, file: string) => ({
    what: `${name} has no ${lacking}`,
    remedy: `Add a row for it to ${file}`,
  }),
  inTwoFiles: (name: string, file: string) => ({
    what: `rows of ${name} stand in ${file} already`,
    remedy: "Put all its rows into one file",
  }),
});
