import { midnight, type Scenario } from "../kitchen/index.js";
import {
  coinOf,
  Decimal,
  type Money,
  milligrams,
  money,
  OUNCE_MILLIGRAMS,
  roundTogether,
  scaleWithStep,
  splitByShares,
  toCurrency,
  toGrams,
  type Weight,
} from "../quantity/index.js";

const GAP = "\u00a0";

/** How a scenario's locale, currency and scale write figures. Every method gives text that can be printed. */
export interface Writing {
  /** The smallest weight the scale shows. */
  readonly step: Weight;
  /** The currency's smallest coin. */
  readonly coin: Money;
  /** Unit of the kitchen's scale, "g" or "oz", for the heads of columns. */
  readonly unit: string;
  /** The larger one, "kg" or "lb", that prices by weight are for. */
  readonly largeUnit: string;
  /** What stands against a kilogram (a price, minutes), for one such unit. */
  perLarge(perKilogram: Decimal): Decimal;
  /** A weight to the scale's step. */
  onScale(weight: Weight): Weight;
  /** A weight as the scale shows it, without its unit: for columns whose head names it. */
  shown(weight: Weight): string;
  /** With its unit: grams below 10 kg, kilograms from there on; or ounces, and pounds with them from 1 lb. */
  weight(weight: Weight): string;
  /** A weight of a recipe, which the scale need not show: with more decimals. */
  exactly(weight: Weight): string;
  money(amount: Money): string;
  /** A price for one kilogram or head: as many decimals as it has, at least the currency's. */
  price(amount: Money): string;
  count(number: number | bigint): string;
  /** To so many places at most, and at least to so many: none, where not stated. */
  decimal(value: Decimal, most: number, least?: number): string;
  /** "12.5 %" of a whole; "under 0.1 %" of what is not nothing, "over 99.9 %" of what is not all; "0 %" of no whole. */
  percent(part: Weight, whole: Weight): string;
  /** "100.0 %", under a column of percents. */
  readonly wholePercent: string;
  /** Percentages of a whole to one decimal, by largest remainder: they add up to 100.0 %. */
  percents(parts: readonly Weight[]): string[];
  rate(fraction: Decimal): string;
  /** A percent that is rounded to one decimal already: 25 is "25.0 %". */
  percentShown(percent: Decimal): string;
  /** "Friday 2 October 2026". */
  date(iso: string): string;
  /** "Fri 2 Oct". */
  shortDate(iso: string): string;
  /** "2–3 Oct 2026". */
  dates(first: string, last: string): string;
}

/** Text of a scenario's own tongue would be mixed with ours: only the order of an English date follows it. */
function dateLocale(locale: string): string {
  return /^en\b/i.test(locale) ? locale : "en-GB";
}

/** What of a scenario, or of a test card, says how its figures are written. */
export type WritingOf = Pick<Scenario, "locale" | "currency" | "scaleStep">;

export function writingFor({ locale, currency, scaleStep }: WritingOf): Writing {
  const scale = scaleWithStep(scaleStep);
  const { unit, places, large } = scale;
  const plain = (least: number, most: number) =>
    new Intl.NumberFormat(locale, { minimumFractionDigits: least, maximumFractionDigits: most });
  const shownFormat = plain(places, places);
  const textFormat = plain(0, places);
  const exactFormat = plain(0, Math.max(2, places));
  const largeFormat = plain(1, 3 + places);
  const countFormat = plain(0, 0);
  const percentFormat = new Intl.NumberFormat(locale, { style: "percent", maximumFractionDigits: 1 });
  const wholePercentFormat = new Intl.NumberFormat(locale, {
    style: "percent",
    minimumFractionDigits: 1,
    maximumFractionDigits: 1,
  });
  const moneyFormat = new Intl.NumberFormat(locale, { style: "currency", currency });
  const priceFormat = new Intl.NumberFormat(locale, {
    style: "currency",
    currency,
    maximumFractionDigits: 4,
  });
  const day = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(dateLocale(locale), { ...options, timeZone: "UTC" });
  const longDay = day({ weekday: "long", day: "numeric", month: "long", year: "numeric" });
  const shortDay = day({ weekday: "short", day: "numeric", month: "short" });
  const span = day({ day: "numeric", month: "short", year: "numeric" });
  const onScale = (weight: Weight): Weight => roundTogether([weight], scaleStep)[0] ?? weight;

  return {
    step: scaleStep,
    coin: money(coinOf(currency)),
    unit,
    largeUnit: large.unit,
    perLarge: (perKilogram) =>
      unit === "g" ? perKilogram : perKilogram.times(OUNCE_MILLIGRAMS).times(large.size).div(1_000_000),
    onScale,
    shown: (weight) => shownFormat.format(exact(scale.read(onScale(weight)))),
    weight: (weight) => {
      const read = scale.read(onScale(weight));
      if (read.abs().lessThan(large.from)) return `${textFormat.format(exact(read))}${GAP}${unit}`;
      if (unit === "g") return `${largeFormat.format(exact(read.div(large.size)))}${GAP}${large.unit}`;
      const whole = read.div(large.size).trunc();
      const rest = read.minus(whole.times(large.size));
      const pounds = `${countFormat.format(exact(whole))}${GAP}${large.unit}`;
      return rest.isZero() ? pounds : `${pounds}${GAP}${textFormat.format(exact(rest))}${GAP}${unit}`;
    },
    exactly: (weight) => `${exactFormat.format(exact(scale.read(weight)))}${GAP}${unit}`,
    money: (amount) => moneyFormat.format(exact(toCurrency(amount))),
    price: (amount) => priceFormat.format(exact(toCurrency(amount))),
    count: (number) => countFormat.format(number),
    decimal: (value, most, least = 0) => plain(least, most).format(exact(value)),
    percent: (part, whole) => {
      if (whole === 0n || part === 0n || part === whole)
        return percentFormat.format(whole === 0n || part === 0n ? 0 : 1);
      const share = new Decimal(part.toString()).div(new Decimal(whole.toString()));
      const text = percentFormat.format(exact(share));
      if (text === percentFormat.format(0)) return `under ${percentFormat.format(0.001)}`;
      return text === percentFormat.format(1) && share.lt(1) ? `over ${percentFormat.format(0.999)}` : text;
    },
    percents: (parts) => {
      const total = parts.reduce((sum, part) => sum + part, 0n);
      if (total === 0n) return parts.map(() => wholePercentFormat.format(0));
      return splitByShares(milligrams(1000n), parts).map((perMille) =>
        wholePercentFormat.format(exact(toGrams(perMille))),
      );
    },
    wholePercent: wholePercentFormat.format(1),
    percentShown: (percent) => wholePercentFormat.format(exact(percent.div(100))),
    rate: (fraction) => percentFormat.format(exact(fraction)),
    date: (iso) => longDay.format(midnight(iso)),
    shortDate: (iso) => shortDay.format(midnight(iso)).replaceAll(" ", GAP),
    dates: (first, last) => span.formatRange(midnight(first), midnight(last)),
  };
}

/** Intl takes decimal text and keeps every digit of it. */
function exact(value: Decimal): Intl.StringNumericLiteral {
  return value.toFixed() as Intl.StringNumericLiteral;
}

/** Money to the currency's smallest coin, together, so that the printed column adds up to its printed total. */
export function coins(amounts: readonly Money[], { currency }: Scenario): Money[] {
  return roundTogether(amounts, money(coinOf(currency)));
}

/** "12 heads", "1 head": the plural as English mostly makes it. */
export function counted(writing: Writing, number: number | Decimal, one: string): string {
  const exactly = new Decimal(number.toString());
  return `${writing.decimal(exactly, 2)}${GAP}${exactly.equals(1) ? one : plural(one)}`;
}

/** "3 heads of broccoli", "12 eggs", "6 butternut squashes", "2 cases of 6 melon": the item is named once. */
export function amountOf(writing: Writing, units: number | Decimal, unit: string, item: string): string {
  if (item === unit) return counted(writing, units, unit);
  if (item.endsWith(` ${unit}`)) return counted(writing, units, item);
  return `${counted(writing, units, unit)} ${unit.includes(" of ") ? "" : "of "}${item}`;
}

/**
 * A way of cutting after what is cut: "in rings and dice", but "peeled" and "cut up" as they stand.
 */
export function cutWords(breakdown: string): string {
  return /^(\w+ed|cut|whole|left|split|raw)\b/i.test(breakdown) ? breakdown : `in ${breakdown}`;
}

/** The plural of a noun, or of the noun before "of": "case of 6" to "cases of 6". */
export function plural(noun: string): string {
  const [head = noun, ...rest] = noun.split(/(?= of )/);
  if (/(?:^|\s)(?:kg|g|l|ml|lb|oz|each|dozen|squash|fish)$/i.test(head)) return noun;
  const many = /(s|x|z|ch|sh)$/i.test(head)
    ? `${head}es`
    : /[^aeiou]y$/i.test(head)
      ? `${head.slice(0, -1)}ies`
      : /(?:^|\s)(?:loaf|leaf|half|calf)$/i.test(head)
        ? `${head.slice(0, -1)}ves`
        : /(?:^|\s)(?:potato|tomato|mango)$/i.test(head)
          ? `${head}es`
          : `${head}s`;
  return many + rest.join("");
}

/** "a, b and c". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;
}

/** Everything once, in the order it first comes. */
export function once<T>(values: Iterable<T>): T[] {
  return [...new Set(values)];
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
