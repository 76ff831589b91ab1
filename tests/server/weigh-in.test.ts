import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Served, serve } from "../support/served.js";

const EXAMPLE = new URL("../../examples/after-service/", import.meta.url);
const example = (name: string) => readFileSync(new URL(name, EXAMPLE), "utf8");
const AT = "/scenario/lunch.yaml/";

let served: Served;
beforeAll(async () => {
  served = await serve({ "lunch.yaml": example("lunch.yaml") });
});
afterAll(() => served.close());

const fileOf = (name: string) => join(served.folder, name);
function send(
  path: string,
  fields: readonly (readonly [string, string])[] = [],
  origin?: string,
): Promise<Response> {
  const own = served.server.url.slice(0, -1);
  return fetch(own + AT + path, {
    method: "POST",
    headers: { origin: origin ?? own },
    body: new URLSearchParams(fields.map(([name, value]) => [name, value])),
    redirect: "manual",
  });
}
/** The plan that is kept, by the hash of its file. */
const ofPlan = () =>
  createHash("sha256")
    .update(JSON.stringify(JSON.parse(readFileSync(fileOf("lunch.plan.json"), "utf8"))))
    .digest("hex");
/** The form's fields for one row, as a browser sends them. */
function row(key: readonly unknown[], actual: string, was = "", reason = ""): [string, string][] {
  return [
    ["key", `${ofPlan().slice(0, 16)} ${JSON.stringify(key)}`],
    ["was", was],
    ["wasReason", ""],
    ["actual", actual],
    ["reason", reason],
  ];
}
const BOUGHT = ["bought", 0, "fennel", "", "", null, "weight"];
const cut = (part: string, what = "cut gave") => [what, 0, "fennel", "sliced", part, null, "weight"];

describe("the weigh-in over HTTP", () => {
  it("begins where a plan is kept, and says so before", async () => {
    expect(await served.get(`${AT}weigh-in`)).toMatchObject({ status: 404 });
    expect((await send("keep")).status).toBe(404);
    await served.ask("lunch.yaml");
    expect(await served.settled("lunch.yaml")).toContain("Keep this plan");
    const kept = await send("keep");
    expect([kept.status, kept.headers.get("location")]).toEqual([303, `${AT}weigh-in`]);
    expect(existsSync(fileOf("lunch.plan.json"))).toBe(true);
    expect((await served.get(AT)).text).toContain("Weigh in against the plan");
    expect((await served.get(`${AT}weigh-in`)).text).not.toContain("What happened");
  });

  it("takes forms from its own pages only", async () => {
    for (const path of ["keep", "weigh-in", "learn"])
      expect((await send(path, [], "http://elsewhere.test")).status, path).toBe(403);
  });

  it("saves what is written, signed and timed, and nothing of what cannot be read", async () => {
    const wrong = await send("weigh-in", [...row(BOUGHT, "2300 or so"), ...row(cut("fennel core"), "150")]);
    const page = await wrong.text();
    expect(wrong.status).toBe(422);
    expect(page).toContain("Not saved: some figures cannot be read.");
    expect(page).toContain('value="2300 or so"');
    expect(page).toContain("is no weight");
    expect(readFileSync(fileOf("lunch.weigh-in.csv"), "utf8")).not.toMatch(/150,,/);
    const saved = await send("weigh-in", [...row(BOUGHT, "2304", "", 'small, "dry"'), ["initials", "JO"]]);
    expect([saved.status, saved.headers.get("location")]).toEqual([303, `${AT}weigh-in?saved=JO`]);
    expect(readFileSync(fileOf("lunch.weigh-in.csv"), "utf8")).toMatch(
      /^bought,Lunch,fennel,,,,g,2275,2304,"small, ""dry""",JO,\d\d:\d\d$/m,
    );
    expect((await served.get(`${AT}weigh-in?saved=JO`)).text).toMatch(/Saved\.[\s\S]*value="2304"/);
  });

  it("leaves alone what another has written meanwhile, and says what does not close", async () => {
    await send("weigh-in", row(cut("", "cut"), "2304"));
    await send("weigh-in", row(cut("fennel slice"), "1573"));
    const text = readFileSync(fileOf("lunch.weigh-in.csv"), "utf8");
    expect(text).toContain("g,2275,2304,");
    const { text: page } = await served.get(`${AT}weigh-in`);
    expect(page).toContain("Does not close yet");
    expect(page).toContain("these were not: fennel stalk");
    expect(await served.get(`${AT}happened/happened.html`)).toMatchObject({ status: 404 });
    expect((await send("learn")).status).toBe(409);
  });

  it("says what happened once it closes, and learns from it once", async () => {
    await send("weigh-in", [
      ...row(cut("fennel stalk"), "402"),
      ...row(cut("fennel frond"), "96"),
      ...row(cut("fennel core"), "150"),
      ...row(cut("fennel trim"), "58"),
      ...row(cut("loss"), "25"),
    ]);
    expect((await served.get(`${AT}weigh-in`)).text).toContain("What happened");
    const { status, text } = await served.get(`${AT}happened/happened.html`);
    expect(status).toBe(200);
    expect(text).toContain("68.3%");
    for (const time of [1, 2]) {
      const learnt = await send("learn");
      expect([learnt.status, learnt.headers.get("location")], String(time)).toEqual([
        303,
        `${AT}weigh-in?learnt=1`,
      ]);
    }
    expect(readFileSync(fileOf("yield-tests.csv"), "utf8").match(/,slice,1573,/g)).toHaveLength(1);
  });

  it("never writes a blank weigh-in over one that is filled", async () => {
    const before = readFileSync(fileOf("lunch.weigh-in.csv"), "utf8");
    await served.ask("lunch.yaml");
    await served.settled("lunch.yaml");
    const again = await send("keep");
    expect(again.status).toBe(409);
    expect(await again.text()).toContain("it holds weights or reasons of the plan that was kept before");
    expect(readFileSync(fileOf("lunch.weigh-in.csv"), "utf8")).toBe(before);
  });

  it("shows no form for a file that cannot be read, but what is wrong with it", async () => {
    const before = readFileSync(fileOf("lunch.weigh-in.csv"), "utf8");
    writeFileSync(fileOf("lunch.weigh-in.csv"), before.replace("2304", "two kilos"));
    const { status, text } = await served.get(`${AT}weigh-in`);
    expect(status).toBe(404);
    expect(text).toContain("two kilos");
    writeFileSync(fileOf("lunch.weigh-in.csv"), before);
  });
});
