import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { recordCommand } from "../../src/commands/yield.js";
import { loadKitchenYields } from "../../src/kitchen-files/index.js";
import { crownTests } from "../support/own-tests.js";
import { run } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";

let scratch: ReturnType<typeof scratchFolder>;
beforeEach(() => {
  scratch = scratchFolder();
});
afterEach(() => scratch.remove());

async function recorded(text: string) {
  const file = join(scratch.path, "monday.csv");
  writeFileSync(file, text);
  const { terminal, printed, complained } = aTerminal();
  const code = await recordCommand(file, { kitchen: scratch.path }, terminal);
  return { code, printed, complained, file };
}
const kept = () => readFileSync(join(scratch.path, "yield-tests.csv"), "utf8");

describe("record", () => {
  it("adds the tests of a file to the kitchen's own, and keeps what is there", async () => {
    const first = await recorded(crownTests([1, 2]));
    expect(first).toMatchObject({ code: 0, complained: [] });
    expect(first.printed).toEqual([
      `Recorded 2 yield tests in ${join(scratch.path, "yield-tests.csv")}`,
      "  broccoli (crown), florets: Field & Co, 2026-10-12, test 1, 1600 g",
      "  broccoli (crown), florets: Field & Co, 2026-10-12, test 2, 1600 g",
    ]);
    expect(kept()).toBe(crownTests([1, 2]));
    await recorded(crownTests([3]));
    expect(kept()).toBe(crownTests([1, 2, 3]));
  });

  it("numbers a test on where that day has one of its number, and refuses the same one twice", async () => {
    await recorded(crownTests([1]));
    const other = crownTests([1]).replace("floret,1001", "floret,1011").replace("stem,460", "stem,450");
    const { code, printed } = await recorded(other);
    expect(code).toBe(0);
    expect(printed[1]).toBe("  broccoli (crown), florets: Field & Co, 2026-10-12, test 2, 1600 g");
    const before = kept();
    const again = await recorded(other);
    expect(again).toMatchObject({ code: 2, printed: [] });
    expect(again.complained).toEqual([
      `${again.file}:2:1: this test of broccoli (crown), florets of 2026-10-12 is recorded already, to the gram. It counts already; a second weighing that came out alike goes in a file, with the next number in the column test`,
    ]);
    expect(kept()).toBe(before);
    expect((await recorded(other.replaceAll("2026-10-12,1,", "2026-10-12,7,"))).code).toBe(0);
  });

  it("records nothing where one test does not close or disagrees with the tables, and shows the missing grams", async () => {
    const text = `${crownTests([1])}${crownTests([2]).split("\n").slice(1).join("\n")}`
      .replace("floret,1002", "floret,902")
      .replace("trim,100,inedible", "trim,100,food");
    const { code, complained, file } = await recorded(text);
    expect(code).toBe(2);
    expect(complained).toEqual([
      `${file}:4:66: broccoli trim is food here and inedible in the yield tables. Write inedible: a weighing does not change what a part is fit for`,
      `${file}:6:50: broccoli (crown), florets: 100 g missing, for the parts and the loss weigh 1500 g of 1600 g. Weigh again, or state what was lost in a row of class loss: 5 weighings to 1 g explain 2.5 g and no more`,
    ]);
    expect(existsSync(join(scratch.path, "yield-tests.csv"))).toBe(false);
  });

  it("adds nothing to a file that has problems of its own", async () => {
    const own = crownTests([1]).replace("stem,460", "stem,560");
    writeFileSync(join(scratch.path, "yield-tests.csv"), own);
    const { code, complained } = await recorded(crownTests([2]));
    expect(code).toBe(2);
    expect(complained.join()).toMatch(/yield-tests\.csv:2:50: .* 100 g too much/);
    expect(kept()).toBe(own);
  });

  it("says so where the kitchen's folder is missing", async () => {
    const file = join(scratch.path, "monday.csv");
    writeFileSync(file, crownTests([1]));
    const { terminal, complained } = aTerminal();
    expect(await recordCommand(file, { kitchen: join(scratch.path, "no") }, terminal)).toBe(2);
    expect(complained.join()).toContain("Make the folder first, or name one that is there");
  });
});

describe("a blank test", () => {
  it("is printed with every part, and is read once filled in, for each breakdown of four items", async () => {
    const { published } = await loadKitchenYields(scratch.path);
    const { terminal, printed } = aTerminal();
    for (const item of published.items.filter(({ name }) =>
      ["broccoli", "chicken", "egg", "leek"].includes(name),
    ))
      for (const { name: breakdown } of item.breakdowns)
        await recordCommand(
          undefined,
          { kitchen: scratch.path, blank: `${item.name}, ${item.form}`, breakdown },
          terminal,
        );
    expect(printed.length).toBeGreaterThan(10);
    for (const blank of printed) {
      const rows = blank
        .split("\n")
        .slice(1)
        .map((row) => row.split(","));
      expect(rows.length).toBeGreaterThan(1);
      const perPart = String(100 * rows.length);
      // Every part and the loss weigh 100 g in this invented test.
      const filled = blank.replace(/,(,)(?=(food|inedible|never|loss)$)/gm, ",100,");
      const text = filled.replaceAll(/,,,1,(1?),,1,/g, `,Field & Co,2026-10-12,1,1,${perPart},1,`);
      const { code, complained } = await recorded(`${text}\n`);
      expect(complained).toEqual([]);
      expect(code).toBe(0);
    }
  });

  it("asks for the form and the breakdown where there are several", async () => {
    const { terminal, complained } = aTerminal();
    const blank = async (item: string, breakdown?: string) =>
      recordCommand(
        undefined,
        { kitchen: ".", blank: item, ...(breakdown === undefined ? {} : { breakdown }) },
        terminal,
      );
    expect([
      await blank("broccoli"),
      await blank("brocoli"),
      await blank("broccoli, crown", "floret"),
    ]).toEqual([2, 2, 2]);
    expect(complained[0]).toMatch(
      /^broccoli is bought in several forms\. Write one of: "broccoli, untrimmed head", /,
    );
    expect(complained[1]).toContain('Did you mean "broccoli"');
    expect(complained[2]).toBe('broccoli (crown) has no breakdown "floret". Did you mean "florets"?');
  });

  it("comes from the program", async () => {
    const { code, stdout } = await run("record", "--blank", "broccoli, crown", "--breakdown", "florets");
    expect(code).toBe(0);
    expect(stdout).toBe(
      [
        "item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class",
        "broccoli,crown,florets,,,1,,,1,floret,,food",
        "broccoli,crown,florets,,,1,,,1,stem,,food",
        "broccoli,crown,florets,,,1,,,1,trim,,inedible",
        "broccoli,crown,florets,,,1,,,1,loss,,loss",
        "",
      ].join("\n"),
    );
    expect((await run("record")).code).toBe(2);
  });
});
