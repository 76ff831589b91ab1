import type { Item } from "../kitchen/index.js";
import { wordings } from "../reading/index.js";
import { figureOf, type Row } from "./row.js";

/** A weight in the unit of the kitchen's scale. */
export type Said = (weight: bigint) => string;

/** Words of what does not close; a gap is what came in less what went out. */
export const words = wordings("weigh-in", {
  itemGap: ({ name }: Item, gap: bigint, said: Said) => ({
    what: `${name}: ${missing(gap, said)}, from what came in to what was cut, kept and binned`,
    remedy:
      gap > 0n
        ? "Add a row `binned` or `kept` for it, a row `storage loss` where it dried in store, or weigh again"
        : "Weigh again, or add a row `bought` for what came in besides",
  }),
  unitsDiffer: ({ name, unitName }: Item, short: bigint) => {
    const count = figureOf("count", short).abs().toString();
    return short > 0n
      ? {
          what: `${name}: ${count} ${unitName} came in and went nowhere`,
          remedy: `Write how many were cut, or add a row \`binned\` or \`kept\` in ${unitName}`,
        }
      : {
          what: `${name}: ${count} ${unitName} more were cut, kept and binned than came in`,
          remedy: "Write how many were bought, or correct the number cut",
        };
  },
  noPrice: ({ name }: Item) => ({
    what: `${name} was bought, and the scenario has no price for it`,
    remedy: "Write what it cost in a row `bought` with the currency as its unit",
  }),
  paidForNothing: ({ name }: Item) => ({
    what: `${name} cost something and weighed nothing`,
    remedy: "Write what was bought, or 0 as its cost",
  }),
  cutGap: (
    { name, way }: Row,
    { gap, lost, slack }: { gap: bigint; lost: bigint; slack: bigint },
    lossLine: number | null,
    said: Said,
  ) => {
    const loss = said(lost + gap);
    const where = lossLine === null ? "in its row `loss`" : `in its row \`loss\`, on line ${lossLine},`;
    return {
      what: `${name}, ${way}: ${missing(gap, said)}, from the weight as purchased to the parts and the loss; the scale explains ${said(slack)}`,
      remedy:
        gap > 0n
          ? `Write ${loss} ${where} if it left as juice, drip or crumbs; else weigh again`
          : "Weigh again: parts and loss cannot be more than what was cut",
    };
  },
  someBlank: ({ name, way }: Row, blanks: readonly { part: string; line: number | null }[]) => {
    const named = blanks
      .map(({ part, line }) => (line === null ? part : `${part} (line ${line})`))
      .join(", ");
    return {
      what: `${name}, ${way}: some parts were weighed and these were not: ${named}`,
      remedy: "Write the weight of every part, 0 where there was none of it, or leave all blank",
    };
  },
  onlyLoss: ({ name, way }: Row) => ({
    what: `${name}, ${way}: the loss was weighed and no part`,
    remedy: "Write the weight of every part, or leave the loss blank too",
  }),
  moreThanCut: ({ name, way }: Row, over: bigint, parts: readonly string[], said: Said) => ({
    what: `${name}, ${way}: by where they went, ${parts.join(", ")} weighed ${said(over)} more than what was cut`,
    remedy: "Write what was cut and what it gave, or correct what went into dishes and away",
  }),
  lotGap: (part: string, gap: bigint, said: Said) => ({
    what: `${part}: ${missing(gap, said)}, from what there was to where it went`,
    remedy:
      gap > 0n
        ? "Add a row `into dish`, `left over` or `kept` for it, or weigh again"
        : "Correct where it went, or write what there was of it",
  }),
  moreThanReckoned: (part: string, over: bigint, reckoned: bigint, said: Said) => ({
    what: `${part}: ${said(over)} more went out than there was, which was not weighed and is reckoned at ${said(reckoned)}`,
    remedy: "Write what the cut or step gave, or correct where it went",
  }),
  stepGap: ({ name, way }: Row, gap: bigint, said: Said) => ({
    what: `${way} of ${name}: ${missing(gap, said)}, from what was taken to what it gave`,
    remedy:
      gap > 0n
        ? "Write it in the row `loss` if it left as steam, drip or crumbs; else weigh again"
        : "Weigh again, or write the water taken up",
  }),
  portionsDiffer: (dish: string, short: bigint) =>
    short > 0n
      ? {
          what: `${dish}: ${short} portions were cooked that nobody ate and that went nowhere`,
          remedy: "Add a row `spare` that says where they went, or correct the portions eaten",
        }
      : {
          what: `${dish}: ${-short} more portions were eaten or over than cooked`,
          remedy: "Correct the portions cooked or eaten",
        },
  nothingToCarry: (what: string) => ({ what, remedy: "Write what it weighed" }),
  filledNotCooked: (dish: string) => ({
    what: `${dish} has 0 portions, but food went into it`,
    remedy: "Write how many portions were cooked, or 0 in every row that goes into it",
  }),
});

function missing(gap: bigint, said: Said): string {
  return gap > 0n ? `${said(gap)} missing` : `${said(-gap)} too much`;
}

/** Words of what cannot be read in a weigh-in. */
export const fileWords = wordings("weigh-in-file", {
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
