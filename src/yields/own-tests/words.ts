import { type Decimal, toGrams, type Weight } from "../../quantity/index.js";
import { wordings } from "../../reading/index.js";
import { cuttingOf, gapOf, hiddenBy, weighingsOf, type YieldTest } from "./yield-test.js";

export const words = wordings("own-tests", {
  /** A test whose parts and loss do not make the AP weight. */
  doesNotClose: (test: YieldTest) => {
    const gap = gapOf(test);
    const size = gramsText(toGrams(gap).abs());
    const found = gramsText(toGrams(test.apWeight).minus(toGrams(gap)));
    const readings = weighingsOf(test);
    return {
      what: `${cuttingOf(test)}: ${size} ${gap > 0n ? "missing" : "too much"}, for the parts and the loss weigh ${found} of ${gramsText(toGrams(test.apWeight))}`,
      remedy: `Weigh again, or state what was lost in a row of class loss: ${readings} weighings to ${gramsText(toGrams(test.scaleStep))} explain ${gramsText(toGrams(hiddenBy(test)))} and no more`,
    };
  },
  noDate: (text: string) => ({
    what: `\`${text}\` is no day of the calendar`,
    remedy: "Write year-month-day, such as 2026-10-12",
  }),
  noWeight: (column: string, text: string, most: Weight, orNothing: boolean) => {
    const range = `${orNothing ? "0" : "more than 0 and up"} to ${gramsText(toGrams(most))}`;
    return {
      what: text === "" ? `\`${column}\` is empty` : `\`${text}\` is no weight in grams`,
      remedy: `Write ${range} in digits, to three decimals at most, such as 480 or 12.5`,
    };
  },
  differsInTest: (column: string, here: string, there: string, line: number) => ({
    what: `\`${column}\` is ${here} here and ${there} on line ${line} of the same test`,
    remedy: "Write the same in all rows of a test, and number the tests of one day in the column test",
  }),
  partNotWeighed: (part: string, cutting: string) => ({
    what: `no row of this test weighs ${part}, which ${cutting} gives`,
    remedy: "Add a row for it, with 0 where there was none of it",
  }),
  unlikelyUnits: (units: number, unit: Decimal, unitName: string, published: Decimal) => ({
    what: `${units} ${units === 1 ? "unit" : "units"} of this weight make one ${unitName} ${gramsText(unit.toDecimalPlaces(1))}; the yield tables have about ${gramsText(published)}`,
    remedy: "Write how many were weighed together, and their weight in grams",
  }),
  tooCoarse: (test: YieldTest) => ({
    what: `weighings to ${gramsText(toGrams(test.scaleStep))} may hide ${gramsText(toGrams(hiddenBy(test)))} of ${gramsText(toGrams(test.apWeight))}`,
    remedy: "Use a finer scale, or weigh more together: a tenth may be hidden, no more",
  }),
  noParts: (cutting: string) => ({
    what: `this test of ${cutting} weighs no part`,
    remedy: "Add a row for each part",
  }),
  otherClass: (part: string, here: string, there: string) => ({
    what: `${part} is ${here} here and ${there} in the yield tables`,
    remedy: `Write ${there}: a weighing does not change what a part is fit for`,
  }),
  /** A test that is in the kitchen's file already, with the same weights. */
  recordedAlready: (test: YieldTest) => ({
    what: `this test of ${cuttingOf(test)} of ${test.date} is recorded already, to the gram`,
    remedy:
      "It counts already; a second weighing that came out alike goes in a file, with the next number in the column test",
  }),
});

function gramsText(grams: Decimal): string {
  return `${grams.toString()} g`;
}
