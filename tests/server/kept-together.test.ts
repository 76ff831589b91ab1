import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { runBuilt } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";
import { serve } from "../support/served.js";

const AFTER = new URL("../../examples/after-service/", import.meta.url);
const LUNCH = readFileSync(new URL("lunch.yaml", AFTER), "utf8");
const PLAN = readFileSync(new URL("lunch.plan.json", AFTER), "utf8");
const WEIGH_IN = readFileSync(new URL("lunch.weigh-in.csv", AFTER), "utf8");

/** A folder as it is left by a program that was ended when it had noted what to keep and moved the plan alone. */
const HALF_MOVED = {
  "lunch.yaml": LUNCH,
  "lunch.plan.json": PLAN,
  "lunch.weigh-in.csv": "what,name,unit,actual\n",
  "lunch.weigh-in.csv.0a1b2c3d.new": WEIGH_IN,
  "lunch.plan.json.commit": JSON.stringify([
    { from: "lunch.plan.json.4e5f6a7b.new", to: "lunch.plan.json" },
    { from: "lunch.weigh-in.csv.0a1b2c3d.new", to: "lunch.weigh-in.csv" },
  ]),
};

describe("a plan that was being kept when the program was ended", () => {
  const folder = scratchFolder(HALF_MOVED);
  afterAll(() => folder.remove());
  const file = join(folder.path, "lunch.yaml");

  it.each(["weigh-in", "waste"])("is kept with its weigh-in before `%s` reads them", async (command) => {
    for (const [name, text] of Object.entries(HALF_MOVED)) writeFileSync(join(folder.path, name), text);
    const { code, stderr } = await runBuilt(command, file);
    expect([code, stderr]).toEqual([0, ""]);
    expect(readFileSync(join(folder.path, "lunch.weigh-in.csv"), "utf8")).toBe(WEIGH_IN);
  });

  it("is kept with its weigh-in before the server reads them", async () => {
    const served = await serve(HALF_MOVED);
    expect((await served.get("/scenario/lunch.yaml/weigh-in")).text).toContain("What happened");
    expect(readFileSync(join(served.folder, "lunch.weigh-in.csv"), "utf8")).toBe(WEIGH_IN);
    await served.close();
  });
});
