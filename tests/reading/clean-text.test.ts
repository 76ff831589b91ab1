import { writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { processTerminal } from "../../src/commands/terminal.js";
import { loadScenario, loadScenarioText } from "../../src/kitchen-files/index.js";
import { alikes, csvCell, problemText, readCsv } from "../../src/reading/index.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";

const folder = scratchFolder();
afterAll(() => folder.remove());

const problems = (text: string) => loadScenarioText("t.yaml", text).problems.map(problemText);
const hidden = (place: string, code: string) =>
  `t.yaml:${place}: a character that does not show, ${code}, stands in the text. Take it out: write the text again by hand rather than copy it`;
/** The dish is on line 16 of the file. */
const dish = (name: string) => marrowBake().replace("  marrow bake:", `  ${name}:`);

describe("a character that does not show", () => {
  it.each([
    ["a NUL", "mar\0row", "16:6", "U+0000"],
    ["an escape", "mar\u001b[2Jrow", "16:6", "U+001B"],
    ["a control of the upper half", "mar\u009brow", "16:6", "U+009B"],
    ["a delete", "mar\u007frow", "16:6", "U+007F"],
    ["a turn to the left", "mar\u202erow", "16:6", "U+202E"],
    ["an isolate", "mar\u2066row", "16:6", "U+2066"],
    ["a mark of direction", "mar\u200frow", "16:6", "U+200F"],
    ["a space of no width", "marrow\u200b", "16:9", "U+200B"],
    ["a soft hyphen", "mar\u00adrow", "16:6", "U+00AD"],
    ["a byte order mark", "mar\ufeffrow", "16:6", "U+FEFF"],
    ["a separator of lines", "mar\u2028row", "16:6", "U+2028"],
    ["a lone return, written with a backslash", '"mar\\rrow"', "16:3", "U+000D"],
    ["half a character, written with a backslash", '"mar\\ud800row"', "16:3", "U+D800"],
    ["an escape, written with a backslash", '"mar\\e[2Jrow"', "16:3", "U+001B"],
  ])("is refused in a name in its place: %s", (_, name, place, code) => {
    expect(problems(dish(name))[0]).toBe(hidden(place, code));
  });

  it("is refused in a text and a figure, and what else is wrong is told too", () => {
    const text = marrowBake()
      .replace("portions: 8", "portions: 8\n    method: [chop, 'st\u202eir']\n    colour: red")
      .replace("ceiling: 1.00", "ceiling: 1\u200b.00");
    expect(problems(text)).toEqual([
      hidden("18:23", "U+202E"),
      expect.stringContaining("t.yaml:19:5: `colour` is no key"),
      hidden("20:15", "U+200B"),
    ]);
  });

  it("is refused in a cell", () => {
    const { problems: found } = readCsv(
      { file: "t.csv", text: "\ufeffa,b\nx,y\u200bz\n" },
      { required: ["a", "b"], optional: [] },
    );
    expect(found.map(problemText)).toEqual([hidden("2:3", "U+200B").replace("t.yaml", "t.csv")]);
  });

  it("is no tab or end of line in a text, nor an accent, nor what another script needs", () => {
    const text = marrowBake().replace("portions: 8", 'portions: 8\n    method: "a\\tb\\nç é ü ж 中 🥕"');
    expect(problems(text)).toEqual([]);
    expect(problems(dish("crème brûlée — 中"))).toEqual([]);
  });

  it.each([
    ["Persian, with a joiner that parts", "سیب\u200cزمینی"],
    ["Hindi, with one that joins", "क्\u200dष"],
    ["Sinhala", "ශ්\u200dරී"],
    ["Hebrew, with marks of direction", "\u200fמרק 2\u200e"],
    ["a picture in colour", "hot 🌶\ufe0f"],
    ["a picture of several", "for 👨\u200d🍳"],
  ])("is none that a script or a picture needs: %s", (_, name) => {
    expect(problems(dish(name))).toEqual([]);
    const at = { file: "t.yaml", line: 1, column: 1, code: "a", what: name, remedy: "" };
    expect(problemText(at)).toBe(`t.yaml:1:1: ${name}. `);
  });
});

describe("an accent", () => {
  it("is one with its letter, however a file has it: as copied from some systems it stands apart", () => {
    const text = marrowBake()
      .replace("parts: {dice: 800 g", "parts: {dice\u0301: 800 g")
      .replaceAll("marrow dice", "marrow dic\u00e9");
    expect(problems(text)).toEqual([]);
    const { rows } = readCsv(
      { file: "t.csv", text: "a,b\nbrunoise\u0301,1\n" },
      { required: ["a", "b"], optional: [] },
    );
    expect(rows[0]?.cell("a").text).toBe("brunois\u00e9");
  });
});

describe("a name", () => {
  it.each([
    [
      "a line end",
      '"soup\\nSpend"',
      "the name `soup<U+000A>Spend` has a tab or more than one line in it (U+000A). Write it on one line",
    ],
    [
      "a tab",
      '"soup\\tspend"',
      "the name `soup<U+0009>spend` has a tab or more than one line in it (U+0009). Write it on one line",
    ],
    [
      "a space that does not break",
      '"\\u00a0"',
      "a name of nothing stands here. Write a name, a colon and a space, such as `main: 100 %`",
    ],
  ])("of more than one line, or of nothing, is refused: %s", (_, name, words) => {
    expect(problems(dish(name))[0]).toBe(`t.yaml:16:3: ${words}`);
  });

  it("is one line as a value too", () => {
    expect(problems(marrowBake().replace("name: Lunch", 'name: "Lu\\nnch"'))).toEqual([
      "t.yaml:5:12: the name `Lu<U+000A>nch` has a tab or more than one line in it (U+000A). Write it on one line",
    ]);
  });
});

describe("two names that look the same", () => {
  const second = (name: string) =>
    `${marrowBake()}  ${name}: {portions: 2, lines: [{amount: 10 g, from: marrow dice}]}\n`;

  it.each([
    ["letter case", "Marrow Bake", ""],
    ["Cyrillic", "marr\u043ew bake", ", and one of them has `\u043e` (U+043E) in it"],
    ["Greek", "marr\u03bfw bake", ", and one of them has `\u03bf` (U+03BF) in it"],
    ["wide letters", "\uff4darrow bake", ", and one of them has `\uff4d` (U+FF4D) in it"],
    ["two spaces", '"marrow  bake"', ""],
    ["a space that does not break", '"marrow\\u00a0bake"', ""],
  ])("are told apart by no cook: %s", (_, name, more) => {
    const shown = name.startsWith('"') ? (JSON.parse(name) as string) : name;
    expect(problems(second(name))).toEqual([
      `t.yaml:22:3: \`${shown}\` looks like \`marrow bake\` on line 16${more}. Write both alike where one thing is meant, or give one of them another name`,
    ]);
  });

  it("are found among services, breakdowns and staples as well", () => {
    const text = marrowBake()
      .replace("sitting: lunch}", "sitting: lunch}\n  - {name: LUNCH, date: 2026-10-08}")
      .replace("    breakdowns:\n", "    breakdowns:\n      Dice: {parts: {dice: 100 %}}\n")
      .replace("{cream: 0.10}", "{cream: 0.10, Cream: 0.10}");
    expect(problems(text).map((line) => line.split(" on line")[0])).toEqual([
      "t.yaml:6:12: `LUNCH` looks like `Lunch`",
      "t.yaml:14:7: `dice` looks like `Dice`",
      "t.yaml:23:28: `Cream` looks like `cream`",
    ]);
  });

  it.each([
    ["Крем", "крем"],
    ["Тыква", "тыква"],
    ["Κρέμα", "κρέμα"],
    ["Νερό", "νερό"],
    ["крем", "к\u200dрем"],
  ])("are so in every script: %s and %s", (one, other) => {
    expect([...alikes([one, other])]).toEqual([[1, 0]]);
  });

  it("are none where an accent tells them apart, or where they are the same", () => {
    expect(alikes(["creme", "crème", "creme", "суп", "cyn"]).size).toBe(0);
  });
});

describe("a file that is not UTF-8", () => {
  it.each([
    ["latin1", "16:5"],
    ["utf16le", "1:1"],
  ] as const)("is told in its place: %s", async (encoding, place) => {
    const file = join(folder.path, `${encoding}.yaml`);
    writeFileSync(
      file,
      Buffer.from(`${encoding === "utf16le" ? "\ufeff" : ""}${dish("crème bake")}`, encoding),
    );
    expect((await loadScenario(file)).problems.map(problemText)).toEqual([
      `${file}:${place}: a letter here is lost, for the file is or was not in UTF-8. Write the letter again and save the file as YAML in UTF-8`,
    ]);
  });
});

describe("a CSV cell", () => {
  it.each([
    ["=1+1", "'=1+1"],
    ["+1+1", "'+1+1"],
    ["-2+3", "'-2+3"],
    ["@SUM(1)", "'@SUM(1)"],
    ["\tx", "'\tx"],
    ["\rx", '"\'\rx"'],
    ["\uff1d1", "'\uff1d1"],
    ["'=1", "''=1"],
    ['=A1,"x"', '"\'=A1,""x"""'],
    ["-2", "-2"],
    ["-2.50", "-2.50"],
    ["2", "2"],
    ["'tis", "'tis"],
    ["a=b", "a=b"],
  ])("that a spreadsheet would run is written as a text, and a number as one: %j", (text, cell) => {
    expect(csvCell(text)).toBe(cell);
  });

  it("is read back as it was", () => {
    const text = fc.string({ unit: fc.constantFrom(..."'=+-@,\";12a ") }).map((each) => each.trim());
    fc.assert(
      fc.property(fc.array(fc.tuple(text, text), { minLength: 1, maxLength: 5 }), (rows) => {
        const lines = rows.map(([a, b]) => `x,${csvCell(a)},${csvCell(b)}\n`).join("");
        const table = readCsv(
          { file: "t.csv", text: `k,a,b\n${lines}` },
          { required: ["k", "a", "b"], optional: [] },
        );
        expect(table.problems).toEqual([]);
        expect(table.rows.map((row) => [row.cell("a").text, row.cell("b").text])).toEqual(rows);
      }),
      { seed: 61, numRuns: 500 },
    );
  });
});

describe("the terminal", () => {
  it("writes what is said and does nothing else that a text bids it", () => {
    const pieces: string[] = [];
    const stream = { write: (text: string) => pieces.push(text), isTTY: true, columns: 200 };
    const terminal = processTerminal({ stdout: stream, stderr: stream, env: {} });
    const bad = "a\u001b]0;mine\u0007\u009b2J\u202eb\rc";
    const seen = "a<U+001B>]0;mine<U+0007><U+009B>2J<U+202E>b<U+000D>c";
    terminal.print(bad);
    terminal.complain(bad);
    terminal.print(terminal.heading(bad));
    terminal.print("two\nlines\tand a tab");
    terminal.progress(bad);
    expect(pieces).toEqual([
      `${seen}\n`,
      `${seen}\n`,
      `\u001b[1m${seen}\u001b[22m\n`,
      "two\nlines\tand a tab\n",
      seen,
    ]);
  });

  it("is told of a file with such a name on one line", () => {
    const place = { file: "a\u001b[2J\n.yaml", line: 1, column: 2 };
    expect(problemText({ ...place, code: "a/b", what: "wrong", remedy: "Mend it" })).toBe(
      "a<U+001B>[2J<U+000A>.yaml:1:2: wrong. Mend it",
    );
  });
});
