import { describe, expect, it } from "vitest";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { MOST, problemText, readCsv } from "../../src/reading/index.js";

/** Each is to be answered in so long; held to where the long run is asked for, on a machine with little else to do. */
const MOST_MS = 2_000;
const IS_TIMED = process.env.FUZZ_RUNS !== undefined;

/** As often as it fits into a file that is read, or no more than so often. */
function filled(head: string, unit: string, { most = Number.POSITIVE_INFINITY, end = "" } = {}): string {
  const count = Math.min(most, Math.floor((MOST.bytes - head.length - end.length) / unit.length));
  return head + unit.repeat(count) + end;
}

const numbered = (head: string, one: (index: number) => string, count: number) =>
  head + Array.from({ length: count }, (_, index) => one(index)).join("");

const DEEP = "this stands inside more than 30 lists and maps";
const MARKS = `from here on the text has more than ${MOST.marks} words and marks`;
const LINES = "100001:1: the text has more than 100000 lines";
const MISPLACED = "the text cannot follow what stands before it";

/** What an enemy writes into as much as is read, and the first that is said of it. */
const FILES: Readonly<Record<string, readonly [string, string]>> = {
  "brackets that open": [filled("x: ", "["), `1:34: ${DEEP}`],
  "braces that open": [filled("x: ", "{a: "), `1:124: ${DEEP}`],
  "lists on one line": [filled("x:\n  ", "- "), `2:63: ${DEEP}`],
  "keys inside keys": [filled("", "? "), `1:63: ${DEEP}`],
  "brackets that close": [filled("x: ", "]"), `1:4: ${MISPLACED}`],
  "a list of letters": [filled("x: [", "a,", { end: "]" }), `1:120002: ${MARKS}`],
  "a list of nothing": [filled("x: [", ",", { most: 119_990, end: "]" }), `1:6: ${MISPLACED}`],
  "a list of lists": [filled("x: [", "[],", { end: "]" }), `1:120002: ${MARKS}`],
  "a list of questions": [filled("x: [", "? ", { most: 119_990, end: "]" }), `1:7: ${MISPLACED}`],
  "keys of a map": [numbered("", (index) => `k${index}: v\n`, 39_990), "1:1: `scenario` is missing"],
  "anchors on one value": [
    filled("x: ", "&a ", { most: 119_990 }),
    "1:7: a node can have at most one anchor",
  ],
  "references to one anchor": [filled("x: [&a b", ", *a", { end: "]" }), `1:239999: ${MARKS}`],
  "quotes that are not closed": [
    filled("", 'x: "\n', { most: 39_990 }),
    "1:5: a quote or bracket is opened and not closed",
  ],
  "escapes that are none": [
    filled('x: "', "\\q", { end: '"' }),
    "1:4: from here on the text has more than 1000 broken escapes",
  ],
  "letters by number that are none": [
    filled('x: "', "\\uZZZZ", { end: '"' }),
    "1:4: from here on the text has more than 1000 broken escapes",
  ],
  "escapes that are some": [filled('x: "', "\\n", { end: '"' }), "1:1: `scenario` is missing"],
  "lines that tabs indent": [
    filled("x:\n", "\tx: y\n", { most: 39_990 }),
    "2:1: the line is indented with a tab",
  ],
  "empty lines": [filled("x: 1\n", "\n"), LINES],
  comments: [filled("x: 1\n", "#\n"), LINES],
  documents: [filled("", "--- a\n", { most: 55_000 }), "2:1: a second document begins at `---`"],
  directives: [
    filled("", "%a b\n", { most: 99_000 }),
    "1001:1: from here on the text has more than 1000 directives",
  ],
  "one text over lines": [filled("x: a\n", "  b\n", { most: 99_000 }), "1:1: `scenario` is missing"],
  "marks on one letter": [filled("x: e", "\u0301\u0327"), "1:1: `scenario` is missing"],
};

/** Works, and gives what it took of this process's own time where that is held to anything. */
function timed<T>(work: () => T): T {
  const began = process.cpuUsage();
  const done = work();
  const { user, system } = process.cpuUsage(began);
  if (IS_TIMED) expect((user + system) / 1000).toBeLessThan(MOST_MS);
  return done;
}

describe("a file as large as is read is refused in its place, soon, where it holds nothing but", () => {
  it.each(Object.keys(FILES))("%s", (name) => {
    const [text = "", said = ""] = FILES[name] ?? [];
    expect(text.length).toBeLessThanOrEqual(MOST.bytes);
    const { scenario, problems } = timed(() => loadScenarioText("t", text));
    expect(scenario).toBeNull();
    expect(problems[0] && problemText(problems[0])).toContain(`t:${said}`);
  });

  it("marks on one letter of a cell", () => {
    const text = filled("item,part\nx,e", "\u0301\u0327");
    const { problems } = timed(() =>
      readCsv({ file: "t", text }, { required: ["item", "part"], optional: [] }),
    );
    expect(problems.map(({ line, column }) => [line, column])).toEqual([[2, 3]]);
  });
});
