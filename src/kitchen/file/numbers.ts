import { Decimal, money } from "../../quantity/index.js";
import { isWording, type Wording } from "../../reading/index.js";
import { isIsoDate } from "../days.js";
import { WRITE, words } from "./wording.js";

export type Parsed<T> = T | Wording;

export interface Bounds {
  readonly least: Decimal;
  readonly most: Decimal;
}

/** Ten years. */
const MOST_DAYS = 3650;
/** A week. */
const MOST_MINUTES = 7 * 24 * 60;

const SIGNED = /^-\s*\d/;
const PLAIN = /^\d{1,9}(\.\d{1,9})?$/;
const LONG = /^\d+(\.\d+)?$/;
const WITH_COMMA = /^\d[\d.]*(,\d+)+(\.\d+)?$/;

/**
 * A text without what it ends in and the spaces before that. (A pattern that begins with any number of spaces would be
 * tried anew at each of them.)
 */
function withoutEnd(text: string, end: RegExp): string {
  const rest = text.replace(end, "");
  return rest === text ? text : rest.trimEnd();
}

/** A number at or above zero, exactly as written. */
export function parseNumber(
  text: string,
  remedy: string = WRITE.number,
  /** What is told of a text that is none. */
  kind = "a number",
): Parsed<Decimal> {
  if (PLAIN.test(text)) return new Decimal(text);
  if (LONG.test(text)) return words.tooLong(text);
  if (SIGNED.test(text)) return words.belowZero(text, remedy);
  if (WITH_COMMA.test(text)) return words.decimalComma(text, withoutComma(text));
  return words.unreadable(text, kind, remedy);
}

/** `1.234,5` and `1,234.5` are 1234.5; a single comma with three digits after it could be either. */
function withoutComma(text: string): string {
  const lastComma = text.lastIndexOf(",");
  if (text.includes(".") && text.lastIndexOf(".") > lastComma) return text.replaceAll(",", "");
  const whole = text.slice(0, lastComma).replaceAll(/[.,]/g, "");
  return `${whole}.${text.slice(lastComma + 1)}`;
}

export function parseWhole(text: string, remedy: string = WRITE.whole): Parsed<number> {
  const number = parseNumber(text, remedy, "a whole number");
  if (isWording(number)) return number;
  return number.isInteger() ? number.toNumber() : words.unreadable(text, "a whole number", remedy);
}

/** At least one. */
export function parsePeople(text: string): Parsed<number> {
  const people = parseWhole(text);
  return people === 0 ? words.nothing(text) : people;
}

export function parseWholeRange(text: string, remedy: string = WRITE.wholeRange) {
  const bounds = parseBounds(text, (side) => parseNumber(side, remedy));
  if (isWording(bounds)) return bounds;
  if (!bounds.least.isInteger() || !bounds.most.isInteger()) {
    return words.unreadable(text, "a whole number", remedy);
  }
  return { least: bounds.least.toNumber(), most: bounds.most.toNumber() };
}

/** `5 %` as 0.05. */
export function parsePercent(text: string, remedy: string = WRITE.percent): Parsed<Decimal> {
  const number = withoutEnd(text, /%$/);
  if (number === text) {
    const bare = parseNumber(text, remedy);
    return isWording(bare) ? bare : words.noPercentSign(text, remedy);
  }
  const parsed = parseNumber(number, remedy);
  return isWording(parsed) ? parsed : parsed.div(100);
}

/** A percent of a whole, so at most 100 %. */
export function parsePart(text: string): Parsed<Decimal> {
  const percent = parsePercent(text);
  return !isWording(percent) && percent.greaterThan(1) ? words.overAll(text) : percent;
}

/** `50 to 100 %`, or one percent that is both the least and the most. */
export function parseShare(text: string): Parsed<Bounds> {
  const spread = text
    .split(/\sto\s/)
    .map((side, index, { length }) => (index < length - 1 ? withoutEnd(side, /%$/) : side))
    .join(" to ");
  const number = withoutEnd(spread, /%$/);
  const bounds = parseBounds(number, (side) => parseNumber(side, WRITE.share));
  if (isWording(bounds)) return bounds;
  if (number === spread) return words.noPercentSign(text, WRITE.share);
  if (bounds.most.greaterThan(100)) return words.overAll(text);
  return { least: bounds.least.div(100), most: bounds.most.div(100) };
}

/** `A to B`, or one figure for both. */
function parseBounds(text: string, parseSide: (side: string) => Parsed<Decimal>): Parsed<Bounds> {
  const [first = "", second, ...more] = text.split(/\sto\s/).map((side) => side.trim());
  if (more.length > 0) return words.unreadable(text, "one figure or two", "Write `A to B`");
  const least = parseSide(first);
  if (isWording(least)) return least;
  const most = second === undefined ? least : parseSide(second);
  if (isWording(most)) return most;
  return least.greaterThan(most) ? words.mostBelowLeast(least.toFixed(), most.toFixed()) : { least, most };
}

/** An amount of money in currency units, exactly as written. */
export function parseMoney(text: string, remedy: string = WRITE.money): Parsed<Decimal> {
  const plain = withoutEnd(text.replace(/^(\p{Sc}|[A-Z]{3}\s)/u, "").trimStart(), /(\p{Sc}|\s[A-Z]{3})$/u);
  if (plain !== text && PLAIN.test(plain)) return words.currencySign(text, plain);
  return parseNumber(text, remedy, "an amount of money");
}

/** An amount of money that is nothing, or enough to be reckoned with. */
export function parseReckonedMoney(text: string): Parsed<Decimal> {
  const amount = parseMoney(text);
  return !isWording(amount) && isLostInRounding(amount) ? words.roundsToNothing(text) : amount;
}

/** Whether an amount is more than nothing and would be rounded to it. */
export function isLostInRounding(amount: Decimal): boolean {
  return !amount.isZero() && money(amount) === 0n;
}

/** A plain number of minutes. */
export function parseMinutes(text: string): Parsed<Decimal> {
  const minutes = parseNumber(text, WRITE.minutes);
  return !isWording(minutes) && minutes.greaterThan(MOST_MINUTES)
    ? words.atMost(text, `${MOST_MINUTES}`)
    : minutes;
}

/** What cooking leaves of a weight: pulses and grains take up water, up to three times their own weight. */
export function parseCookingYield(text: string): Parsed<Decimal> {
  const percent = parsePercent(text);
  return !isWording(percent) && percent.greaterThan(4) ? words.atMost(text, "400 %") : percent;
}

/** Hands-on time in minutes: `6 h`, `90 min`, `1 h 30 min`. */
export function parseHours(text: string): Parsed<number> {
  const match = /^(?:([\d.]+)\s*h(?:ours?)?)?\s*(?:([\d.]+)\s*min(?:utes?)?)?$/.exec(text);
  if (match === null || (match[1] ?? match[2]) === undefined) {
    return words.unreadable(text, "a time", WRITE.hours);
  }
  const hours = parseNumber(match[1] ?? "0", WRITE.hours);
  const minutes = parseNumber(match[2] ?? "0", WRITE.hours);
  if (isWording(hours)) return hours;
  if (isWording(minutes)) return minutes;
  const all = hours.times(60).plus(minutes).toNumber();
  return all > MOST_MINUTES ? words.atMost(text, "168 h") : all;
}

/** `19:00` of a 24-hour clock as minutes after midnight. */
export function parseClock(text: string): Parsed<number> {
  const [, hour, minute] = /^([01]?\d|2[0-3])[:.h]([0-5]\d)$/.exec(text) ?? [];
  if (hour === undefined || minute === undefined) return words.unreadable(text, "a time of day", WRITE.clock);
  return Number(hour) * 60 + Number(minute);
}

/** `5 days`; at least one, the day itself being day 1. */
export function parseDays(text: string): Parsed<number> {
  const days = parseWhole(withoutEnd(text, /days?$/), WRITE.days);
  if (isWording(days)) return days;
  if (days > MOST_DAYS) return words.atMost(text, `${MOST_DAYS} days`);
  return days === 0 ? words.nothing(text) : days;
}

export function parseDate(text: string): Parsed<string> {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return words.unreadable(text, "a date", WRITE.date);
  if (!isIsoDate(text)) return words.noSuchDay(text);
  return /^2[01]/.test(text) ? text : words.otherAge(text);
}

export function parseYesNo(text: string): Parsed<boolean> {
  const word = text.toLowerCase();
  if (word === "yes" || word === "true") return true;
  if (word === "no" || word === "false") return false;
  return words.unreadable(text, "yes or no", WRITE.yesNo);
}
