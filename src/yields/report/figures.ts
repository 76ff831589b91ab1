import { midnight } from "../../kitchen/index.js";
import {
  Decimal,
  grams,
  milligrams,
  roundTogether,
  splitByShares,
  toGrams,
  type Weight,
} from "../../quantity/index.js";
import type { Provenance } from "../../table-files/index.js";
import type { TableBreakdown } from "../tables.js";

/** Percent to one decimal, without its sign: "61.0". */
export function percentText(fraction: Decimal | number): string {
  return new Decimal(fraction.toString()).times(100).toFixed(1);
}

/** Percents to one decimal that add up to 100.0, the loss last. */
export function percentTexts({ parts, loss }: TableBreakdown): string[] {
  const shares = [...parts.map(({ fraction }) => fraction), loss];
  return splitByShares(milligrams(1000n), shares).map((perMille) =>
    new Decimal(perMille.toString()).div(10).toFixed(1),
  );
}

/** What a unit of this weight gives, to the gram, the loss last; the figures add up to the unit as printed. */
export function gramTexts({ parts, loss }: TableBreakdown, unit: Weight): string[] {
  const shares = [...parts.map(({ fraction }) => fraction), loss];
  return roundTogether(splitByShares(unit, shares), grams("1")).map(wholeGrams);
}

export function wholeGrams(weight: Weight): string {
  return grouped(toGrams(weight).toFixed(0));
}

/** Keeps a figure on one line with its percent sign or unit. */
export function withUnits(text: string): string {
  return text.replace(/(\d) (?=(?:%|g|mm|C)(?![a-z]))/g, "$1\u00a0");
}

/** "12 Oct 2026". */
export function dayText(iso: string): string {
  return DAY.format(midnight(iso));
}

/** "28 Sep to 12 Oct 2026", or the one day. */
export function daysText(from: string, upTo: string): string {
  return from === upTo ? dayText(from) : `${dayText(from)} to ${dayText(upTo)}`;
}

/** "October 2026" of "2026-10". */
export function monthText(month: string): string {
  return MONTH.format(midnight(`${month}-01`));
}

/** "1 test", "3 tests". */
export function counted(count: number, one: string): string {
  return `${grouped(String(count))} ${one}${count === 1 ? "" : "s"}`;
}

/** Sources in the order they are first named, each with its number. */
export class Sources {
  readonly #texts: string[] = [];

  numberOf({ source, basis }: Provenance): string {
    const text = source.includes(basis) ? source : `${source}; ${BASIS_WORDS[basis]}`;
    if (!this.#texts.includes(text)) this.#texts.push(text);
    return String(this.#texts.indexOf(text) + 1);
  }

  listed(): { readonly number: string; readonly text: string }[] {
    return this.#texts.map((text, index) => ({ number: String(index + 1), text: withUnits(text) }));
  }
}

const BASIS_WORDS: Readonly<Record<Provenance["basis"], string>> = {
  read: "read there",
  memory: "from memory",
  "common practice": "common practice",
  "own test": "own test",
};

const DAY = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "short",
  year: "numeric",
  timeZone: "UTC",
});
const MONTH = new Intl.DateTimeFormat("en-GB", { month: "long", year: "numeric", timeZone: "UTC" });

function grouped(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+$)/g, ",");
}
