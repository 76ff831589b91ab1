import { readdirSync, readFileSync } from "node:fs";
import { afterEach, expect, it, vi } from "vitest";
import type { Problem } from "../../src/reading/index.js";

/** Every file whose sentences only people read. */
const WORD_FILES = readdirSync("src", { recursive: true, encoding: "utf8" }).filter(
  (file) => /(?:^|[/-])word(?:s|ing)\.ts$/.test(file) || /\/wording\/\w+\.ts$/.test(file),
);
const EXAMPLES = ["demo", "smallest", "two-forms", "us-units", "pork-shoulder"];
/** Written in place of a value. */
const WRONG = [
  "1,5",
  "-3",
  "1.234,5",
  "abc",
  "12 zz",
  "5 %",
  "7 to 3",
  "",
  "[x, 1]",
  "{y: 2}",
  "0.0001 / kg",
];

afterEach(() => {
  vi.doUnmock("../../src/index.js");
  vi.resetModules();
});

const letters = (text: string): string => text.replace(/\p{L}/gu, "x");

/** The same with every letter of its texts another. */
function garbled(words: unknown): unknown {
  if (typeof words === "string") return letters(words);
  if (Array.isArray(words)) return words.map(garbled);
  if (typeof words === "function") return (...given: unknown[]) => garbled(words(...given));
  const isPlain = typeof words === "object" && words !== null && !(words instanceof RegExp);
  if (!isPlain || words instanceof Map || words instanceof Set) return words;
  return Object.fromEntries(
    Object.entries(words).map(([key, value]) => [key, key === "code" ? value : garbled(value)]),
  );
}

/** A text with each of its values in turn wrong; every third line, another fault on each. */
function wrongTexts(text: string): string[] {
  const lines = text.split("\n");
  return lines.flatMap((line, index) => {
    const [, key] = /^(\s*[^#:]+:) \S/.exec(line) ?? [];
    if (key === undefined) return [];
    const wrong = WRONG[index % WRONG.length] ?? "";
    return [lines.with(index, `${key} ${wrong}`).join("\n")];
  });
}

type Places = readonly string[];

const placesOf = (problems: readonly Problem[]): Places =>
  problems.map(({ file, line, column, code }) => `${file}:${line}:${column} ${code}`).sort();

/** Where every wrong text is refused, read by modules that are loaded anew. */
async function refusals(): Promise<{ places: Places[]; said: string[] }> {
  const { loadScenarioText, readKitchenTests, readCard } = await loaded();
  const texts = EXAMPLES.map((name) => readFileSync(`examples/${name}.yaml`, "utf8"));
  const tests = readFileSync("examples/after-service/yield-tests.csv", "utf8");
  const problems = [
    ...texts.flatMap(wrongTexts).map((text) => loadScenarioText("a.yaml", text).problems),
    ...wrongTexts(texts.at(-1) ?? "").map((text) => readCard({ file: "card.yaml", text }).problems),
    ...wrongCells(tests).map((text) => readKitchenTests({ file: "tests.csv", text })),
  ];
  return {
    places: problems.map(placesOf),
    said: problems.flatMap((each) => each.map(({ what, remedy }) => `${what}. ${remedy}`)),
  };
}

/** A table with each cell of its second line in turn wrong. */
function wrongCells(text: string): string[] {
  const [head = "", first = "", ...rows] = text.split("\n");
  const cells = first.split(",");
  return cells.flatMap((_, index) =>
    ["", "abc", "-1", "1e9"].map((wrong) => [head, cells.with(index, wrong).join(","), ...rows].join("\n")),
  );
}

async function loaded() {
  const { loadScenarioText } = await import("../../src/kitchen-files/index.js");
  const { readTestCard } = await import("../../src/kitchen/index.js");
  const { loadYieldTables, readYieldTests, checkTestCard } = await import("../../src/yields/index.js");
  const { tables } = loadYieldTables();
  return {
    loadScenarioText,
    readCard: (source: { file: string; text: string }) => checkTestCard(readTestCard(source)),
    readKitchenTests: (source: { file: string; text: string }) => readYieldTests(source, tables).problems,
  };
}

/** Commands that weigh, account, teach and refuse, and solve nothing; what they end with and print, times, the engine and spaces left out. */
const COMMANDS = [
  ["check", "tests/house/words.test.ts"],
  ["weigh-in", "examples/after-service/lunch.yaml"],
  ["waste", "examples/after-service/lunch.yaml", "--json"],
  ["waste", "examples/smallest.yaml", "./examples/smallest.yaml"],
  ["butchers-test", "examples/pork-shoulder.yaml"],
  ["cooking-loss", "examples/smallest.yaml"],
  ["yield", "broccoli"],
  ["safety-case"],
];

async function commandsRun() {
  const { run } = await import("../support/program.js");
  const ran = [];
  for (const command of COMMANDS) {
    const { code, stdout, stderr } = await run(...command);
    const printed = (stdout + stderr)
      .replace(/"(?:seconds|build|solve)\w*": [\d.e-]+/gi, "")
      .replace(/[\d.]+ s\b|highs|javascript-lp-solver|\s/g, "");
    ran.push({ command: command.join(" "), code, printed });
  }
  return ran;
}

async function withOtherWords<T>(work: () => Promise<T>): Promise<T> {
  vi.resetModules();
  for (const file of WORD_FILES)
    vi.doMock(`../../src/${file.replaceAll("\\", "/")}`, async (original) =>
      Object.fromEntries(
        Object.entries(await original<object>()).map(([name, value]) => [name, garbled(value)]),
      ),
    );
  try {
    return await work();
  } finally {
    for (const file of WORD_FILES) vi.doUnmock(`../../src/${file.replaceAll("\\", "/")}`);
  }
}

it("whatever the words are, commands end alike and print the same but for the words", async () => {
  const plain = await commandsRun();
  const other = await withOtherWords(commandsRun);
  expect(other.map(({ command, code }) => [command, code])).toEqual(
    plain.map(({ command, code }) => [command, code]),
  );
  expect(new Set(plain.map(({ code }) => code)).size).toBeGreaterThan(1);
  for (const [index, { command, printed }] of plain.entries())
    expect(letters(other[index]?.printed ?? ""), command).toBe(letters(printed));
  // Commands with words in word files printed other ones.
  expect(plain.filter(({ printed }, index) => printed !== other[index]?.printed).length).toBeGreaterThan(2);
}, 120_000);

it("whatever the words are, the same is refused in the same places for the same reasons", async () => {
  expect(WORD_FILES.length).toBeGreaterThan(12);
  const plain = await refusals();
  const other = await withOtherWords(refusals);
  expect(plain.places.filter((each) => each.length > 0).length).toBeGreaterThan(300);
  expect(other.places).toEqual(plain.places);
  expect(other.said.map(letters)).toEqual(plain.said.map(letters));
  // The words were other ones, so what agrees does not hang on them.
  const same = other.said.filter((text) => /\p{L}/u.test(text.replaceAll("x", "")));
  expect(same.length / other.said.length).toBeLessThan(0.2);
});
