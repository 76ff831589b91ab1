import { describe, expect, it } from "vitest";
import { parseScaleWeight } from "../../src/kitchen/cards/figures.js";
import * as amounts from "../../src/kitchen/file/amounts.js";
import * as numbers from "../../src/kitchen/file/numbers.js";
import * as prices from "../../src/kitchen/file/prices.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { hourlyWage, unitNamed } from "../../src/quantity/index.js";
import { didYouMean, readCsv } from "../../src/reading/index.js";
import { wordsOf } from "../../src/safety/names/fold.js";
import { readYieldTests } from "../../src/yields/index.js";

/** Eight times as much may take so many times as long: eight where it is linear, sixty-four where it is quadratic. */
const TIMES = 8;
const MOST_RATIO = 28;
/** What is faster than this is not told from nothing. */
const LEAST_MS = 10;
const ATTEMPTS = 4;

/** Of some rounds, the least of this process's own time: what else the machine does counts for nothing. */
function bestOf(rounds: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const began = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(began);
    best = Math.min(best, (user + system) / 1000);
  }
  return Math.max(LEAST_MS, best);
}

/** How many times as long eight times as much of it takes; asked again where it may have been chance. */
function growth(work: (size: number) => () => unknown, size: number): number {
  let ratio = Number.POSITIVE_INFINITY;
  for (let attempt = 0; attempt < ATTEMPTS && ratio >= MOST_RATIO; attempt += 1)
    ratio = Math.min(ratio, bestOf(2, work(size * TIMES)) / bestOf(3, work(size)));
  return ratio;
}

const many = (count: number, one: (index: number) => string) =>
  Array.from({ length: count }, (_, index) => one(index)).join("");

/** Invented: a sound scenario around what is written too often. */
const around = ({ services = "", items = "", lines = "", end = "", amount = "100 g" }) => `scenario: s
currency: EUR
services:
  - {name: Lunch, date: 2026-10-08}
${services}items:
  marrow: {price: 1.10 / head, unit_weight: 1 kg, breakdowns: {dice: {parts: {dice: 100 %}}}}
${items}dishes:
  soup: {portions: 8, lines: [{amount: ${amount}, from: marrow dice}]${lines}}
${end}`;

const SCENARIOS: Readonly<Record<string, (count: number) => string>> = {
  "one anchor referred to again and again": (count) =>
    around({ end: `x: [&a b${many(count, () => ", *a")}]` }),
  "many anchors": (count) => around({ end: `x: [b${many(count, (i) => `, &a${i} c, *a${i}`)}]` }),
  "anchors inside anchors": (count) => around({ end: many(count, (i) => `x${i}: &a${i + 1} [*a${i}]\n`) }),
  "anchors that multiply": (count) =>
    around({ end: `x: &a0 [b]\n${many(count, (i) => `x${i}: &a${i + 1} [*a${i}, *a${i}]\n`)}` }),
  "wrong entries of a list": (count) => around({ services: many(count, () => "  - x\n") }),
  "wrong dates": (count) => around({ services: many(count, (i) => `  - {name: L${i}, date: x}\n`) }),
  "unknown keys": (count) => around({ end: many(count, (i) => `k${i}: x\n`) }),
  "wrong entries of a map": (count) => around({ items: many(count, (i) => `  i${i}: x\n`) }),
  "a key again and again": (count) => around({ items: many(count, () => "  marrow: {price: 1 / head}\n") }),
  "wrong staples": (count) => around({ lines: `, staples: {${many(count, (i) => `s${i}: x, `)}}` }),
  "names on that are none": (count) =>
    around({ end: `parts:\n${many(count, (i) => `  q${i}: {keeps: 3 days}\n`)}` }),
  "open brackets": (count) => around({ end: `x: ${"[".repeat(count)}${"]".repeat(count)}` }),
  "brackets that are not closed": (count) => around({ end: many(count, () => "x: [\n") }),
  tabs: (count) => around({ end: many(count, () => "\tx: y\n") }),
  digits: (count) => around({ amount: "98".repeat(count) }),
  spaces: (count) => around({ amount: `"1${"  ".repeat(count)}x"` }),
};

const COLUMNS = { required: ["item", "part"], optional: ["note"] };
const TABLES: Readonly<Record<string, (count: number) => string>> = {
  "rows of the wrong length": (count) => `item,part\n${"x\n".repeat(count)}`,
  "sound rows": (count) => `item,part\n${"x,y\n".repeat(count)}`,
  "unknown columns": (count) => `item,part${many(count, (i) => `,c${i}`)}\n`,
  "one long cell": (count) => `item,part\nx,${"y ".repeat(count)}\n`,
  "cells that do not show": (count) => `item,part\n${"x,\u200By\n".repeat(count)}`,
  quotes: (count) => `item,part\n${'"x""",y\n'.repeat(count)}`,
  "quotes out of place": (count) => `item,part\nx,y${'"'.repeat(count)}\n`,
};

const PARSERS: Readonly<Record<string, (text: string) => unknown>> = {
  weight: (text) => amounts.parseWeight(text, "us"),
  "yield amount": (text) => amounts.parseYieldAmount(text, "us"),
  "line amount": (text) => amounts.parseLineAmount(text, "us"),
  "stock amount": (text) => amounts.parseStockAmount(text, "us"),
  "staple amount": (text) => amounts.parseStapleAmount(text, "us"),
  "price with breaks": (text) => prices.parsePrices(text, "us"),
  "price of a weight": (text) => prices.parsePricePerKilogram(text, "us"),
  number: numbers.parseNumber,
  "whole range": numbers.parseWholeRange,
  percent: numbers.parsePercent,
  share: numbers.parseShare,
  money: numbers.parseMoney,
  hours: numbers.parseHours,
  clock: numbers.parseClock,
  days: numbers.parseDays,
  date: numbers.parseDate,
  "pounds and ounces": parseScaleWeight,
  wage: hourlyWage,
  unit: (text) => unitNamed(text, "us"),
  "words of a name": wordsOf,
  "did you mean": (text) => didYouMean(text, ["marrow", "marrow dice"]),
};

/** Texts on which a pattern that can read them in several ways tries all of these. */
const LONG: Readonly<Record<string, (count: number) => string>> = {
  digits: (count) => "98".repeat(count),
  "digits and a letter": (count) => `${"98".repeat(count)}x`,
  spaces: (count) => `1${"  ".repeat(count)}x`,
  "spaces before a unit": (count) => `1${"  ".repeat(count)}%x`,
  commas: (count) => "1,".repeat(count),
  points: (count) => `1${".1".repeat(count)}`,
  "pounds on pounds": (count) => "1lb".repeat(count),
  to: (count) => `1${" to 1".repeat(count)} g x`,
  of: (count) => `1 / a${" of a".repeat(count)}\n`,
  breaks: (count) => `1 each${"; from : 1".repeat(count)}`,
  "spaces after from": (count) => `1 each; from${"  ".repeat(count)}\nx`,
  currencies: (count) => `1${" EUR".repeat(count)}1`,
  letters: (count) => "aé".repeat(count),
  hyphens: (count) => `1 / a${"-a".repeat(count)}1`,
};

describe("reading takes no more than as many times as long for", () => {
  it.each(Object.keys(SCENARIOS))("a scenario with %s", (name) => {
    const work = (count: number) => {
      const text = SCENARIOS[name]?.(count) ?? "";
      return () => loadScenarioText("t.yaml", text);
    };
    expect(growth(work, 1_000)).toBeLessThan(MOST_RATIO);
  });

  it.each(Object.keys(TABLES))("a table with %s", (name) => {
    const work = (count: number) => {
      const text = TABLES[name]?.(count) ?? "";
      return () => readCsv({ file: "t.csv", text }, COLUMNS).problems.length;
    };
    expect(growth(work, 4_000)).toBeLessThan(MOST_RATIO);
  });

  it("yield tests with a problem each", () => {
    const heading = "item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class";
    const work = (count: number) => {
      const text = `${heading}\n${many(count, (i) => `a,b,c,d,x,${i},1,10,1,e,5,food\n`)}`;
      return () => readYieldTests({ file: "t.csv", text });
    };
    expect(growth(work, 500)).toBeLessThan(MOST_RATIO);
  });

  it.each(Object.keys(PARSERS))("a long %s", (name) => {
    for (const [kind, text] of Object.entries(LONG)) {
      const work = (count: number) => {
        const long = text(count);
        return () => PARSERS[name]?.(long);
      };
      expect(growth(work, 5_000), kind).toBeLessThan(MOST_RATIO);
    }
  });
});
