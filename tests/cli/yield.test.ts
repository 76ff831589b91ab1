import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { mean, sampleStandardDeviation } from "simple-statistics";
import { afterEach, describe, expect, it } from "vitest";
import { yieldCommand } from "../../src/commands/yield.js";
import { kitchenYields } from "../../src/kitchen-files/index.js";
import { itemToPrint } from "../../src/pages/index.js";
import { crownTests } from "../support/own-tests.js";
import { scratchFolder } from "../support/scenarios.js";
import { aTerminal } from "../support/terminal.js";

const folders: { remove(): void }[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

async function shown(item: string, { tests = "", columns = 80 } = {}) {
  const scratch = scratchFolder(tests === "" ? {} : { "yield-tests.csv": tests });
  folders.push(scratch);
  const { terminal, printed, complained } = aTerminal(columns);
  const code = await yieldCommand(item, { kitchen: scratch.path }, terminal);
  return { code, printed, complained };
}

describe("yield", () => {
  it.each(["broccoli", "chicken", "egg", "salmon", "leek"])(
    "fits %s on 80 columns and on 120",
    async (item) => {
      for (const columns of [80, 120]) {
        const { code, printed } = await shown(item, { columns });
        expect(code).toBe(0);
        expect(printed.length).toBeGreaterThan(20);
        expect(printed.filter((line) => line.length > columns)).toEqual([]);
      }
    },
  );

  it("adds up to what is printed as all, in percent and in grams, for each breakdown", async () => {
    const { printed } = await shown("chicken");
    const tables = printed
      .join("\n")
      .split(/\n {4}part .*\n/)
      .slice(1);
    expect(tables.length).toBeGreaterThan(5);
    for (const table of tables) {
      const rows = [...table.matchAll(/^ {4}\S.*? +(\d+\.\d) +([\d,]+)(?: |$)/gm)].map(
        ([line, percent, grams]) => ({
          isAll: line.startsWith("    all "),
          percent: Math.round(Number(percent) * 10),
          grams: Number(grams?.replace(",", "")),
        }),
      );
      const end = rows.findIndex(({ isAll }) => isAll);
      const parts = rows.slice(0, end);
      expect(parts.length).toBeGreaterThan(1);
      expect(parts.reduce((sum, { percent }) => sum + percent, 0)).toBe(1000);
      expect(rows[end]?.percent).toBe(1000);
      expect(parts.reduce((sum, { grams }) => sum + grams, 0)).toBe(rows[end]?.grams);
    }
  });

  it("shows own tests beside the published figures, their error as a statistics package has it", async () => {
    const numbers = [1, 4, 9, 2, 5];
    const { printed } = await shown("broccoli, crown", { tests: crownTests(numbers) });
    const text = printed.join("\n");
    const florets = numbers.map((number) => (1000 + number) / 16);
    const own = mean(florets).toFixed(1);
    const error = (sampleStandardDeviation(florets) / Math.sqrt(5)).toFixed(1);
    const row = /^ {4}floret +78\.0 +(\S+) +(\S+) +(\S+) +(\d+) %$/m.exec(text);
    expect([row?.[1], row?.[2]]).toEqual([own, error]);
    expect(Number(row?.[3]) > Number(own) && Number(row?.[3]) < 78).toBe(true);
    expect(text).toContain("Beside the published figures: 5 own tests of 20 crowns, 8,000 g, 12 Oct 2026");
    expect(text.replace(/\s+/g, " ")).toMatch(
      /Unit weight: published 320 g; 400 g ± 0\.0 g by 5 own tests of 20 crowns; together/,
    );
    expect(text).toContain("No test lies far from the others.");
    expect(text).toContain("Suppliers and months are compared from 3 tests on each side.");
    const used = /^ {4}floret +food +(\S+) /m.exec(text);
    expect(used?.[1]).toBe(row?.[3]);
    expect((await shown("broccoli, crown")).printed.join("\n")).not.toContain("own test");
  });

  it("flags a test far from the others, and a supplier that drifts, in words", async () => {
    const far = crownTests([1, 2, 3, 4, 5, 6])
      .replace("floret,1006", "floret,806")
      .replace("2026-10-12,6,4,1600,1,stem,460", "2026-10-12,6,4,1600,1,stem,660");
    const flagged = (await shown("broccoli, crown", { tests: far })).printed.join(" ").replace(/\s+/g, " ");
    expect(flagged).toContain("Far off: Field & Co, 12 Oct 2026, test 6: floret 50.4 % (all tests 60.");
    expect(flagged).toContain("a modified z-score beyond 3.5");
    const [heading = "", ...hill] = crownTests([1, 2, 3]).trimEnd().split("\n");
    const drifting = hill
      .map((row) =>
        row
          .replace("Field & Co", "Hill Farm")
          .replace(/floret,(1\d+)/, (_, grams) => `floret,${Number(grams) - 90}`)
          .replace("stem,460", "stem,550"),
      )
      .join("\n");
    const { printed } = await shown("broccoli, crown", {
      tests: `${heading}\n${hill.join("\n")}\n${drifting}\n`,
    });
    expect(printed.join(" ").replace(/\s+/g, " ")).toContain(
      "Drift: Field & Co gives 5.6 points more floret, 5.6 points less stem than the others (3 tests against 3; by chance alone in less than 1 case of 1,000).",
    );
  });

  it("asks about a test whose units weigh far from the others", async () => {
    const miscounted = crownTests([1, 2, 3, 4, 5]).replaceAll("2026-10-12,3,4,", "2026-10-12,3,1,");
    const { printed } = await shown("broccoli, crown", { tests: miscounted });
    expect(printed.join(" ").replace(/\s+/g, " ")).toContain(
      "Far off: Field & Co, 12 Oct 2026, test 3: 1600 g; it still counts",
    );
  });

  it("writes the item's page and a blank yield test for each breakdown of it, each named by itself", async () => {
    const scratch = scratchFolder({ "yield-tests.csv": crownTests([1]) });
    folders.push(scratch);
    const { terminal, printed } = aTerminal();
    const out = join(scratch.path, "pages");
    expect(await yieldCommand("broccoli", { kitchen: scratch.path, out }, terminal)).toBe(0);
    expect(printed.at(-1)).toBe(`Pages: ${out}/item-yields.html`);
    const page = readFileSync(join(out, "item-yields.html"), "utf8");
    expect(page).toContain("1 own test of");
    const links = [...page.matchAll(/href="(yield-test[^"]*)"/g)].map(([, href]) => href ?? "");
    const written = readdirSync(out).filter((name) => name.startsWith("yield-test"));
    expect(links.toSorted()).toEqual(written.toSorted());
    expect(written).toHaveLength(5);
    const form = readFileSync(join(out, "yield-test-crown-florets.html"), "utf8");
    expect(form).toContain("Number of crowns");
    expect(form).not.toMatch(/<script|<button|method=/);
    const { terminal: second, complained } = aTerminal();
    expect(await yieldCommand("broccoli", { kitchen: out, out: scratch.path }, second)).toBe(2);
    expect(complained.join()).toContain("which is no page of an earlier plan");
  });

  it("gives every blank yield test of an item a file name of its own, in the folder", () => {
    const { published } = kitchenYields(null);
    for (const name of new Set(published.items.map((item) => item.name))) {
      const forms = published.items.filter((item) => item.name === name);
      const slugs = itemToPrint(forms, { published, tests: [], tables: published }).map(({ slug }) => slug);
      expect(new Set(slugs).size).toBe(slugs.length);
      expect(slugs.filter((slug) => !/^[a-z0-9-]+$/.test(slug))).toEqual([]);
    }
  }, 20_000);

  it("says what must not be eaten, and who says so", async () => {
    const text = (await shown("rhubarb")).printed.join(" ").replace(/\s+/g, " ");
    expect(text).toContain("leaf DO NOT USE 6.0 60");
    expect(text).toMatch(
      /Mind Rhubarb: leaf\. Soluble oxalates.* DO NOT USE\. Only the stalk is food\. \(MedlinePlus/,
    );
    expect((await shown("leek")).printed.join(" ")).not.toContain("Mind");
  });

  it("refuses what is wrong: own tests that do not close, an item that is not there", async () => {
    const broken = await shown("broccoli", { tests: crownTests([1]).replace("stem,460", "stem,400") });
    expect(broken).toMatchObject({ code: 2, printed: [] });
    expect(broken.complained.join()).toContain("60 g missing");
    const { terminal, complained } = aTerminal();
    expect(await yieldCommand("leek", { kitchen: "no-such-folder" }, terminal)).toBe(2);
    expect(complained).toEqual([
      "There is no folder no-such-folder. Name the folder that holds your yield tests.",
    ]);
    expect((await shown("brocoli")).complained.join()).toContain('Did you mean "broccoli"');
  });
});
