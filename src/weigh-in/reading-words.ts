import { wordings } from "../reading/index.js";

export const words = wordings("weigh-in-file", {
  /** Words of what cannot be read in a weigh-in. */
  unknownWhat: (text: string, meant: string | null, known: readonly string[]) => ({
    what: text === "" ? "`what` is empty" : `\`${text}\` is nothing a weigh-in speaks of`,
    remedy: meant === null ? `Write one of: ${known.join(", ")}` : `Did you mean \`${meant}\``,
  }),
  ofAnotherPlan: () => ({
    what: "this weigh-in is of another plan than the one that is kept here",
    remedy:
      "Put the plan back that it is of, or move this file away and keep the plan again, which gives a weigh-in to fill in",
  }),
  noSuchRow: () => ({
    what: "the plan kept now has no such row",
    remedy: "Write it in a row of the plan, or in the file",
  }),
  noUnit: (currency: string) => ({
    what: "`unit` is empty",
    remedy: `Write g or another unit of weight, ${currency} for a cost, or what is counted, such as head or portion`,
  }),
  otherUnit: (unit: string, wanted: string) => ({
    what: `\`${unit}\` is not what this is counted in`,
    remedy: `Write ${wanted}`,
  }),
  noWeight: (text: string, unit: string) => ({
    what: `\`${text}\` is no weight`,
    remedy: `Write 0 or more in ${unit}, in digits with a point for decimals, such as 480 or 12.5`,
  }),
  pointOrThousands: (text: string) => ({
    what: `\`${text}\` may be read with its point for thousands or for decimals`,
    remedy: `Write ${text.replaceAll(".", "")} or ${text.replace(/\.(?=\d+$)/, ",").replaceAll(".", "")}`,
  }),
  noCost: (text: string, currency: string) => ({
    what: `\`${text}\` is no amount of money`,
    remedy: `Write 0 or more in ${currency}, without its sign and with a point for decimals, such as 6.60`,
  }),
  noCount: (text: string, counted: string) => ({
    what: `\`${text}\` is no number to count by`,
    remedy: `Write how many (${counted}) in digits, such as 0 or 12`,
  }),
  twice: (line: number) => ({
    what: `this row stands on line ${line} already`,
    remedy: "Add the two weights up in one row",
  }),
  unknownName: (kind: string, name: string, meant: string | null, known: readonly string[]) => {
    const one = known.length === 0 ? "There is none to write" : `Write one of: ${known.join(", ")}`;
    return {
      what: name === "" ? `the ${kind} is missing` : `${kind} \`${name}\` is not known here`,
      remedy: meant === null ? one : `Did you mean \`${meant}\``,
    };
  },
  noSuchFigure: (what: string, unit: string) => ({
    what: `a row \`${what}\` has no such figure`,
    remedy: `Write it in ${unit}`,
  }),
  notInTheHouse: (name: string) => ({
    what: `${name} was not in the house by the scenario`,
    remedy: "Write what came in besides as a row `bought`, with 0 as its cost",
  }),
  doesNotTake: (destination: string, what: string) => ({
    what: `${destination} does not take ${what}`,
    remedy: "Name another destination of the scenario",
  }),
});
