import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../src/contract/index.js";
import { MOST, type Problem, problemText, readCsv, readYaml } from "../../src/reading/index.js";

const LUNCH = readFileSync(new URL("../../examples/after-service/lunch.plan.json", import.meta.url), "utf8");
const COLUMNS = { required: ["item", "part"], optional: [] };

const table = (text: string) => readCsv({ file: "t", text }, COLUMNS);
const plan = (text: string) => {
  const read = readPlan({ file: "t", text }, "Plan again");
  return "problems" in read ? read.problems : [];
};

/** What is wrong with some texts, and where, as it is with line feeds. */
const FAULTS: readonly [string, string, (text: string) => readonly Problem[], readonly string[]][] = [
  [
    "a key written twice",
    "# A comment\na: 1\nb: 2\n\n  # Another\nb: 3\n",
    (text) => readYaml({ file: "t", text }).problems,
    ["t:6:1: `b` is written twice in the same place; it stands on line 3 already"],
  ],
  [
    "broken YAML",
    "a: 1\nb: c: d\n",
    (text) => readYaml({ file: "t", text }).problems,
    ["t:2:4: a second `key:` stands on the line, or under a value that is already complete"],
  ],
  [
    "rows of the wrong length",
    'item,part\n"a\nb",c\n\nd\ne,f,g\n',
    (text) => table(text).problems,
    [
      "t:5:1: the row has 1 cells and the table 2 columns",
      "t:6:1: the row has 3 cells and the table 2 columns",
    ],
  ],
  [
    "a quote that is not closed",
    'item,part\na,"b\n',
    (text) => table(text).problems,
    ["t:2:3: a quote is opened and not closed"],
  ],
  [
    "text after a quote",
    'item,part\na,b\n"c"d,e\n',
    (text) => table(text).problems,
    ["t:3:1: text follows the quote that closes a cell"],
  ],
  [
    "a table of too many lines",
    `item,part\n${"x,y\n".repeat(MOST.lines)}`,
    (text) => table(text).problems,
    ["t:50001:1: the table has more than 50000 lines"],
  ],
  ["no JSON", '{\n"a":\n x}', plan, ["t:3:2: from here on this is no JSON, and no plan"]],
];

describe.each([
  ["line feeds", "\n"],
  ["those of Windows", "\r\n"],
  ["carriage returns alone, as on old Macs", "\r"],
])("with line ends that are %s", (_, lineEnd) => {
  it.each(FAULTS)("%s stands where it does", (_name, text, problems, said) => {
    const found = problems(text.replaceAll("\n", lineEnd)).map(problemText);
    expect(found.map((each) => each.replace(/\. .*/s, ""))).toEqual(said);
  });

  it("a document says where its values stand", () => {
    const document = readYaml({ file: "t", text: "a:\n  - b: c\n  - d: e\n".replaceAll("\n", lineEnd) });
    expect(document.value).toEqual({ a: [{ b: "c" }, { d: "e" }] });
    expect(document.positionOf(["a", 1, "d"])).toEqual({ file: "t", line: 3, column: 8 });
  });

  it("a cell says where it begins, also behind line ends in quotes", () => {
    const [row] = table('item,part\n"a\nb","c"\n'.replaceAll("\n", lineEnd)).rows;
    expect([row?.position.line, row?.cell("part")]).toMatchObject([2, { text: "c" }]);
    expect(row?.cell("part").position).toEqual({ file: "t", line: 3, column: 4 });
  });

  it("each value of a plan says where it stands", () => {
    const text = LUNCH.replace('"weight": "5250"', '"weight": "-5250"');
    const line = text.split("\n").findIndex((each) => each.includes('"-5250"')) + 1;
    const problem = plan(text.replaceAll("\n", lineEnd)).find(({ what }) => what.startsWith("/purchases/0/"));
    expect(problem).toMatchObject({ line, column: 17 });
  });
});

describe("a carriage return alone among line feeds", () => {
  it("ends no line", () => {
    const { problems } = readYaml({ file: "t", text: "a: x\ry\nb: 1\nb: 2\n" });
    expect(problems.map(({ line, column }) => [line, column])).toEqual([
      [1, 5],
      [3, 1],
    ]);
  });
});
