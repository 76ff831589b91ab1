import { describe, expect, it } from "vitest";
import { importCircles, longComments, MOST_WORDS, TWIN_LINES, twins } from "../support/shape.js";
import { sourceFiles } from "../support/source-files.js";

/** What each room has still to mend, counted exactly: who mends one takes one off, and a new one fails. */
const CIRCLES_LEFT = { kitchen: 1, pages: 1, reading: 1 };
const LONG_COMMENTS_LEFT = {
  contract: 1,
  insight: 5,
  keeping: 1,
  ledger: 2,
  pages: 2,
  planning: 3,
  reading: 1,
  waste: 2,
  "weigh-in": 2,
};

/** How many of these stand in each room. */
function countByRoom(breaches: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const breach of breaches) {
    const room = breach.replace(/^src\//, "").split("/")[0] ?? "";
    counts[room] = (counts[room] ?? 0) + 1;
  }
  return counts;
}

describe("the files of src/", () => {
  const files = sourceFiles();

  it("import one another in no circle, not even for a type", () => {
    const circles = importCircles(files);
    expect(countByRoom(circles), circles.join("\n")).toEqual(CIRCLES_LEFT);
  });

  it(`have no ${TWIN_LINES} equal lines twice`, () => {
    expect(twins(files)).toEqual([]);
  });

  it(`have no comment of more than ${MOST_WORDS} words`, () => {
    const long = files.flatMap(longComments);
    expect(countByRoom(long), long.join("\n")).toEqual(LONG_COMMENTS_LEFT);
  });
});

describe("the checker of circles", () => {
  it("sees one of types, one through a third file, and one of a file with itself", () => {
    const files = [
      { file: "a/one.ts", text: 'import type { Two } from "./two.js";' },
      { file: "a/two.ts", text: 'export { three } from "../b/three.js";' },
      { file: "b/three.ts", text: 'const one = await import("../a/one.js");' },
      { file: "b/four.ts", text: 'import { one } from "../a/one.js";' },
      { file: "c/five.ts", text: 'import * as five from "./five.js";' },
    ];
    expect(importCircles(files)).toEqual(["a/one.ts <-> a/two.ts <-> b/three.ts", "c/five.ts"]);
  });
});

describe("the checker of twins", () => {
  const lines = (count: number) => Array.from({ length: count }, (_, index) => `call(${index});`);

  it("finds equal lines whatever their indent, the blank lines and the imports between them", () => {
    const one = { file: "a.ts", text: `import { x } from "./x.js";\n${lines(13).join("\n")}\n` };
    const other = { file: "b.ts", text: `first();\n${lines(13).join("\n\n    ")}\nlast();\n` };
    expect(twins([one, other])).toEqual(["src/a.ts:2 and src/b.ts:2: 13 lines"]);
  });

  it("finds them in one file", () => {
    const text = [...lines(12), "between();", ...lines(12)].join("\n");
    expect(twins([{ file: "a.ts", text }])).toEqual(["src/a.ts:1 and src/a.ts:14: 12 lines"]);
  });

  it("lets eleven pass, and imports", () => {
    const imports = `import {\n${lines(20).join("\n").replace(/\W+/g, ",\n")}\n} from "./x.js";`;
    const files = ["a.ts", "b.ts"].map((file) => ({
      file,
      text: `${imports}\n${lines(11).join("\n")}\n${file}`,
    }));
    expect(twins(files)).toEqual([]);
  });
});

describe("the checker of comments", () => {
  const words = (count: number) => Array.from({ length: count }, () => "word").join(" ");
  const long = (text: string) => longComments({ file: "a.ts", text });

  it("counts the words of a block, and of lines that follow one another", () => {
    expect(long(`const a = 1;\n/** ${words(55)} */\n`)).toEqual([]);
    expect(long(`const a = 1;\n/**\n * ${words(30)}\n * ${words(26)}\n */\n`)).toEqual([
      "src/a.ts:2 has a comment of 56 words",
    ]);
    expect(long(`  // ${words(30)}\n  // ${words(26)}\n`)).toEqual(["src/a.ts:1 has a comment of 56 words"]);
    expect(long(`// ${words(30)}\ncode();\n// ${words(26)}\n`)).toEqual([]);
  });

  it("counts no text that is printed", () => {
    expect(long(`const a = "${words(60)}";\n`)).toEqual([]);
  });
});
