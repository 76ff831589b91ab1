import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { type PlanJson, planSchema, tradeoffSchema } from "../../src/contract/index.js";
import { scaleWithStep, type Weight } from "../../src/quantity/index.js";
import { example, exampleText, feasibleExamples, rewritten } from "../support/examples.js";
import { run } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";

const folder = scratchFolder();
afterAll(() => folder.remove());

const NAMES = {
  "Wasted food": "foodWasted",
  "Lost food": "lostFood",
  "Avoidable peel": "avoidablePeel",
  "Unused though usable": "unusedUsable",
  "Given away": "givenAway",
  "Counted by the aim": "counted",
} as const;
type Figures = Readonly<Record<string, number>>;

const GRAM_FACTORS: Readonly<Record<string, number>> = { g: 1, kg: 1000 };
const OUNCE_FACTORS: Readonly<Record<string, number>> = { oz: 1, lb: 16 };
const WEIGHT = String.raw`(?:[\d,.]+ (?:kg|g|lb|oz)(?: (?=\d[\d.]* oz))?)+`;

/** "1 lb 2.75 oz" in ounces, "13.264 kg" in grams, a bare "1,280" as it stands. */
function read(text: string): number {
  const pairs = [...text.matchAll(/([\d,.]+)(?: (kg|g|lb|oz))?/g)];
  const sum = pairs.reduce((acc, [, figure = "", unit = ""]) => {
    const factor = unit === "" ? 1 : (GRAM_FACTORS[unit] ?? OUNCE_FACTORS[unit] ?? Number.NaN);
    return acc + Number(figure.replaceAll(",", "")) * factor;
  }, 0);
  return Math.round(sum * 1000) / 1000;
}

function found(text: string, pattern: (name: string) => RegExp): Figures {
  const plain = text.replaceAll("\u00a0", " ").replaceAll("&#xA0;", " ");
  return Object.fromEntries(
    Object.keys(NAMES).flatMap((name) => {
      const match = pattern(name).exec(plain)?.[1];
      return match === undefined ? [] : [[name, read(match)]];
    }),
  );
}

const inLines = (name: string): RegExp => new RegExp(`(?:^|[ ;])${name} (${WEIGHT})`, "im");
const inTable = (name: string): RegExp =>
  new RegExp(
    `<tr(?: class="total")?><th scope="row">${name}(?:<span[^>]*>[^<]*</span>)?</th><td class="num">([\\d,.]+)<`,
  );
/** The table of what may be called waste; empty where the page has none. */
const wasteTable = (html: string): string =>
  /<caption>What may be called waste<\/caption>.*?<\/table>/s.exec(html)?.[0] ?? "";
const inList = (name: string): RegExp => new RegExp(`<dt>${name}</dt><dd>(?:<strong>)?(${WEIGHT})`);

/** What the plan's JSON holds, in the unit of the scale, to the nearest step where it is printed so. */
function held({ waste }: PlanJson, kind: keyof PlanJson["waste"], step: Weight) {
  const { read: toUnit } = scaleWithStep(step);
  const exact = BigInt(Math.round(Number(waste[kind]) * 1000));
  const nearest = ((2n * exact + step) / (2n * step)) * step;
  return {
    exact: toUnit(exact as Weight).toNumber(),
    nearest: toUnit(nearest as Weight).toNumber(),
    step: toUnit(step).toNumber(),
  };
}

function expectHeld(figures: Figures, plan: PlanJson, step: Weight): void {
  for (const [name, kind] of Object.entries(NAMES)) {
    const printed = figures[name];
    const { exact, nearest, step: unit } = held(plan, kind, step);
    if (printed === undefined) {
      // A line left out is nothing on this scale, or wasted food is all that counts.
      expect([name, kind === "counted" ? nearest : exact < unit]).toEqual([
        name,
        kind === "counted" ? figures["Wasted food"] : true,
      ]);
    } else if (kind === "foodWasted" || kind === "counted")
      expect([name, printed]).toEqual([name, expect.closeTo(nearest, 2)]);
    else expect([name, Math.abs(printed - exact) < unit]).toEqual([name, true]);
  }
}

/** With something of every figure: a carcass that no dish takes, counted by half. */
const CARCASS = rewritten(
  exampleText("trim-credit"),
  "waste_counts: {avoidable_peel: 0 %}",
  "waste_counts: {avoidable_peel: 100 %, unused_usable: 50 %}",
);
const CASES: readonly string[] = [...feasibleExamples(), "carcass"];

describe.each(CASES)("the waste of %s", (name) => {
  it("is the same on every page, in every command and in the plan as JSON", async () => {
    const file = join(folder.path, `${name}.yaml`);
    if (name === "carcass") writeFileSync(file, CARCASS);
    else copyFileSync(join("examples", `${name}.yaml`), file);
    const step = example(name === "carcass" ? "trim-credit" : name).scaleStep;
    const out = join(folder.path, `${name} pages`);
    const planned = await run("plan", file, "--keep", "--out", out);
    expect([planned.code, planned.stderr]).toEqual([0, ""]);
    const kept = readFileSync(join(folder.path, `${name}.plan.json`), "utf8");
    const plan = planSchema.parse(JSON.parse(kept));
    const page = (slug: string): string => readFileSync(join(out, `${slug}.html`), "utf8");
    const account = await run("waste", file);
    expect([account.code, account.stderr]).toEqual([0, ""]);

    const text = found(planned.stdout.replaceAll(/\n {8,}/g, "\n"), inLines);
    expectHeld(text, plan, step);
    const { "Wasted food": food = Number.NaN, ...besides } = text;
    const onWaste = found(wasteTable(page("waste")), inTable);
    expect(onWaste).toEqual(Object.keys(besides).length === 0 ? {} : text);
    expect(found(wasteTable(page("glance")), inTable)).toEqual(onWaste);
    expect(found(page("glance"), inList)["Wasted food"]).toBe(food);
    expect(found(page("waste-account"), inList)).toEqual(text);
    expect(found(account.stdout, inLines)).toEqual(besides);
    expect(found(account.stdout.replaceAll(": food", "; wasted food"), inLines)["Wasted food"]).toBe(food);

    // Where the plan is proved least waste, that is the figure beside it.
    const proved = new RegExp(`Proved least waste: (${WEIGHT})`).exec(
      planned.stdout.replaceAll("\u00a0", " "),
    );
    expect(proved === null).toBe(plan.aim !== "waste" || plan.outcome.kind !== "optimal");
    if (proved !== null) {
      expect(read(proved[1] ?? "")).toBe(text["Counted by the aim"] ?? food);
      expect(Number(plan.outcome.objective)).toBe(Number(plan.waste.counted));
    }
  }, 120_000);
});

describe("the trade-off", () => {
  it.each(["two-forms", "us-units"])(
    "of %s says of each plan what that plan's waste is",
    async (name) => {
      const step = example(name).scaleStep;
      const out = join(folder.path, `${name} tradeoff`);
      const file = join("examples", `${name}.yaml`);
      const asked = ["tradeoff", file, "--plans", "3"];
      const [json, printed] = [await run(...asked, "--json", "--out", out), await run(...asked)];
      const { plans } = tradeoffSchema.parse(JSON.parse(json.stdout));
      expect(plans.length).toBeGreaterThan(1);
      const blocks = printed.stdout.split(/^(?= {2}\d+(?:\.|:|$))/m).slice(1);
      const rows = readFileSync(join(out, "tradeoff.html"), "utf8")
        .split(/<tbody[^>]*>/)
        .slice(1);
      plans.forEach(({ plan, waste }, index) => {
        expect(waste).toBe(plan.waste.counted);
        const counted = held(plan, "counted", step).nearest;
        const block = (blocks[index] ?? "").replaceAll("\u00a0", " ").replaceAll(/\n {8,}/g, " ");
        expect(read(/waste, (?:g|oz): ([\d,.]+)/.exec(block)?.[1] ?? "")).toBeCloseTo(counted, 2);
        const line = found(block, inLines);
        expect(found(rows[index] ?? "", (figure) => new RegExp(`[ >]${figure} (${WEIGHT})`, "i"))).toEqual(
          line,
        );
        expect(read(/<td class="num"[^>]*>([\d,.]+)</.exec(rows[index] ?? "")?.[1] ?? "")).toBeCloseTo(
          counted,
          2,
        );
        if (Object.keys(line).length > 0) expectHeld({ ...line, "Counted by the aim": counted }, plan, step);
      });
    },
    120_000,
  );
});
