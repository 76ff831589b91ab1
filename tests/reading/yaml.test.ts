import { describe, expect, it } from "vitest";
import { problemText, readYaml } from "../../src/reading/index.js";

const read = (...lines: string[]) => readYaml({ file: "a.yaml", text: `${lines.join("\n")}\n` });
const problemsOf = (...lines: string[]) => read(...lines).problems.map(problemText);

describe("a YAML value", () => {
  it("keeps every scalar as it was written", () => {
    const { value } = read(
      "a: 1.350",
      "b: 0x1F",
      "c: yes",
      "d: 2026-10-02",
      "e: ~",
      "f: '5'",
      "g:",
      "h: 1e3",
    );
    expect(value).toEqual({
      a: "1.350",
      b: "0x1F",
      c: "yes",
      d: "2026-10-02",
      e: "~",
      f: "5",
      g: "",
      h: "1e3",
    });
  });

  it("keeps maps in the order written, and lists", () => {
    const { value } = read("b: [1, 2]", "a: {y: 1, x: 2}");
    expect(value).toEqual({ b: ["1", "2"], a: { y: "1", x: "2" } });
    expect(Object.keys(value ?? {})).toEqual(["b", "a"]);
  });

  it("is undefined where nothing but comments is written", () => {
    expect(read("# only a comment")).toMatchObject({ value: undefined, problems: [] });
  });

  it("follows anchors, and knows where both stand", () => {
    const document = read("first: &box {x: 1}", "second: *box", "third:", "  - *box");
    expect(document.problems).toEqual([]);
    expect(document.value).toEqual({ first: { x: "1" }, second: { x: "1" }, third: [{ x: "1" }] });
    expect(document.positionOf(["second"])).toEqual({ file: "a.yaml", line: 2, column: 9 });
    expect(document.positionOf(["second", "x"])).toEqual({ file: "a.yaml", line: 1, column: 17 });
    expect(document.keyPositionOf(["third", 0, "x"])).toEqual({ file: "a.yaml", line: 1, column: 14 });
  });
});

describe("a position in YAML", () => {
  const document = read(
    "items:",
    "  marrow:",
    "    price: 1.35 / head",
    "    list: [a, {b: c}]",
    "    empty:",
  );

  it.each([
    [["items"], { line: 2, column: 3 }, { line: 1, column: 1 }],
    [["items", "marrow", "price"], { line: 3, column: 12 }, { line: 3, column: 5 }],
    [["items", "marrow", "list", 1, "b"], { line: 4, column: 19 }, { line: 4, column: 16 }],
    [["items", "marrow", "list", 0], { line: 4, column: 12 }, { line: 4, column: 12 }],
  ])("is that of the value, or of the key, at %j", (path, value, key) => {
    expect(document.positionOf(path)).toEqual({ file: "a.yaml", ...value });
    expect(document.keyPositionOf(path)).toEqual({ file: "a.yaml", ...key });
  });

  it("is that of the key where the value is empty, and of what is around where there is nothing", () => {
    expect(document.positionOf(["items", "marrow", "empty"])).toMatchObject({ line: 5, column: 5 });
    expect(document.positionOf(["items", "marrow", "absent", "deep"])).toMatchObject({ line: 3, column: 5 });
    expect(document.positionOf(["items", "marrow", "list", 7])).toMatchObject({ line: 4, column: 11 });
    expect(document.keyPositionOf([])).toMatchObject({ line: 1, column: 1 });
  });
});

describe("broken YAML", () => {
  it.each([
    [
      ["a: b: c"],
      "a.yaml:1:4: a second `key:` stands on the line, or under a value that is already complete. Put each key on a line of its own, and quotes around a text that holds `: `",
    ],
    [["a:", "\tb: 1"], "a.yaml:2:1: the line is indented with a tab. Indent with spaces, two for each level"],
    [
      ["a: 'x"],
      "a.yaml:2:1: a quote or bracket is opened and not closed. Close it, or leave the opening one out",
    ],
    [
      ["a: @x"],
      "a.yaml:1:4: a value begins with a character that YAML keeps for itself. Put quotes around the value",
    ],
    [
      ["- a", "b: 1"],
      "a.yaml:2:1: the text cannot follow what stands before it. Indent lines that belong together alike, and write either `key: value` lines or `- ` lines",
    ],
    [["a: 1", "---", "b: 2"], "a.yaml:2:1: a second document begins at `---`. Keep one scenario a file"],
    [
      ["a: !who 1"],
      "a.yaml:1:4: a value begins with `!`, which YAML keeps for tags. Leave the tag out, or put quotes around the text",
    ],
  ])("is named in plain words: %j", (lines, problem) => {
    expect(problemsOf(...lines)).toEqual([problem]);
    expect(read(...lines).value).toBeUndefined();
  });

  it("has one problem for each line that is broken by itself", () => {
    expect(problemsOf("a: @x", "b: 1", "c: `y`").map((text) => text.split(":")[1])).toEqual(["1", "3"]);
  });
});

describe("a tab that indents", () => {
  it("is all that is said, once a line, also where the lines below no longer nest", () => {
    const lines = ["a:", "  b:", "\t c: 1", "\td: 2", " e: 3"];
    expect(problemsOf(...lines).map((text) => text.replace(/\. .*/, ""))).toEqual([
      "a.yaml:3:1: the line is indented with a tab",
      "a.yaml:4:1: the line is indented with a tab",
    ]);
  });
});

describe("a key written twice", () => {
  it("is a problem that names the first line, and the first value counts", () => {
    const document = read("parts:", "  ring: 480 g", "  peel: 20 g", "  ring: 500 g");
    expect(document.problems.map(problemText)).toEqual([
      "a.yaml:4:3: `ring` is written twice in the same place; it stands on line 2 already. Keep one of them, or give them different names",
    ]);
    expect(document.value).toEqual({ parts: { ring: "480 g", peel: "20 g" } });
    expect(document.positionOf(["parts", "ring"])).toMatchObject({ line: 2 });
  });
});

describe("what YAML allows and is not read", () => {
  it("is a problem, and the rest is read", () => {
    const document = read("<<: {a: 1}", "? [x]", ": 1", "__proto__: {b: 1}", "c: 1");
    expect(document.problems.map(problemText)).toEqual([
      "a.yaml:1:1: `<<` is not read here. Write the keys out, or refer to the whole value with an anchor",
      "a.yaml:2:3: a list or a map stands where a name belongs. Write a name, a colon and a space, such as `main: 100 %`",
      "a.yaml:4:1: `__proto__` cannot be used as a name. Write a name, a colon and a space, such as `main: 100 %`",
    ]);
    expect(document.value).toEqual({ c: "1" });
  });

  it("is an anchor that is not there, or that holds itself", () => {
    expect(problemsOf("a: *nope", "b: &b", "  - *b")).toEqual([
      "a.yaml:1:4: `*nope` refers to no anchor above it. Mark the value that is meant with `&nope`",
      "a.yaml:3:5: `*b` stands inside the value that it refers to. Write the value out",
    ]);
  });

  it("is a text whose anchors swell beyond all measure", () => {
    const lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"];
    for (let level = 1; level <= 8; level += 1) {
      const many = Array.from({ length: 10 }, () => `*a${level - 1}`).join(", ");
      lines.push(`a${level}: &a${level} [${many}]`);
    }
    expect(problemsOf(...lines).map((text) => text.replace(/^a\.yaml:\d+:\d+: /, ""))).toEqual([
      "here the text comes to more than 100000 values, what anchors stand for counted each time. Take out what does not belong here, and write out what is meant by anchors inside anchors",
    ]);
  });
});
