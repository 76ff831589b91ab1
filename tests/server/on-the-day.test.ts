import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planHash } from "../../src/contract/index.js";
import { keepPlan } from "../../src/keeping/index.js";
import { planScenario } from "../../src/planning/index.js";
import { scenarioOf } from "../support/examples.js";
import { TWO_EVENINGS } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

const DICE = "cut: Thursday: marrow dice";

let served: Served;
beforeAll(async () => {
  served = await serve({ "two.yaml": TWO_EVENINGS, "other.yaml": TWO_EVENINGS });
  const engines = new Engines();
  const { plan, scenario } = await planScenario(scenarioOf(TWO_EVENINGS), { engines, seconds: 10 });
  await engines.close();
  await keepPlan(join(served.folder, "two.yaml"), plan, scenario);
});
afterAll(() => served.close());

/** The plan that is kept, as the form of the day names it. */
const kept = () => planHash(JSON.parse(readFileSync(join(served.folder, "two.plan.json"), "utf8")));

async function sent(path: string, fields: Record<string, string>, from?: string) {
  const { status, text } = await served.sent(path, fields, from);
  return { status, text: text.replace(/\s+/g, " ") };
}

describe("what an offcut is good for, served", () => {
  it("is asked on the scenario's screen and answered by a page", async () => {
    expect((await served.get("/scenario/two.yaml/")).text).toContain('<option value="marrow dice">');
    const { status, text } = await sent("two.yaml/uses", { part: "marrow dice", weight: "600 g" });
    expect(status).toBe(200);
    expect(text).toContain("dice pot");
  });

  it("says what cannot be read, and takes no form from elsewhere", async () => {
    const asked = { part: "marrow dice", weight: "600 g" };
    for (const [fields, said] of [
      [{ ...asked, weight: "600" }, "has no unit"],
      [{ ...asked, "use-by": "2026-02-31" }, "is no day. Write it as"],
      [{ ...asked, part: "<b>" }, "&lt;b&gt;: no breakdown, step or table gives a part"],
      [{}, "Weight: "],
    ] as const)
      expect(await sent("two.yaml/uses", fields)).toMatchObject({
        status: 400,
        text: expect.stringContaining(said),
      });
    expect((await sent("two.yaml/uses", asked, "http://elsewhere.example")).status).toBe(403);
    expect((await sent("none.yaml/uses", asked)).status).toBe(404);
  });
});

describe("planning the rest anew, served", () => {
  it("is offered where a plan is kept, and only there", async () => {
    expect((await served.get("/scenario/two.yaml/")).text).toContain('href="replan"');
    expect((await served.get("/scenario/other.yaml/")).text).not.toContain('href="replan"');
    const { status, text } = await served.get("/scenario/other.yaml/replan");
    expect([status, text.includes("no plan is kept here")]).toEqual([404, true]);
  });

  it("says what changes, and keeps it where asked to", async () => {
    const fields = { plan: kept(), before: "Friday", [DICE]: "3.2 kg", canBuy: "marrow" };
    const keptFile = join(served.folder, "two.plan.json");
    const before = readFileSync(keptFile, "utf8");
    const { status, text } = await sent("two.yaml/replan", fields);
    expect(status).toBe(200);
    expect(text).toContain("Put 3,200 g of marrow dice in dice pot for Friday, 800 g less");
    expect(readFileSync(keptFile, "utf8")).toBe(before);
    expect((await sent("two.yaml/replan", { ...fields, keep: "yes" })).status).toBe(200);
    expect(readFileSync(keptFile, "utf8")).not.toBe(before);
  });

  it("takes no form of another plan, and keeps what was written", async () => {
    const form = (await served.get("/scenario/two.yaml/replan")).text;
    expect(form).toContain(`name="plan" value="${kept()}"`);
    expect(form).toContain(`name="${DICE}"`);
    const before = readFileSync(join(served.folder, "two.plan.json"), "utf8");
    const fields = { before: "Friday", [DICE]: "3.1 kg", keep: "yes" };
    for (const other of [{ plan: "a".repeat(64) }, {}] as Record<string, string>[]) {
      const { status, text } = await sent("two.yaml/replan", { ...fields, ...other });
      expect(status).toBe(409);
      expect(text).toContain("Another plan was kept since this form was opened.");
      expect(text).toContain('value="3.1 kg"');
    }
    const stray = await sent("two.yaml/replan", { ...fields, plan: kept(), "cut: Monday: peel": "2 kg" });
    expect(stray.status).toBe(409);
    expect(stray.text).toContain("cut: Monday: peel: the plan kept now has no place for “2 kg”.");
    expect(readFileSync(join(served.folder, "two.plan.json"), "utf8")).toBe(before);
  });

  it("keeps what was typed beside every problem, and says where there is no plan", async () => {
    const wrong = { plan: kept(), before: "Friday", "covers: Thursday": "3", [DICE]: "<i>" };
    const { status, text } = await sent("two.yaml/replan", wrong);
    expect(status).toBe(422);
    expect(text).toContain('value="&lt;i&gt;"');
    expect(text).toContain("Put these right first");
    const many = { plan: kept(), before: "Friday", "covers: Friday": "90" };
    expect((await sent("two.yaml/replan", many)).text).toContain("<title>No plan");
    expect((await sent("two.yaml/replan", wrong, "http://elsewhere.example")).status).toBe(403);
  });
});
