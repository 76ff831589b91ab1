import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse, stringify } from "yaml";
import { planSchema } from "../../src/contract/index.js";
import { expectBalanced } from "../support/plan-checks.js";
import { finished, run, runBuilt, start } from "../support/program.js";
import { EIGHT_MISTAKES, marrowBake, scratchFolder } from "../support/scenarios.js";

let folder: ReturnType<typeof scratchFolder>;
let bake: string;
let wrong: string;
beforeAll(() => {
  folder = scratchFolder({
    "bake.yaml": marrowBake(),
    "dear.yaml": marrowBake({ ceiling: "0.20" }),
    "wrong.yaml": EIGHT_MISTAKES,
  });
  bake = join(folder.path, "bake.yaml");
  wrong = join(folder.path, "wrong.yaml");
});
afterAll(() => folder.remove());

const PROBLEM_LINE = /^.+\.yaml:\d+:\d+: .+\. \S.*$/;

describe("plan", () => {
  it("prints what to buy, cut and cook, use and waste, cost and proof, and is quiet beside", async () => {
    const { code, stdout, stderr } = await runBuilt("plan", bake);
    expect([code, stderr]).toEqual([0, ""]);
    expect(stdout.split("\n").slice(0, 5)).toEqual([
      "Marrow bake",
      "Buy     2 heads of marrow, test: 2,000 g, €3.20",
      "Cut     2 heads of marrow: dice",
      "Cook    8 portions of marrow bake at €0.50 (ceiling €1.00)",
      "Use     1,600 g of 1,600 g usable (100%); wasted food 0 g (0%)",
    ]);
    expect(stdout).toMatch(/^Spend {3}€4\.00, of it €0\.00 wasted$/m);
    expect(stdout).toMatch(/^Proof {3}Proved least waste: 0 g \(solver \S+, [\d.]+ s\)$/m);
  });

  it.each(["whole-units", "trim-credit"])(
    "prints the example %s as JSON that keeps the contract",
    async (name) => {
      const { code, stdout, stderr } = await run("plan", `examples/${name}.yaml`, "--json");
      expect([code, stderr]).toEqual([0, ""]);
      const plan = planSchema.strict().parse(JSON.parse(stdout));
      expect(plan.outcome).toMatchObject({ kind: "optimal", certified: true });
      expectBalanced(plan);
    },
  );

  it("plans for the aim asked for, by the engine asked for", async () => {
    for (const engine of ["javascript-lp-solver", "highs"]) {
      const { code, stdout } = await run("plan", bake, "--json", "--aim", "cost", "--engine", engine);
      const { aim, outcome } = planSchema.parse(JSON.parse(stdout));
      expect([code, aim, outcome.kind, outcome.engine]).toEqual([0, "cost", "optimal", engine]);
      expect(Number(outcome.objective)).toBeCloseTo(4, 6);
    }
  });

  it("ends with 1 and the changes that would do where no plan exists", async () => {
    const { code, stdout, stderr } = await runBuilt("plan", join(folder.path, "dear.yaml"));
    expect([code, stderr]).toEqual([1, ""]);
    expect(stdout).toContain("Any one of these would do:");
    expect(stdout).toMatch(/ {2}- Raise the ceiling of marrow bake from 0\.20 to 0\.50\./);
    const json = await run("plan", join(folder.path, "dear.yaml"), "--json");
    const plan = planSchema.parse(JSON.parse(json.stdout));
    expect([json.code, plan.outcome.kind]).toEqual([1, "infeasible"]);
    expect(plan.reasons.length).toBeGreaterThan(0);
  });

  it("ends with 3 where there is no answer in the time", async () => {
    // Twelve more of each dish of the demo may be cooked, so that no machine has a plan in a tenth of a second.
    const menu = parse(readFileSync("examples/demo.yaml", "utf8"));
    const dishes = Object.entries(menu.dishes);
    const more = Array.from({ length: 12 }, (_, copy) =>
      dishes.map(([name, dish]) => [`${name} ${copy + 1}`, { ...Object(dish), optional: true }]),
    );
    const file = join(folder.path, "manifold.yaml");
    writeFileSync(
      file,
      stringify({ ...menu, dishes: { ...menu.dishes, ...Object.fromEntries(more.flat()) } }),
    );
    const { code, stdout } = await run("plan", file, "--seconds", "0.001", "--engine", "highs");
    expect(code).toBe(3);
    expect(stdout).toContain("No answer");
  });

  it("ends with 2 for eight mistakes, a line for each, and writes nothing", async () => {
    const out = join(folder.path, "pages");
    const before = readdirSync(folder.path);
    const { code, stdout, stderr } = await runBuilt("plan", wrong, "--json", "--out", out);
    expect([code, stdout]).toEqual([2, ""]);
    const lines = stderr.trimEnd().split("\n");
    expect(lines.map((line) => [line, PROBLEM_LINE.test(line)])).toEqual(lines.map((line) => [line, true]));
    const places = lines.map((line) => Number(line.slice(wrong.length + 1).split(":")[0]));
    const planted = EIGHT_MISTAKES.split("\n").flatMap((line, index) =>
      line.includes(" # ") ? [index + 1] : [],
    );
    expect(planted).toHaveLength(8);
    // The weights that do not add up are told at their breakdown, a line above.
    expect(places).toEqual(planted.map((line) => (line === 13 ? 12 : line)));
    expect(readdirSync(folder.path)).toEqual(before);
    const checked = await run("check", wrong);
    expect([checked.code, checked.stdout, checked.stderr]).toEqual([2, "", stderr]);
  });

  it.each([
    [["plan", "nowhere.yaml"], /^nowhere\.yaml:1:1: .*no such file/],
    [["check", "nowhere.yaml"], /^nowhere\.yaml:1:1: .*no such file/],
    [["plan", "examples"], /^examples:1:1: this is a folder\. Write the path of a scenario file in it/],
    [
      ["plan", "examples/smallest.yaml", "--aim", "balanced"],
      /^examples\/smallest\.yaml:5:6: the balanced aim needs to know what waste counts for\. Add `waste_price:`/,
    ],
    [["plan", "examples/smallest.yaml", "--seconds", "0"], /seconds above 0/],
    [["plan", "examples/smallest.yaml", "--engine", "guess"], /Allowed choices are/],
    [["plan", "examples/smallest.yaml", "--aim", "thrift"], /Allowed choices are/],
    [["plan"], /missing required argument/],
    [["bake"], /unknown command/],
  ])("ends with 2 for %j and says what is wrong", async (args, words) => {
    const { code, stdout, stderr } = await run(...args);
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(words);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  it("finds nothing wrong with a sound file", async () => {
    expect(await run("check", bake)).toEqual({ code: 0, stdout: `${bake}: no problems.\n`, stderr: "" });
  });

  it("ends quietly when its reader has gone, and when it is interrupted", async () => {
    const piped = start("plan", bake, "--json");
    piped.stdout.destroy();
    expect(await finished(piped)).toMatchObject({ code: 0, stderr: "" });
    const out = join(folder.path, "interrupted");
    const stopped = start("plan", "examples/demo.yaml", "--cautious", "99", "--out", out);
    setTimeout(() => stopped.kill("SIGINT"), 1500);
    expect(await finished(stopped)).toEqual({ code: 130, stdout: "", stderr: "" });
    expect(existsSync(out)).toBe(false);
  });
});

describe("plan --out", () => {
  it("writes pages and what they need, in place of earlier ones, and leaves nothing else", async () => {
    const out = join(folder.path, "new", "pages");
    const first = await run("plan", bake, "--out", out);
    expect([first.code, first.stdout.trimEnd().split("\n").at(-1)]).toEqual([0, `Pages: ${out}/glance.html`]);
    writeFileSync(join(out, "glance.html"), "stale");
    expect((await run("plan", bake, "--out", out)).code).toBe(0);
    const glance = readFileSync(join(out, "glance.html"), "utf8");
    expect(glance).toContain("Marrow bake");
    for (const [, target] of glance.matchAll(/(?:href|src)="([^"#]+)"/g))
      expect([target, existsSync(join(out, target ?? ""))]).toEqual([target, true]);
    expect(readdirSync(join(folder.path, "new"))).toEqual(["pages"]);
  });

  it("leaves a folder alone that holds anything else, and a file", async () => {
    const mine = join(folder.path, "mine");
    const kept = scratchFolder({ "recipe.txt": "keep me" });
    const { code, stdout, stderr } = await run("plan", bake, "--out", kept.path);
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("holds recipe.txt, which is no page of an earlier plan. Name an empty folder");
    expect(readdirSync(kept.path)).toEqual(["recipe.txt"]);
    kept.remove();
    writeFileSync(mine, "a file");
    expect((await run("plan", bake, "--out", mine)).stderr).toContain("is a file. Name a folder.");
    expect(readFileSync(mine, "utf8")).toBe("a file");
  });

  it("writes the page that says why where no plan exists", async () => {
    const out = join(folder.path, "why");
    expect((await run("plan", join(folder.path, "dear.yaml"), "--out", out)).code).toBe(1);
    expect(readFileSync(join(out, "no-plan.html"), "utf8")).toContain("Raise the ceiling");
  });
});
