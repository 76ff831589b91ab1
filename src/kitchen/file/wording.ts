import type { CupSystem } from "../../quantity/index.js";
import { codeOf, wordings } from "../../reading/index.js";

/** What to write for each kind of value, with an example of it. */
export const WRITE = {
  weight: "Write a weight with its unit, such as `620 g`",
  lineAmount: "Write the weight of one portion, such as `170 g`, `150 to 180 g`, `120 g cooked` or `2 each`",
  stapleAmount: "Write a weight, a volume or a count, such as `15 g`, `10 mL` or `1 each`",
  stockAmount: "Write units or a weight, such as `2 head` or `1.2 kg`",
  yieldAmount: "Write a weight of one unit or a percent, such as `480 g` or `34 %`",
  price: "Write a price and what it is for, such as `1.35 / head`, `4.00 / kg` or `8.40 / case of 6`",
  priceBreak: "Write the number and the price from it on, such as `1.10 each; from 24: 0.95 each`",
  pricePerWeight: "Write a price for a weight, such as `4.00 / kg`",
  money: "Write a plain number in the scenario's currency, such as `0.85`",
  percent: "Write a percent, such as `5 %`",
  share: "Write a percent or two, such as `50 %` or `50 to 100 %`",
  whole: "Write a whole number, such as `60`",
  wholeRange: "Write a whole number or two, such as `24` or `20 to 40`",
  buying: "Write `no`, or the least and the most to buy, such as `0 to 40`",
  number: "Write a number, such as `1.0`",
  minutes: "Write minutes as a number, such as `25`",
  clock: "Write the hour and minute of a 24-hour clock, such as `19:00`",
  hours: "Write hours or minutes, such as `6 h` or `90 min`",
  days: "Write days, such as `5 days`",
  date: "Write a date as year-month-day, such as `2026-10-02`",
  yesNo: "Write `yes` or `no`",
  text: "Write a text",
  textList: "Write a text, or a list of texts such as `[milk, egg]`",
  keys: (example: string) => `Write keys and values, such as \`${example}\``,
  list: (example: string) => `Write a list, such as \`${example}\``,
  oneOf: (words: readonly string[]) => `Write one of: ${words.join(", ")}`,
} as const;

export const words = wordings("kitchen", {
  unreadable: (text: string, kind: string, remedy: string) => ({
    what: `\`${text}\` is not ${kind}`,
    remedy,
  }),
  decimalComma: (text: string, plain: string) => ({
    what: `\`${text}\` has a comma in the number`,
    remedy: `Write decimals with a point and thousands without a mark: \`${plain}\``,
  }),
  tooManyEntries: (key: string, count: number, most: number) => ({
    what: `\`${key}\` has ${count} entries`,
    remedy: `Write at most ${most}: plan what belongs to other weeks or kitchens in a file of its own`,
  }),
  /** Two names that look the same, with the first letter that is not of the Latin alphabet in one of them. */
  alike: (name: string, earlier: string, line: number) => {
    const foreign = [name, earlier].flatMap(
      (each) => Array.from(each).find((letter) => /[^\0-\u024F]/.test(letter)) ?? [],
    )[0];
    const what = `\`${name}\` looks like \`${earlier}\` on line ${line}`;
    return {
      what:
        foreign === undefined
          ? what
          : `${what}, and one of them has \`${foreign}\` (${codeOf(foreign)}) in it`,
      remedy: "Write both alike where one thing is meant, or give one of them another name",
    };
  },
  tooLong: (text: string) => ({
    what: `\`${text}\` has more digits than a kitchen can mean`,
    remedy: "Write at most nine digits before the point and nine after it",
  }),
  belowZero: (text: string, remedy: string) => ({
    what: `\`${text}\` is below zero`,
    remedy,
  }),
  nothing: (text: string) => ({
    what: `\`${text}\` is nothing`,
    remedy: "Write more than zero, or leave it out",
  }),
  noUnit: (text: string, remedy: string) => ({
    what: `\`${text}\` has no unit`,
    remedy,
  }),
  noPercentSign: (text: string, remedy: string) => ({ what: `\`${text}\` has no percent sign`, remedy }),
  unknownUnit: (unit: string, meant: string | null, remedy: string) => ({
    what: `\`${unit}\` is not a unit that is known here`,
    remedy: meant === null ? remedy : `Did you mean \`${meant}\`?`,
  }),
  volumeForWeight: (text: string) => ({
    what: `\`${text}\` is a volume, and what it weighs is not known`,
    remedy: "Weigh it and write the weight, such as `240 g`",
  }),
  whichCup: (text: string) => ({
    what: `\`${text}\` does not say which measure: a US cup is 236.588 mL, a metric one 250 mL, a US label one 240 mL`,
    remedy: "Add `units: {cup: us}` to the scenario (or `metric`, or `us_label`), or write mL",
  }),
  notInSystem: (name: string, system: CupSystem) => ({
    what: `there is no ${name} in the measures stated, \`cup: ${system}\``,
    remedy: `Write mL, or say which is meant: \`us ${name}\` or \`imperial ${name}\``,
  }),
  mostBelowLeast: (least: string, most: string) => ({
    what: `the least, ${least}, is above the most, ${most}`,
    remedy: `Write the smaller one first: \`${most} to ${least}\``,
  }),
  overAll: (text: string) => ({
    what: `\`${text}\` is more than the whole`,
    remedy: "Write at most `100 %`",
  }),
  atMost: (text: string, most: string) => ({
    what: `\`${text}\` is more than ${most}`,
    remedy: `Write at most \`${most}\``,
  }),
  roundsToNothing: (text: string) => ({
    what: `\`${text}\` is less than money is reckoned in`,
    remedy: "Write at least `0.0001`, or `0`",
  }),
  otherAge: (text: string) => ({
    what: `\`${text}\` is no day that a kitchen plans for`,
    remedy: "Write a year from 2000 to 2199",
  }),
  farAway: (date: string, first: string) => ({
    what: `\`${date}\` is more than ten years from the first service, on ${first}`,
    remedy: "Write a day near it, or plan what lies so far off in a file of its own",
  }),
  noSuchDay: (text: string) => ({
    what: `\`${text}\` is a day that no calendar has`,
    remedy: WRITE.date,
  }),
  currencySign: (text: string, plain: string) => ({
    what: `\`${text}\` has a currency sign in it`,
    remedy: `The currency is stated once for all; write \`${plain}\``,
  }),
  noSuchWord: (text: string, meant: string | null, words: readonly string[]) => ({
    what: `\`${text}\` cannot stand here`,
    remedy: meant === null ? WRITE.oneOf(words) : `Did you mean \`${meant}\`? ${WRITE.oneOf(words)}`,
  }),
  noSuchCurrency: (text: string, meant: string | null) => ({
    what: `\`${text}\` is no currency of ISO 4217`,
    remedy:
      meant === null
        ? "Write its three letters, such as `GBP`, `EUR` or `USD`"
        : `Did you mean \`${meant}\`?`,
  }),
  noSuchLocale: (text: string) => ({
    what: `\`${text}\` is no language tag`,
    remedy: "Write one such as `en-GB` or `en-US`",
  }),
  breakNotAbove: (from: number, before: number) => ({
    what: `a price from ${from} on follows one ${before === 1 ? "for a single unit" : `from ${before} on`}`,
    remedy: "Write the prices in the order of their numbers, the first from 2 on or later",
  }),
  priceForWhat: (text: string, remedy: string) => ({
    what: `\`${text}\` does not say what the price is for`,
    remedy,
  }),
});
