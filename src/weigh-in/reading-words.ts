import type { Wording } from "../reading/index.js";

/** Words of what cannot be read in a weigh-in. */

export function unknownWhat(text: string, meant: string | null, known: readonly string[]): Wording {
  return {
    what: text === "" ? "`what` is empty" : `\`${text}\` is nothing a weigh-in speaks of`,
    remedy: meant === null ? `Write one of: ${known.join(", ")}` : `Did you mean \`${meant}\``,
  };
}

export function ofAnotherPlan(): Wording {
  return {
    what: "this weigh-in is of another plan than the one that is kept here",
    remedy:
      "Put the plan back that it is of, or move this file away and keep the plan again, which gives a weigh-in to fill in",
  };
}

export function noSuchRow(): Wording {
  return {
    what: "the plan kept now has no such row",
    remedy: "Write it in a row of the plan, or in the file",
  };
}

export function noUnit(currency: string): Wording {
  return {
    what: "`unit` is empty",
    remedy: `Write g or another unit of weight, ${currency} for a cost, or what is counted, such as head or portion`,
  };
}

export function otherUnit(unit: string, wanted: string): Wording {
  return { what: `\`${unit}\` is not what this is counted in`, remedy: `Write ${wanted}` };
}

export function noWeight(text: string, unit: string): Wording {
  return {
    what: `\`${text}\` is no weight`,
    remedy: `Write 0 or more in ${unit}, in digits with a point for decimals, such as 480 or 12.5`,
  };
}

export function pointOrThousands(text: string): Wording {
  return {
    what: `\`${text}\` may be read with its point for thousands or for decimals`,
    remedy: `Write ${text.replaceAll(".", "")} or ${text.replace(/\.(?=\d+$)/, ",").replaceAll(".", "")}`,
  };
}

export function noCost(text: string, currency: string): Wording {
  return {
    what: `\`${text}\` is no amount of money`,
    remedy: `Write 0 or more in ${currency}, without its sign and with a point for decimals, such as 6.60`,
  };
}

export function noCount(text: string, counted: string): Wording {
  return {
    what: `\`${text}\` is no number to count by`,
    remedy: `Write how many (${counted}) in digits, such as 0 or 12`,
  };
}

export function twice(line: number): Wording {
  return { what: `this row stands on line ${line} already`, remedy: "Add the two weights up in one row" };
}

export function unknownName(
  kind: string,
  name: string,
  meant: string | null,
  known: readonly string[],
): Wording {
  const one = known.length === 0 ? "There is none to write" : `Write one of: ${known.join(", ")}`;
  return {
    what: name === "" ? `the ${kind} is missing` : `${kind} \`${name}\` is not known here`,
    remedy: meant === null ? one : `Did you mean \`${meant}\``,
  };
}

export function noSuchFigure(what: string, unit: string): Wording {
  return { what: `a row \`${what}\` has no such figure`, remedy: `Write it in ${unit}` };
}

export function notInTheHouse(name: string): Wording {
  return {
    what: `${name} was not in the house by the scenario`,
    remedy: "Write what came in besides as a row `bought`, with 0 as its cost",
  };
}

export function doesNotTake(destination: string, what: string): Wording {
  return { what: `${destination} does not take ${what}`, remedy: "Name another destination of the scenario" };
}
