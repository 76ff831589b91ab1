import { z } from "zod";
import { CUP_SYSTEMS, type CupSystem } from "../../quantity/index.js";
import { didYouMean, name, prose, scalar } from "../../reading/index.js";
import {
  parseLineAmount,
  parseScaleStep,
  parseStapleAmount,
  parseStockAmount,
  parseWeight,
  parseYieldAmount,
} from "./amounts.js";
import * as numbers from "./numbers.js";
import { parsePrice, parsePricePerKilogram, parsePrices } from "./prices.js";
import { WRITE, words } from "./wording.js";

/** How a figure may stand in YAML or JSON: bare, or as text with its unit. */
const FIGURE = { type: ["string", "number"] };

/** The scalars of a scenario file. `cups` is the system that bare cups and spoons are measured in. */
export function leaves(cups: CupSystem | null) {
  return {
    weight: scalar((text) => parseWeight(text, cups), WRITE.weight),
    yieldAmount: scalar((text) => parseYieldAmount(text, cups), WRITE.yieldAmount),
    lineAmount: scalar((text) => parseLineAmount(text, cups), WRITE.lineAmount),
    stockAmount: scalar((text) => parseStockAmount(text, cups), WRITE.stockAmount),
    stapleAmount: scalar((text) => parseStapleAmount(text, cups), WRITE.stapleAmount),
    price: scalar((text) => parsePrice(text, cups), WRITE.price),
    prices: scalar((text) => parsePrices(text, cups), WRITE.price),
    pricePerKilogram: scalar((text) => parsePricePerKilogram(text, cups), WRITE.pricePerWeight),
    money: scalar(numbers.parseReckonedMoney, WRITE.money, FIGURE),
    number: scalar((text) => numbers.parseNumber(text), WRITE.number, FIGURE),
    minutes: scalar(numbers.parseMinutes, WRITE.minutes, FIGURE),
    whole: scalar((text) => numbers.parseWhole(text), WRITE.whole, FIGURE),
    people: scalar(numbers.parsePeople, WRITE.whole, FIGURE),
    wholeRange: scalar((text) => numbers.parseWholeRange(text), WRITE.wholeRange, FIGURE),
    buying: scalar(parseBuying, WRITE.buying, { type: ["string", "number", "boolean"] }),
    scaleStep: scalar((text) => parseScaleStep(text, cups), WRITE.weight),
    cookingYield: scalar(numbers.parseCookingYield, WRITE.percent),
    percent: scalar((text) => numbers.parsePercent(text), WRITE.percent),
    part: scalar(numbers.parsePart, WRITE.percent),
    share: scalar(numbers.parseShare, WRITE.share),
    clock: scalar(numbers.parseClock, WRITE.clock),
    hours: scalar(numbers.parseHours, WRITE.hours),
    days: scalar(numbers.parseDays, WRITE.days, FIGURE),
    date: scalar(numbers.parseDate, WRITE.date, { type: "string", format: "date" }),
    yesNo: scalar(numbers.parseYesNo, WRITE.yesNo, { type: ["string", "boolean"] }),
    text: prose(WRITE.text, FIGURE),
    name: name(WRITE.text, FIGURE),
    currency: scalar(parseCurrency, "Write its three letters, such as `GBP`"),
    locale: scalar(parseLocale, "Write a language tag, such as `en-GB`"),
    cups: choice(CUP_SYSTEMS),
  };
}

export type Leaves = ReturnType<typeof leaves>;

/** One of a few words. */
export function choice<const W extends string>(allowed: readonly W[]) {
  return scalar(
    (text) =>
      allowed.find((word) => word === text) ?? words.noSuchWord(text, didYouMean(text, allowed), allowed),
    WRITE.oneOf(allowed),
    { enum: [...allowed] },
  );
}

/** A list of these, or just one of them. */
export function oneOrMore<T extends z.ZodType>(one: T, remedy: string) {
  return z
    .union([one, z.array(one, { error: () => remedy })])
    .transform((value) => (Array.isArray(value) ? value : [value]) as z.output<T>[]);
}

export interface Buying {
  readonly least: number;
  readonly most: number | null;
}

/** `no` is null: buying is off. `yes` sets no bounds. */
function parseBuying(text: string): numbers.Parsed<Buying | null> {
  const word = text.toLowerCase();
  if (word === "no" || word === "false") return null;
  if (word === "yes" || word === "true") return { least: 0, most: null };
  return numbers.parseWholeRange(text, WRITE.buying);
}

function parseCurrency(text: string): numbers.Parsed<string> {
  const known = Intl.supportedValuesOf("currency");
  return known.includes(text) ? text : words.noSuchCurrency(text, didYouMean(text, known));
}

function parseLocale(text: string): numbers.Parsed<string> {
  try {
    return Intl.NumberFormat.supportedLocalesOf(text)[0] ?? words.noSuchLocale(text);
  } catch {
    return words.noSuchLocale(text);
  }
}
