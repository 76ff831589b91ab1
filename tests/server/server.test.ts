import { symlinkSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planSchema } from "../../src/contract/index.js";
import { EIGHT_MISTAKES, marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

let served: Served;
beforeAll(async () => {
  served = await serve({
    "bake.yaml": marrowBake(),
    "dear & small.yml": marrowBake({ name: "Dear <bake>", ceiling: "0.20" }),
    "wrong.yaml": EIGHT_MISTAKES,
    "notes.txt": "no scenario",
    ".hidden.yaml": marrowBake(),
  });
});
afterAll(() => served.close());

describe("the list of scenarios", () => {
  it("names every scenario file of the folder and nothing else, with how it stands", async () => {
    const { status, text } = await served.get("/");
    expect(status).toBe(200);
    expect([...text.matchAll(/href="(\/scenario\/[^"]+)"/g)].map((match) => match[1])).toEqual([
      "/scenario/bake.yaml/",
      "/scenario/dear%20%26%20small.yml/",
      "/scenario/wrong.yaml/",
    ]);
    expect(text).toContain("Not planned yet");
    expect(text).toContain("8 problems");
    expect(text).toContain("Dear &lt;bake&gt;");
  });

  it("says what to do where the folder holds none", async () => {
    const empty = await serve({});
    expect((await empty.get("/")).text).toContain("holds no scenario file yet");
    await empty.close();
  });
});

describe("a scenario with problems", () => {
  it("shows every problem with file, line and column, and cannot be planned", async () => {
    const { text } = await served.get("/scenario/wrong.yaml/");
    expect(text.match(/<li>wrong\.yaml:\d+:\d+: /g)).toHaveLength(8);
    expect(text).not.toContain("<form");
    expect((await served.ask("wrong.yaml")).status).toBe(303);
    expect((await served.get("/scenario/wrong.yaml/")).text).toContain("8 problems");
    expect((await served.get("/scenario/wrong.yaml/plan.json")).status).toBe(404);
  });
});

describe("a scenario planned when asked", () => {
  it("shows its pages and its JSON", async () => {
    expect((await served.get("/scenario/bake.yaml/plan.json")).status).toBe(404);
    expect((await served.get("/scenario/bake.yaml/pages/glance.html")).status).toBe(404);
    const answer = await served.ask("bake.yaml", { seconds: "10" });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/scenario/bake.yaml/"]);
    const screen = await served.settled("bake.yaml");
    expect(screen).toContain("Proved least waste");
    const pages = [...screen.matchAll(/href="(pages\/[^"]+)"/g)].map((match) => match[1]);
    expect(pages.length).toBeGreaterThanOrEqual(6);
    for (const page of pages) {
      const { status, type, text } = await served.get(`/scenario/bake.yaml/${page}`);
      expect([page, status, type]).toEqual([page, 200, "text/html; charset=utf-8"]);
      expect(text).toContain("Marrow bake");
      for (const [, asset] of text.matchAll(/<link rel="stylesheet" href="([^"]+)"/g)) {
        const { status: found, type: kind } = await served.get(asset ?? "");
        expect([found, kind]).toEqual([200, "text/css; charset=utf-8"]);
      }
    }
    const { type, text } = await served.get("/scenario/bake.yaml/plan.json");
    expect(type).toContain("application/json");
    const plan = planSchema.parse(JSON.parse(text));
    expect(plan.outcome).toMatchObject({ kind: "optimal", certified: true });
    expect(plan.purchases.map(({ units }) => units)).toEqual([2]);
  });

  it("is planned once for the same content, and anew when the file has changed", async () => {
    await served.ask("bake.yaml");
    await served.settled("bake.yaml");
    const first = (await served.get("/scenario/bake.yaml/plan.json")).text;
    await served.ask("bake.yaml");
    await served.settled("bake.yaml");
    expect((await served.get("/scenario/bake.yaml/plan.json")).text).toBe(first);

    writeFileSync(join(served.folder, "bake.yaml"), marrowBake({ portions: 12 }));
    expect((await served.get("/scenario/bake.yaml/")).text).toContain("Not planned yet");
    await served.ask("bake.yaml");
    await served.settled("bake.yaml");
    const { purchases } = planSchema.parse(
      JSON.parse((await served.get("/scenario/bake.yaml/plan.json")).text),
    );
    expect(purchases.map(({ units }) => units)).toEqual([3]);

    writeFileSync(join(served.folder, "bake.yaml"), marrowBake());
    expect((await served.get("/scenario/bake.yaml/plan.json")).text).toBe(first);
  });

  it("shows what would make a plan possible where there is none", async () => {
    await served.ask("dear & small.yml");
    const screen = await served.settled("dear & small.yml");
    expect(screen).toContain("No plan is possible as it stands");
    const { text } = await served.get("/scenario/dear%20%26%20small.yml/pages/no-plan.html");
    expect(text).toContain("Raise the ceiling");
    const plan = planSchema.parse(
      JSON.parse((await served.get("/scenario/dear%20%26%20small.yml/plan.json")).text),
    );
    expect(plan.outcome.kind).toBe("infeasible");
  });
});

describe("what the server refuses", () => {
  const post = (headers: Record<string, string>) =>
    fetch(`${served.server.url}scenario/bake.yaml/plan`, { method: "POST", headers, redirect: "manual" });

  it("plans nothing for a form on another site, or one that does not say where it is from", async () => {
    const own = served.server.url.slice(0, -1);
    for (const headers of [
      {},
      { origin: "http://elsewhere.example" },
      { origin: "null" },
      { origin: own, "sec-fetch-site": "cross-site" },
      { "sec-fetch-site": "same-site" },
    ]) {
      const response = await post(headers);
      expect([headers, response.status]).toEqual([headers, 403]);
      expect(await response.text()).toContain("Not from here");
    }
    expect((await post({ origin: own, "sec-fetch-site": "same-origin" })).status).toBe(303);
    expect((await post({ "sec-fetch-site": "same-origin" })).status).toBe(303);
  });

  it("answers only to this machine's own name", async () => {
    const status = await new Promise<number | undefined>((resolve, reject) => {
      request(served.server.url, { headers: { host: "rebound.example" } }, (response) => {
        response.resume();
        resolve(response.statusCode);
      })
        .on("error", reject)
        .end();
    });
    expect(status).toBe(421);
  });

  it("names no file outside its folder", async () => {
    writeFileSync(join(served.folder, "..", "trim-to-use-outside.yaml"), marrowBake({ name: "Outside" }));
    symlinkSync(join(served.folder, "..", "trim-to-use-outside.yaml"), join(served.folder, "link.yaml"));
    for (const path of [
      "/scenario/..%2Ftrim-to-use-outside.yaml/",
      "/scenario/%2e%2e%2ftrim-to-use-outside.yaml/plan.json",
      "/scenario/link.yaml/",
      "/scenario/.hidden.yaml/",
      "/scenario/notes.txt/",
      "/scenario/bake.yaml%00/",
      "/scenario/bake.yaml/pages/..%2F..%2Fbake.yaml",
      "/assets/..%2F..%2Fpackage.json",
      "/assets/%2e%2e/package.json",
    ]) {
      const { status, text } = await served.get(path);
      expect([path, status]).toEqual([path, 404]);
      expect(text).not.toMatch(/Outside|invented|devDependencies/);
    }
  });

  it("says in plain words what is wrong, and shows nothing of its inside", async () => {
    const cases: [string, number, string][] = [
      ["/nowhere", 404, "There is no such page"],
      ["/scenario/%E0%A4%A/", 400, "could not be read"],
    ];
    for (const [path, wanted, words] of cases) {
      const { status, text } = await served.get(path);
      expect([path, status]).toEqual([path, wanted]);
      expect(text).toContain(words);
      expect(text).not.toMatch(/node_modules|\.[jt]s:\d+|Error:/);
    }
  });

  it("lets a page load and send only what comes from here", async () => {
    const { headers } = await fetch(served.server.url);
    const policy = headers.get("content-security-policy") ?? "";
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain("unsafe");
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("x-powered-by")).toBeNull();
  });
});
