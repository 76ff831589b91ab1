import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { planSchema } from "../../src/contract/index.js";
import { expectBalanced } from "../support/plan-checks.js";
import { run } from "../support/program.js";

let folder: string;
const at = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trim-to-use-weigh-in-"));
  cpSync("examples/after-service/lunch.yaml", at("lunch.yaml"));
});
afterAll(() => rmSync(folder, { recursive: true }));

it("keeps a plan with a weigh-in to fill in, and says what to do where there is none", async () => {
  const none = await run("weigh-in", at("lunch.yaml"));
  expect(none.code).toBe(2);
  expect(none.stderr).toMatch(/lunch\.plan\.json:1:1: no plan is kept here\. Plan and keep it: .* --keep/);
  const kept = await run("plan", at("lunch.yaml"), "--keep", "--json");
  expect(kept.code).toBe(0);
  expect(planSchema.parse(JSON.parse(readFileSync(at("lunch.plan.json"), "utf8")))).toEqual(
    JSON.parse(kept.stdout),
  );
  const blank = await run("weigh-in", at("lunch.yaml"));
  expect(blank.stdout).toMatch(/^0 of \d+ figures were weighed/m);
});

it("says what happened, as JSON and as pages, and learns it once", async () => {
  for (const name of ["lunch.plan.json", "lunch.weigh-in.csv"])
    cpSync(`examples/after-service/${name}`, at(name));
  const { code, stdout, stderr } = await run(
    "weigh-in",
    at("lunch.yaml"),
    "--json",
    "--learn",
    "--out",
    at("pages"),
  );
  expect(code).toBe(0);
  expectBalanced(planSchema.parse(JSON.parse(stdout)));
  expect(stderr).toMatch(/Pages: .*happened\.html\nLearnt: 2 yield tests added in/);
  expect(readFileSync(at("pages/happened.html"), "utf8")).toContain("outer layers were woody");
  expect(existsSync(at("pages/weigh-in.html"))).toBe(true);
  expect(readFileSync(at("yield-tests.csv"), "utf8")).toBe(
    readFileSync("examples/after-service/yield-tests.csv", "utf8"),
  );
  const again = await run("weigh-in", at("lunch.yaml"), "--learn");
  expect(again.stdout).toContain("Learnt: 2 yield tests, learnt before");
  expect(again.stdout).toMatch(/beet leaf +998 +1,174 +\+176 +21\.7%, planned 19%; good leaf/);
});

it("writes nothing over what was weighed, and lists all that is wrong", async () => {
  const before = readFileSync(at("lunch.weigh-in.csv"), "utf8");
  const kept = await run("plan", at("lunch.yaml"), "--keep");
  expect(kept.code).toBe(2);
  expect(kept.stderr).toContain("lunch.weigh-in.csv:1:1: it holds weights of the plan that was kept before");
  expect(readFileSync(at("lunch.weigh-in.csv"), "utf8")).toBe(before);
  writeFileSync(at("lunch.weigh-in.csv"), before.replace(",2864,", ",2764,").replace(",1573,", ",1473,"));
  const gaps = await run("weigh-in", at("lunch.yaml"), "--learn");
  expect(gaps.code).toBe(2);
  expect(gaps.stdout).toBe("");
  expect(
    gaps.stderr
      .trim()
      .split("\n")
      .filter((line) => line.includes("100 g missing")),
  ).toHaveLength(2);
});
