import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadKitchenYields, loadScenario } from "../../src/kitchen-files/index.js";
import { renderPages } from "../../src/pages/index.js";
import { planScenario } from "../../src/planning/index.js";
import { problemText } from "../../src/reading/index.js";
import { crownTests, rhubarbTest } from "../support/own-tests.js";
import { scratchFolder } from "../support/scenarios.js";

const engines = new Engines();
afterAll(() => engines.close());

const folders: { remove(): void }[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

function kitchen(files: Readonly<Record<string, string>>): string {
  const scratch = scratchFolder(files);
  folders.push(scratch);
  return scratch.path;
}

/** Invented. */
const SCENARIO = `
scenario: Broccoli for forty
currency: GBP
services:
  - {name: Friday dinner, date: 2026-10-16, sitting: dinner}
items:
  broccoli: {form: crown, price: 0.90 / crown, cut: [florets], buy: 0 to 60}
dishes:
  florets with lemon:
    portions: 40
    services: [Friday dinner]
    lines: [{amount: 100 g, from: broccoli floret}]
`;

const loaded = async (folder: string) => {
  const { scenario, problems } = await loadScenario(join(folder, "friday.yaml"));
  expect(problems).toEqual([]);
  if (scenario === null) throw new Error("no scenario");
  return scenario;
};

describe("the yield tests beside a scenario", () => {
  it("reach its plan, unit weight and yields alike, and the pages say how much they count", async () => {
    const without = await loaded(kitchen({ "friday.yaml": SCENARIO }));
    const folder = kitchen({ "friday.yaml": SCENARIO, "yield-tests.csv": crownTests([1, 2, 3, 4, 5]) });
    const scenario = await loaded(folder);
    const [item, published] = [scenario.items[0], without.items[0]];
    const floret = (each: typeof item) => each?.breakdowns[0]?.yields[0]?.fraction.toNumber() ?? 0;
    // The tests have 62.7 % florets of crowns of 400 g, the tables 78 % of 320 g.
    expect(floret(published)).toBe(0.78);
    expect(floret(item) > 0.627 && floret(item) < 0.66).toBe(true);
    expect(Number(published?.unitWeight)).toBe(320_000);
    expect(Number(item?.unitWeight) > 385_000 && Number(item?.unitWeight) < 400_000).toBe(true);
    const { plan } = await planScenario(scenario, { engines, seconds: 20 });
    expect(plan.outcome).toMatchObject({ kind: "optimal", certified: true });
    const crown = Number(item?.unitWeight) / 1000;
    expect(plan.purchases[0]?.units).toBe(Math.ceil(4000 / (crown * floret(item))));
    const words = /yields from 5 own tests up to 12 Oct 2026 \(they count \d\d to \d\d %\) and the tables/;
    const pages = new Map(renderPages(plan, scenario).map(({ slug, html }) => [slug, html]));
    expect(pages.get("cutting")?.replaceAll("\u00a0", " ")).toMatch(words);
    expect(pages.get("waste")?.replaceAll("\u00a0", " ")).toMatch(new RegExp(`Florets: ${words.source}`));
    const plain = await planScenario(without, { engines, seconds: 20 });
    for (const { html } of renderPages(plain.plan, without)) expect(html).not.toContain("own test");
  });

  it("are reported by file, line and column where something is wrong, and nothing is planned", async () => {
    const folder = kitchen({ "friday.yaml": SCENARIO });
    const file = join(folder, "yield-tests.csv");
    writeFileSync(file, crownTests([1]).replace("stem,460", "stem,400"));
    const { scenario, problems } = await loadScenario(join(folder, "friday.yaml"));
    expect(scenario).toBeNull();
    expect(problems.map(problemText)).toEqual([
      `${file}:2:50: broccoli (crown), florets: 60 g missing, for the parts and the loss weigh 1540 g of 1600 g. Weigh again, or state what was lost in a row of class loss: 5 weighings to 1 g explain 2.5 g and no more`,
    ]);
  });

  it("are a problem where they may not be read", async () => {
    const folder = kitchen({ "friday.yaml": SCENARIO });
    const file = join(folder, "yield-tests.csv");
    mkdirSync(file);
    const { scenario, problems } = await loadScenario(join(folder, "friday.yaml"));
    expect(scenario).toBeNull();
    expect(problems.map(problemText)).toEqual([
      `${file}:1:1: the kitchen's own yield tests may not be read. Make it a file that may be read, or move it away`,
    ]);
  });

  it("do not make food of what the tables say must never be eaten", async () => {
    const food = await loadKitchenYields(kitchen({ "yield-tests.csv": rhubarbTest("food") }));
    expect(food.tests).toEqual([]);
    expect(food.problems.map(({ what }) => what)).toEqual([
      "rhubarb leaf is food here and never in the yield tables",
    ]);
    const never = await loadKitchenYields(kitchen({ "yield-tests.csv": rhubarbTest("never") }));
    expect(never.problems).toEqual([]);
    const leaf = never.tables.items
      .find(({ name, form }) => name === "rhubarb" && form === "stalks with leaves")
      ?.breakdowns.find(({ name }) => name === "trimmed")
      ?.parts.find(({ part }) => part === "rhubarb leaf");
    expect(leaf).toMatchObject({ class: "never", basis: "own test" });
  });
});
