import { describe, expect, it } from "vitest";
import { z } from "zod";
import { keyed, problemText, readBySchema, readYaml, scalar } from "../../src/reading/index.js";

const number = scalar(
  (text) =>
    /^\d+$/.test(text) ? Number(text) : { what: `\`${text}\` is no number`, remedy: "Write digits" },
  "Write digits",
);
const size = keyed({ width: number, depth: number.optional() }, "Write `width: 5`");
const schema = keyed(
  {
    name: scalar((text) => text, "Write a name"),
    shelves: z.array(size, { error: () => "Write a list" }).optional(),
    boxes: z.record(z.string(), z.union([number, size]), { error: () => "Write boxes" }).optional(),
  },
  "Write keys",
);

function read(...lines: string[]) {
  const document = readYaml({ file: "s.yaml", text: `${lines.join("\n")}\n` });
  return readBySchema(schema, document, { emptyRemedy: "Begin with `name:`", standIns: { name: "none" } });
}

describe("reading by a schema", () => {
  it("gives the value, and the place of everything in it", () => {
    const { value, problems, positionOf, isLeftOut } = read("name: a", "boxes: {one: 1, two: {width: 2}}");
    expect(problems).toEqual([]);
    expect(value).toEqual({ name: "a", boxes: { one: 1, two: { width: 2 } } });
    expect(positionOf(["boxes", "two", "width"])).toEqual({ file: "s.yaml", line: 2, column: 30 });
    expect(isLeftOut([])).toBe(false);
  });

  it("reports everything at once, in file order, and keeps the rest", () => {
    const { value, problems } = read(
      "nmae: a",
      "shelves:",
      "  - {width: x}",
      "  - {width: 1, depht: 2}",
      "  - {depth: 3}",
      "  - {width: 4}",
      "boxes:",
      "  one: []",
      "  two: {width: y, depth: z}",
      "  three: 3",
      "  four:",
    );
    expect(problems.map(problemText)).toEqual([
      "s.yaml:1:1: `name` is missing. Write a name",
      "s.yaml:1:1: `nmae` is no key that is known here. Did you mean `name`?",
      "s.yaml:3:13: `x` is no number. Write digits",
      "s.yaml:4:16: `depht` is no key that is known here. Did you mean `depth`?",
      "s.yaml:5:5: `width` is missing. Write digits",
      "s.yaml:8:8: a list stands where something else belongs. Write digits",
      "s.yaml:9:16: `y` is no number. Write digits",
      "s.yaml:9:26: `z` is no number. Write digits",
      "s.yaml:11:3: nothing is written here. Write digits",
    ]);
    expect(value).toEqual({ name: "none", shelves: [{ width: 1 }, { width: 4 }], boxes: { three: 3 } });
  });

  it("finds places by the value kept, whose lists are shorter than those written", () => {
    const { value, positionOf, isLeftOut } = read(
      "name: a",
      "shelves:",
      "  - {width: x}",
      "  - {width: 1}",
      "  - {depth: 2}",
      "  - {width: 7, depth: y}",
    );
    expect(value?.shelves).toEqual([{ width: 1 }, { width: 7 }]);
    expect(positionOf(["shelves", 0, "width"]).line).toBe(4);
    expect(positionOf(["shelves", 1, "width"]).line).toBe(6);
    expect(isLeftOut(["shelves", 1, "depth"])).toBe(true);
    expect(isLeftOut(["shelves", 0])).toBe(false);
    expect(isLeftOut(["shelves"])).toBe(true);
    expect(isLeftOut(["boxes"])).toBe(false);
  });

  it("gives no value for a text, a list, nothing, or broken syntax, and says so", () => {
    const of = (...lines: string[]) => {
      const { value, problems } = read(...lines);
      expect(value).toBeNull();
      return problems.map(problemText);
    };
    expect(of("just words")).toEqual([
      "s.yaml:1:1: `just words` stands where something else belongs. Write keys",
    ]);
    expect(of("- a")).toEqual(["s.yaml:1:1: a list stands where something else belongs. Write keys"]);
    expect(of("# nothing")).toEqual(["s.yaml:1:1: the file holds nothing. Begin with `name:`"]);
    expect(of("name: @")).toHaveLength(1);
  });
});
