import { describe, expect, it } from "vitest";
import { sourceFiles } from "../support/source-files.js";

const MOST_LINES = 350;

/** What a file breaks of the rules on length and on the sentence at the top of a room. */
function brokenRules({ file, text }: { file: string; text: string }): string[] {
  const problems: string[] = [];
  const lines = text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
  if (lines > MOST_LINES) problems.push(`src/${file} has ${lines} lines, more than ${MOST_LINES}`);
  if (/^[^/]+\/index\.ts$/.test(file) && !/^\/\*\* [A-Z](?:(?!\*\/|[.!?] ).)*[.!?] \*\/\n/.test(text))
    problems.push(`src/${file} does not begin with a doc comment of one sentence`);
  return problems;
}

/** Rooms whose folder holds files but no index.ts. */
function roomsWithoutDoor(files: readonly string[]): string[] {
  const rooms = new Set(files.filter((file) => file.includes("/")).map((file) => file.split("/")[0] ?? ""));
  return [...rooms].filter((room) => !files.includes(`${room}/index.ts`));
}

describe("every file of src/", () => {
  const files = sourceFiles();

  it(`has at most ${MOST_LINES} lines, and every room's index.ts says in one sentence what the room holds`, () => {
    expect(files.flatMap(brokenRules)).toEqual([]);
  });

  it("is in a room with a front door", () => {
    expect(roomsWithoutDoor(files.map(({ file }) => file))).toEqual([]);
  });
});

describe("the checker of rules", () => {
  const sentence = "/** Weights and money. */\n";

  it("counts lines", () => {
    const long = (count: number) => ({ file: "a/b.ts", text: "x\n".repeat(count) });
    expect(brokenRules(long(350))).toEqual([]);
    expect(brokenRules(long(351))).toEqual(["src/a/b.ts has 351 lines, more than 350"]);
  });

  it("wants one sentence at the top of a room", () => {
    const broken = ["src/a/index.ts does not begin with a doc comment of one sentence"];
    const index = (text: string) => brokenRules({ file: "a/index.ts", text });
    expect(index(`${sentence}export * from "./b.js";\n`)).toEqual([]);
    expect(index('export * from "./b.js";\n')).toEqual(broken);
    expect(index("/** Weights. Money. */\n")).toEqual(broken);
    expect(index("/** weights and money */\n")).toEqual(broken);
    expect(index(`import "./b.js";\n${sentence}`)).toEqual(broken);
    expect(brokenRules({ file: "a/b/index.ts", text: "" })).toEqual([]);
  });

  it("misses a front door", () => {
    expect(roomsWithoutDoor(["plan.ts", "a/index.ts", "a/b.ts", "c/d.ts"])).toEqual(["c"]);
  });
});
