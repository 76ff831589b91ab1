import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { planCommand } from "../../src/commands/plan.js";
import { type WeighInCommandOptions, weighInCommand } from "../../src/commands/weigh-in.js";
import { planSchema } from "../../src/contract/index.js";
import { expectBalanced } from "../support/plan-checks.js";
import { run } from "../support/program.js";
import { aTerminal } from "../support/terminal.js";

let folder: string;
const at = (name: string) => join(folder, name);
const read = (name: string) => readFileSync(at(name), "utf8");
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trim-to-use-weigh-in-"));
  cpSync("examples/after-service/lunch.yaml", at("lunch.yaml"));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function said(command: (terminal: ReturnType<typeof aTerminal>["terminal"]) => Promise<number>) {
  const { terminal, printed, complained } = aTerminal();
  const code = await command(terminal);
  return { code, stdout: printed.join("\n"), stderr: complained.join("\n") };
}
const weighIn = (options: WeighInCommandOptions = {}) =>
  said((terminal) => weighInCommand(at("lunch.yaml"), options, terminal));
const keep = () =>
  said((terminal) => planCommand(at("lunch.yaml"), { seconds: 20, keep: true, json: true }, terminal));

it("says what to do where no plan is kept", async () => {
  const none = await run("weigh-in", at("lunch.yaml"), "--learn");
  expect(none.code).toBe(2);
  expect(none.stderr).toMatch(/lunch\.plan\.json:1:1: no plan is kept here\. Plan and keep it: .* --keep/);
});

it("keeps a plan with a weigh-in to fill in", async () => {
  const kept = await keep();
  expect(kept.code).toBe(0);
  expect(planSchema.parse(JSON.parse(read("lunch.plan.json")))).toEqual(JSON.parse(kept.stdout));
  expect((await weighIn()).stdout).toMatch(/^0 of \d+ figures were weighed/m);
});

it("says what happened, as JSON and as pages, and learns it once", async () => {
  for (const name of ["lunch.plan.json", "lunch.weigh-in.csv"])
    cpSync(`examples/after-service/${name}`, at(name));
  const { code, stdout, stderr } = await weighIn({ json: true, learn: true, out: at("pages") });
  expect(code).toBe(0);
  expectBalanced(planSchema.parse(JSON.parse(stdout)));
  expect(stderr).toMatch(/Pages: .*happened\.html\nLearnt: 2 yield tests added in/);
  expect(read("pages/happened.html")).toContain("outer layers were woody");
  expect(existsSync(at("pages/weigh-in.html"))).toBe(true);
  expect(read("yield-tests.csv")).toBe(readFileSync("examples/after-service/yield-tests.csv", "utf8"));
  const again = await weighIn({ learn: true });
  expect(again.stdout).toContain("Learnt: 2 yield tests, learnt before");
  expect(again.stdout).toMatch(/beet leaf +998 +1,174 +\+176 +21\.7%, planned 19%; good leaf/);
});

it("writes nothing over what was weighed, and lists all that is wrong", async () => {
  const before = read("lunch.weigh-in.csv");
  const kept = await keep();
  expect(kept.code).toBe(2);
  expect(kept.stderr).toContain("lunch.weigh-in.csv:1:1: it holds weights or reasons of the plan");
  expect(read("lunch.weigh-in.csv")).toBe(before);
  writeFileSync(at("lunch.weigh-in.csv"), before.replace(",2864,", ",2764,").replace(",1573,", ",1473,"));
  const gaps = await weighIn({ learn: true });
  expect(gaps.code).toBe(2);
  expect(gaps.stdout).toBe("");
  expect(gaps.stderr.split("\n").filter((line) => line.includes("100 g missing"))).toHaveLength(2);
});

it("forgets what a cut taught whose parts are blank again", async () => {
  const tests = read("yield-tests.csv");
  cpSync("examples/after-service/lunch.weigh-in.csv", at("lunch.weigh-in.csv"));
  const blank = read("lunch.weigh-in.csv").replace(/^(cut gave,Lunch,fennel,(?:[^,]*,){5})\d+,/gm, "$1,");
  writeFileSync(at("lunch.weigh-in.csv"), blank);
  expect((await weighIn({ learn: true })).stdout).toContain("Learnt: 1 yield test taken out in");
  expect(tests).toContain("fennel");
  expect(read("yield-tests.csv")).not.toContain("fennel");
});
