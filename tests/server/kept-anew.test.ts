import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { planHash } from "../../src/contract/index.js";
import { type Served, serve } from "../support/served.js";

const LUNCH = readFileSync(new URL("../../examples/after-service/lunch.yaml", import.meta.url), "utf8");
const AT = "/scenario/lunch.yaml/";

let served: Served;
const fileOf = (name: string) => join(served.folder, name);
const text = (name: string) => readFileSync(fileOf(name), "utf8");
const keptHash = () => planHash(JSON.parse(text("lunch.plan.json")));

function send(path: string, fields: readonly (readonly [string, string])[] = []): Promise<Response> {
  const origin = served.server.url.slice(0, -1);
  return fetch(origin + AT + path, {
    method: "POST",
    headers: { origin },
    body: new URLSearchParams(fields.map(([name, value]) => [name, value])),
    redirect: "manual",
  });
}

/** The form as it is shown, with a figure and a reason typed into the rows with this label. */
async function formWith(label: string, actual: string, reason: string) {
  const { text: page } = await served.get(`${AT}weigh-in`);
  const [, ...rows] = page.split('<div class="weighed-row">');
  const hidden = /name="(\w+)" value="([^"]*)"/g;
  const fields = rows.flatMap((html): [string, string][] => {
    const plain = html.replaceAll("&quot;", '"').replaceAll("&#x27;", "'");
    const key = /name="key" value="(.*)">/.exec(plain)?.[1] ?? "";
    const isIt = new RegExp(`<label for="row-\\d+">${label} <`).test(html);
    const held = new Map([...html.matchAll(hidden)].map(([, name = "", value = ""]) => [name, value]));
    return [
      ["key", key],
      ["was", held.get("was") ?? ""],
      ["wasReason", held.get("wasReason") ?? ""],
      ["actual", isIt ? actual : (held.get("actual") ?? "")],
      ["reason", isIt ? reason : (held.get("reason") ?? "")],
    ];
  });
  return [...fields, ["initials", "AB"]] as [string, string][];
}

beforeAll(async () => {
  served = await serve({ "lunch.yaml": LUNCH });
  await served.ask("lunch.yaml");
  await served.settled("lunch.yaml");
});
afterAll(() => served.close());

let plan: string;
let blank: string;
beforeEach(async () => {
  writeFileSync(fileOf("lunch.weigh-in.csv"), "");
  writeFileSync(fileOf("lunch.weigh-in.csv"), "what,name,unit,actual\n");
  expect((await send("keep")).status).toBe(303);
  [plan, blank] = [text("lunch.plan.json"), text("lunch.weigh-in.csv")];
});

/** As another program may keep a plan meanwhile: here the same one, which took longer. */
function keepAnother(): void {
  const other = plan.replace(/"seconds": [\d.]+/, '"seconds": 9.5');
  writeFileSync(fileOf("lunch.plan.json"), other);
  writeFileSync(fileOf("lunch.weigh-in.csv"), blank.replace(/^plan,.*$/m, `plan,,${keptHash()},,,,,,,,,`));
}

describe("a weigh-in", () => {
  it("names the plan that it is of, by the hash of that plan", () => {
    expect(blank).toContain(`\nplan,,${keptHash()},,,,,,,,,\n`);
  });

  it("is saved from its own form, and goes on naming its plan", async () => {
    const saved = await send("weigh-in", await formWith("Fennel core", "31", "wet"));
    expect(saved.status).toBe(303);
    expect(text("lunch.weigh-in.csv")).toMatch(/,31,wet,AB,/);
    expect(text("lunch.weigh-in.csv")).toContain(`\nplan,,${keptHash()},,,,,,,,,\n`);
  });

  it("takes nothing from a form that was opened before another plan was kept, and keeps what was written", async () => {
    const fields = await formWith("Fennel core", "1234", "important");
    keepAnother();
    const before = text("lunch.weigh-in.csv");
    const late = await send("weigh-in", fields);
    const page = await late.text();
    expect(late.status).toBe(409);
    expect(page).toContain("Not saved: another plan was kept since this form was opened.");
    expect(page).not.toContain("Saved.");
    expect(page).toContain('value="1234"');
    expect(page).toContain('value="important"');
    expect(text("lunch.weigh-in.csv")).toBe(before);
  });

  it("takes nothing of a row that it does not have, and says what was written there", async () => {
    const stray = [
      ["key", "a row the kept plan no longer has"],
      ["was", ""],
      ["actual", "1234"],
      ["wasReason", ""],
      ["reason", "important"],
      ["initials", "AB"],
    ] as const;
    const lost = await send("weigh-in", stray);
    expect(lost.status).toBe(409);
    expect(await lost.text()).toContain("a row the kept plan no longer has: 1234, important");
    expect(text("lunch.weigh-in.csv")).toBe(blank);
  });

  it("takes no form but its own", async () => {
    const rows = await formWith("Fennel core", "31", "");
    for (const fields of [[["figure", "12"]], rows.slice(1), [...rows, ["more", "1"]]] as [
      string,
      string,
    ][][])
      expect((await send("weigh-in", fields)).status).toBe(400);
    expect(text("lunch.weigh-in.csv")).toBe(blank);
  });

  it("beside another plan is not read, filled in or learnt from", async () => {
    const fields = await formWith("Fennel core", "31", "wet");
    keepAnother();
    writeFileSync(fileOf("lunch.weigh-in.csv"), blank);
    const { status, text: said } = await served.get(`${AT}weigh-in`);
    expect(status).toBe(404);
    expect(said).toContain("this weigh-in is of another plan than the one that is kept here");
    const gone = await send("weigh-in", fields);
    const page = await gone.text();
    expect(gone.status).toBe(409);
    expect(page).toContain("this weigh-in is of another plan");
    expect(page).toContain("You wrote: left over, fennel core, staff meal: 31, wet.");
    const learnt = await send("learn");
    expect(learnt.status).toBe(409);
    expect(await learnt.text()).toContain("this weigh-in is of another plan");
    expect(text("lunch.weigh-in.csv")).toBe(blank);
  });

  it("beside a plan whose figures do not close is not read, and the page says where", async () => {
    const [, weight = ""] = /"weight": "(\d+)"/.exec(plan) ?? [];
    writeFileSync(fileOf("lunch.plan.json"), plan.replace(`"weight": "${weight}"`, '"weight": "1"'));
    for (const page of ["weigh-in", "replan", "happened/happened.html"]) {
      const { status, text: said } = await served.get(AT + page);
      expect([page, status]).toEqual([page, 404]);
      expect(said).toMatch(/lunch\.plan\.json: \/purchases: of the item \w+, \d+ g are too much/);
    }
    expect((await send("learn")).status).toBe(409);
  });

  it("of an earlier version, in which other numbers were planned, is of another plan", async () => {
    const old = blank.replace(/^plan,.*\n/m, "").replace(/^(bought,.*,bulb),\d+,/m, "$1,16,");
    writeFileSync(fileOf("lunch.weigh-in.csv"), old);
    const { status, text: said } = await served.get(`${AT}weigh-in`);
    expect(status).toBe(404);
    expect(said).toMatch(/lunch\.weigh-in\.csv: this weigh-in is of another plan/);
  });

  it("of an earlier version, which names no plan, is read and filled in as it was", async () => {
    const old = blank.replace(/^plan,.*\n/m, "");
    writeFileSync(fileOf("lunch.weigh-in.csv"), old);
    expect((await send("weigh-in", await formWith("Fennel core", "31", "wet"))).status).toBe(303);
    expect(text("lunch.weigh-in.csv")).toMatch(/,31,wet,AB,/);
    expect(text("lunch.weigh-in.csv")).not.toMatch(/^plan,/m);
  });
});
