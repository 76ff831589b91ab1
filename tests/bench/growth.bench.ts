import { mkdirSync, writeFileSync } from "node:fs";
import { linearRegression } from "simple-statistics";
import { expect, it } from "vitest";
import { buildModel } from "../../src/allocation/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { soupEveryDay } from "../support/soup-every-day.js";
import { printTable } from "./measure.js";

const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 5);
const DAYS = [7, 14, 30, 60, 120, 240, 365];
const KILOBYTES = [1, 4, 16, 64, 256, 1000, 1900];
/** Reading and building may grow no faster than the size to this power. */
const MOST = 1.2;

/** Invented. As many dishes as the size takes, each with a method of up to the letters that a text may have. */
function ofSize(kilobytes: number): string {
  const head = `scenario: Many dishes
currency: EUR
services: [{name: Lunch, date: 2026-10-08}]
items:
  broccoli: {form: untrimmed head, price: 1.10 / head}
dishes:
`;
  const dishes: string[] = [];
  let size = head.length;
  for (let index = 0; size < kilobytes * 1000; index++) {
    const steps = Math.min(40, Math.ceil((kilobytes * 1000) / 20_000));
    const method = Array.from(
      { length: steps },
      (_, step) => `      - Stir ${step}, ${"and stir ".repeat(5)}`,
    );
    const dish = `  dish ${index}:\n    portions: 2\n    lines: [{amount: 100 g, from: broccoli floret}]\n    method:\n${method.join("\n")}\n`;
    dishes.push(dish);
    size += dish.length;
  }
  return head + dishes.join("");
}

/** Least milliseconds of some rounds. */
function least(work: () => void): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const began = performance.now();
    work();
    return performance.now() - began;
  });
  return Math.min(...times);
}

type Point = readonly [size: number, ms: number];

/** The power of the size that the time grows with, by least squares of the logarithms of the upper half. */
function exponent(points: readonly Point[]): number {
  const upper = points.slice(Math.floor(points.length / 2) - 1);
  return linearRegression(upper.map(([size, ms]) => [Math.log(size), Math.log(ms)])).m;
}

it("reads and builds in time that grows as the size does", () => {
  const read = (text: string) => {
    const { scenario, problems } = loadScenarioText("growth.yaml", text);
    if (scenario === null) throw new Error(problems[0]?.what);
    return scenario;
  };
  read(ofSize(64));
  const bySize = KILOBYTES.map((kilobytes): Point => {
    const text = ofSize(kilobytes);
    return [text.length / 1000, least(() => read(text))];
  });
  const byDays = DAYS.map((days): Point => [days, least(() => read(soupEveryDay(days)))]);
  const scenarios = DAYS.map((days) => read(soupEveryDay(days)));
  const building = DAYS.map((days, index): Point => {
    const scenario = scenarios[index];
    return [days, least(() => scenario !== undefined && buildModel(scenario))];
  });
  const series = {
    "reading, by kB": bySize,
    "reading, by services": byDays,
    "building, by services": building,
  };
  const rows = Object.entries(series).map(([name, points]) => [
    name,
    exponent(points).toFixed(2),
    points.map(([size, ms]) => `${size.toFixed(0)}: ${ms.toFixed(0)} ms`).join(", "),
  ]);
  printTable("Time by size; the power it grows with over the upper half.", [
    ["what", "exponent", "times"],
    ...rows,
  ]);
  if (process.env.BENCH_DOCS !== undefined) {
    mkdirSync("docs", { recursive: true });
    writeFileSync("docs/growth.svg", picture(series));
  }
  for (const points of Object.values(series)) expect(exponent(points)).toBeLessThan(MOST);
});

const [WIDTH, HEIGHT, MARGIN] = [240, 180, 44];

/** Each series on logarithmic axes of its own, with its exponent. */
function picture(series: Readonly<Record<string, readonly Point[]>>): string {
  const panels = Object.entries(series).map(([name, points], index) => {
    const logs = points.map(([size, ms]) => [Math.log10(size), Math.log10(ms)] as const);
    const [xs, ys] = [logs.map(([x]) => x), logs.map(([, y]) => y)];
    const scale = (value: number, all: readonly number[], length: number): number =>
      ((value - Math.min(...all)) / (Math.max(...all) - Math.min(...all))) * length;
    const at = logs.map(
      ([x, y]) =>
        [
          MARGIN + scale(x, xs, WIDTH - 2 * MARGIN),
          HEIGHT - MARGIN - scale(y, ys, HEIGHT - 2 * MARGIN),
        ] as const,
    );
    const line = at.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
    const dots = at.map(([x, y]) => `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="2.5"/>`).join("");
    const [first, last] = [points[0], points.at(-1)];
    const label = (x: number, y: number, text: string, anchor = "middle") =>
      `<text x="${x}" y="${y}" text-anchor="${anchor}">${text}</text>`;
    return `<g transform="translate(${index * WIDTH} 0)">
${label(WIDTH / 2, 18, `${name}: power ${exponent(points).toFixed(2)}`)}
<path d="M${MARGIN} ${MARGIN}V${HEIGHT - MARGIN}H${WIDTH - MARGIN}" fill="none" stroke="#767676"/>
<polyline points="${line}" fill="none" stroke="#1a1a1a"/>${dots}
${label(MARGIN, HEIGHT - MARGIN + 16, `${first?.[0].toFixed(0)}`)}${label(WIDTH - MARGIN, HEIGHT - MARGIN + 16, `${last?.[0].toFixed(0)}`)}
${label(MARGIN - 4, HEIGHT - MARGIN, `${first?.[1].toFixed(0)} ms`, "end")}${label(MARGIN - 4, MARGIN + 4, `${Math.max(...points.map(([, ms]) => ms)).toFixed(0)} ms`, "end")}
</g>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH * panels.length} ${HEIGHT}" font-family="sans-serif" font-size="10">
<title>Time to read a scenario and to build its model, by size, on logarithmic axes</title>
<rect width="100%" height="100%" fill="#fff"/>
${panels.join("\n")}
</svg>
`;
}
