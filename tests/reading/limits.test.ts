import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { checkCommand } from "../../src/commands/scenario-file.js";
import { EXIT } from "../../src/commands/terminal.js";
import { wasteCommand } from "../../src/commands/waste.js";
import { recordCommand } from "../../src/commands/yield.js";
import {
  loadKitchenYields,
  loadScenario,
  loadScenarioText,
  loadTestCard,
} from "../../src/kitchen-files/index.js";
import { problemText, readCsv, readYaml } from "../../src/reading/index.js";
import { changeFile, yieldTestsFile } from "../../src/records/index.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";

const folder = scratchFolder({ "bake.yaml": marrowBake() });
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);

const BYTES = 2_000_000;
const large = (name: string, size = BYTES + 1): string => {
  writeFileSync(at(name), "# ".padEnd(size, "x"));
  return at(name);
};
const tooLarge = (file: string, size = BYTES + 1, most = BYTES) =>
  `${file}:1:1: the file has ${size} bytes, and at most ${most} are read. Name the file that is meant, or take out of it what does not belong here`;

describe("a file larger than is read", () => {
  it("is told with its size as a scenario, a card or a table, and nothing of it is read", async () => {
    const file = large("large.yaml");
    expect((await loadScenario(file)).problems.map(problemText)).toEqual([tooLarge(file)]);
    expect((await loadTestCard(file)).problems.map(problemText)).toEqual([tooLarge(file)]);
    const { terminal, complained } = aTerminal();
    expect(await recordCommand(file, { kitchen: folder.path }, terminal)).toBe(EXIT.wrongInput);
    expect(complained).toEqual([tooLarge(file)]);
  });

  it("is told as a plan, of which more is read, as the program writes it itself", async () => {
    const file = large("plan.json", 50_000_001);
    const { terminal, complained } = aTerminal();
    expect(await wasteCommand([file], { count: "eu", seconds: 1 }, terminal)).toBe(EXIT.wrongInput);
    expect(complained).toEqual([tooLarge(file, 50_000_001, 50_000_000)]);
  });

  it("is told as the kitchen's own yield tests, which are then not written over", async () => {
    const file = large("yield-tests.csv");
    expect(file).toBe(yieldTestsFile(folder.path));
    expect((await loadKitchenYields(folder.path)).problems.map(problemText)).toEqual([tooLarge(file)]);
    await expect(changeFile(file, () => "new")).rejects.toThrow("the file has 2000001 bytes");
    rmSync(file);
  });

  it("is read up to the limit", async () => {
    const file = at("edge.yaml");
    writeFileSync(file, `${marrowBake()}#`.padEnd(BYTES, "x"));
    expect((await loadScenario(file)).problems).toEqual([]);
  });
});

describe("problems without number", () => {
  it("are shown up to a hundred, and the rest counted", async () => {
    writeFileSync(
      at("many.yaml"),
      marrowBake() + "x: 1\n".repeat(1).concat(...Array.from({ length: 149 }, (_, i) => `y${i}: 1\n`)),
    );
    const { terminal, complained } = aTerminal();
    expect(await checkCommand(at("many.yaml"), terminal)).toBe(EXIT.wrongInput);
    expect(complained.length).toBe(101);
    expect(complained.at(-1)).toBe("and 50 more; put these right first");
  });
});

describe("what is written beyond all measure", () => {
  const problems = (text: string) => loadScenarioText("t.yaml", text).problems.map(problemText);

  it("is a name, a text or a figure of too many letters, told by its beginning", () => {
    const long = (count: number) => "ab".repeat(count / 2);
    const text = marrowBake()
      .replace("marrow bake:", `${long(122)}:`)
      .replace("  cream", `  ${long(120)}`)
      .replace("portions: 8", `portions: 8\n    method: ${long(4002)}`)
      .replace("ceiling: 1.00", `ceiling: ${"1".repeat(502)}`);
    const start = `${long(60)}…`;
    expect(problems(text)).toEqual([`t.yaml:16:3: the name \`${start}\` has 122 letters. Write at most 120`]);
    expect(problems(text.replace(long(122), "bake"))).toEqual([
      `t.yaml:18:13: \`${start}\` has 4002 letters. Write at most 4000`,
      `t.yaml:19:14: \`${"1".repeat(60)}…\` has 502 letters. Write at most 500`,
    ]);
  });

  it("is lists inside lists, and anchors inside anchors", () => {
    const deep =
      "this stands inside more than 30 lists and maps. Write it with fewer brackets and levels, and no anchor inside an anchor inside another";
    expect(problems(`${marrowBake()}x: ${"[".repeat(100_000)}`)).toEqual([`t.yaml:22:34: ${deep}`]);
    const nested = Array.from({ length: 1000 }, (_, level) => `${" ".repeat(level)}- `);
    expect(problems(`x:\n${nested.join("\n")}`)[0]).toContain(deep);
    const chain = Array.from({ length: 40 }, (_, index) => `x${index}: &a${index + 1} [*a${index}]`);
    expect(problems(["y: &a0 [b]", ...chain].join("\n"))).toEqual([`t.yaml:1:9: ${deep}`]);
  });

  it("is a thousand and one dishes", () => {
    const dishes = Array.from({ length: 1000 }, (_, index) => `  d${index}: {portions: 1}\n`).join("");
    expect(problems(marrowBake() + dishes).at(-1)).toBe(
      "t.yaml:1021:3: `dishes` has 1001 entries. Write at most 1000: plan what belongs to other weeks or kitchens in a file of its own",
    );
  });

  it("is a table of too many lines or columns", () => {
    const told = (text: string) =>
      readCsv({ file: "t.csv", text }, { required: ["a", "b"], optional: [] }).problems.map(problemText);
    expect(told(`a,b\n${"x,y\n".repeat(50_000)}`)).toEqual([
      "t.csv:50001:1: the table has more than 50000 lines. Take out what does not belong here",
    ]);
    expect(told(`a,b\n${"x,y\n".repeat(49_999)}`)).toEqual([]);
    expect(told(`a,b${",c".repeat(99)}\n`)).toEqual([
      "t.csv:1:1: the table has 101 columns, and at most 100 are read. Columns: a, b",
    ]);
  });

  it("is a text at hand that no file could hold", () => {
    const { value, problems: found } = readYaml({ file: "t.yaml", text: `a: ${"b".repeat(BYTES)}` });
    expect(value).toBeUndefined();
    expect(found.map(problemText)).toEqual([tooLarge("t.yaml", BYTES + 3)]);
  });
});
