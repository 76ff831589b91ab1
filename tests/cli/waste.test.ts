import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { planSchema } from "../../src/contract/index.js";
import { run } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";

const folder = scratchFolder();
afterAll(() => folder.remove());
const scenario = (name: string): string => join("examples", `${name}.yaml`);

describe("waste", () => {
  it("accounts for each file and for all together, by the definition asked for", async () => {
    const out = join(folder.path, "pages");
    const files = [scenario("smallest"), scenario("whole-units")];
    const { code, stdout: printed, stderr } = await run("waste", ...files, "--count", "eu", "--out", out);
    const stdout = printed.replaceAll("\u00a0", " ");
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout).toContain("counted as EU food waste");
    expect(stdout).toMatch(/^All together, plan$/m);
    // The README's first example: 432 g of food and 478 g inedible.
    expect(stdout).toMatch(/Waste 910 g: food 432 g, inedible parts 478 g/);
    // Worked by hand: 40 g and 1,700 g.
    expect(stdout).toMatch(/Waste 1,740 g: food 40 g, inedible parts 1,700 g/);
    expect(stdout).toMatch(/Waste 2,650 g: food 472 g, inedible parts 2,178 g/);
    const page = readFileSync(join(out, "waste-account.html"), "utf8");
    expect(page).toContain("All together");
  });

  it("takes a plan as JSON, prints CSV, and refuses what is neither", async () => {
    const { stdout: json } = await run("plan", scenario("smallest"), "--json");
    const file = join(folder.path, "week.json");
    writeFileSync(file, json);
    const { code, stdout } = await run("waste", file, "--csv");
    expect(code).toBe(0);
    expect(stdout.split("\r\n")[0]).toMatch(/^account,standing,from,to,material_type,/);
    const { weights } = planSchema.parse(JSON.parse(json));
    expect(stdout).toContain(`,food,Not known,refuse,${Number(weights.wastedFood).toFixed(3)},`);
    expect(stdout).toContain(`,inedible parts,Not known,refuse,${Number(weights.inedible).toFixed(3)},`);
    writeFileSync(file, "{}");
    expect(await run("waste", file)).toMatchObject({ code: 2, stdout: "" });
    const mixed = await run("waste", scenario("us-units"), scenario("smallest"));
    expect([mixed.code, mixed.stderr]).toEqual([
      2,
      "The files are in USD and EUR: name those of one currency.\n",
    ]);
    expect((await run("waste", scenario("no-plan"))).code).toBe(2);
  });

  it("prints no figures of a plan that cannot be so, and says what and where", async () => {
    const { stdout: json } = await run("plan", scenario("smallest"), "--json");
    const plan = planSchema.parse(JSON.parse(json));
    const file = join(folder.path, "changed.json");
    for (const [changed, said] of [
      [
        { weights: { ...plan.weights, purchased: "7" } },
        /\/weights\/purchased: 7 is not \d+, the sum of its transfers/,
      ],
      [
        { services: plan.services.map((each) => ({ ...each, covers: -20 })) },
        /covers: this is not a whole number/,
      ],
      [
        { money: { ...plan.money, currency: "food" } },
        /currency: this is not a currency by its three letters/,
      ],
      [{ money: { ...plan.money, wasted: "0.01" } }, /\/money: \d+\.\d+ come in and \d+\.\d+ go out/],
      [{ waste: undefined }, /\/waste: this is missing, as in a file of an earlier version/],
    ] as const) {
      writeFileSync(file, JSON.stringify({ ...plan, ...changed }, null, 2));
      const { code, stdout, stderr } = await run("waste", file);
      expect([code, stdout]).toEqual([2, ""]);
      expect(stderr).toMatch(said);
      expect(stderr).toMatch(/^\S*changed\.json:\d+:\d+: .*\. Write it anew with plan --json\n/);
    }
  });

  it("takes what was weighed in after a kept plan instead of the plan", async () => {
    const file = join(folder.path, "smallest.yaml");
    writeFileSync(file, readFileSync(scenario("smallest"), "utf8"));
    await run("plan", file, "--keep");
    const planned = await run("waste", file, "--csv");
    expect(planned.stdout).toMatch(/^Broccoli two ways,plan,/m);
    // As a plan was kept before it said what may be called waste: that is worked out anew, the plan is not.
    const keptPlan = join(folder.path, "smallest.plan.json");
    const { waste, ...older } = planSchema.parse(JSON.parse(readFileSync(keptPlan, "utf8")));
    const marked = { ...older, outcome: { ...older.outcome, engine: "weigh-in" } };
    writeFileSync(keptPlan, JSON.stringify(marked));
    const sheet = join(folder.path, "smallest.weigh-in.csv");
    // Nor did the weigh-in say then which plan it is of.
    writeFileSync(sheet, readFileSync(sheet, "utf8").replace(/^plan,.*\n/m, ""));
    const told = await run("waste", file);
    expect([told.code, told.stderr]).toEqual([0, ""]);
    // Told by its mark, which makes it what was done: it is the plan that was kept.
    expect(told.stdout).toMatch(/^Broccoli two ways, actual$/m);
    expect(told.stdout.replaceAll("\u00a0", " ")).toMatch(
      new RegExp(`^Counted by the aim ${Math.round(Number(waste.counted))} g: `, "m"),
    );
    writeFileSync(keptPlan, JSON.stringify({ ...older, waste }));
    // 20 g less leaf than planned and 20 g more trim, everything else of the cut as planned.
    const weighed = readFileSync(sheet, "utf8").replace(
      /^(cut gave,.*?,(broccoli \w+|loss),,g,)(\d+(?:\.\d+)?),,/gm,
      (_, head: string, part: string, grams: string) => {
        const more = part === "broccoli leaf" ? -20 : part === "broccoli trim" ? 20 : 0;
        return `${head}${grams},${Number(grams) + more},`;
      },
    );
    writeFileSync(sheet, weighed);
    const actual = await run("waste", file, "--csv");
    expect([actual.code, actual.stderr]).toEqual([0, ""]);
    expect(actual.stdout).toMatch(/^Broccoli two ways,actual,/m);
    const grams = (csv: string, material: string) =>
      Number(new RegExp(`,${material},Not known,refuse,([\\d.]+),`).exec(csv)?.[1]);
    expect(grams(actual.stdout, "food")).toBeCloseTo(grams(planned.stdout, "food") - 20, 3);
    expect(grams(actual.stdout, "inedible parts")).toBeCloseTo(
      grams(planned.stdout, "inedible parts") + 20,
      3,
    );
  });
});
