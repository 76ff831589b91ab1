import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";
import { TWO_LEEKS } from "../support/two-leeks.js";

let served: Served;
beforeAll(async () => {
  served = await serve({ "leeks.yaml": TWO_LEEKS, "bake.yaml": marrowBake(), "wrong.yaml": "scenario: 1" });
});
afterAll(() => served.close());

const ask = (path: string, origin = served.server.url.slice(0, -1)) =>
  fetch(`${served.server.url.slice(0, -1)}${path}`, {
    method: "POST",
    headers: { origin },
    body: new URLSearchParams({ seconds: "60" }),
    redirect: "manual",
  });

/** The screen once nothing is waited for any more, told by its own progress. */
async function answered(path: string): Promise<string> {
  const { text: news } = await served.get(`${path}/progress`);
  expect(news.trim().split("\n").at(-1)).toBe('data: {"text":"Done.","done":true}');
  return (await served.get(path)).text;
}

describe("questions on a scenario", () => {
  it("are offered on its screen, asked for, and answered on a page that is held", async () => {
    expect((await served.get("/scenario/leeks.yaml/")).text).toContain('href="tradeoff"');
    expect((await served.get("/scenario/leeks.yaml/tradeoff")).text).toContain("Find out");
    const response = await ask("/scenario/leeks.yaml/tradeoff");
    expect([response.status, response.headers.get("location")]).toEqual([
      303,
      "/scenario/leeks.yaml/tradeoff",
    ]);
    const page = await answered("/scenario/leeks.yaml/tradeoff");
    expect(page).toContain("<caption>The plans, from least waste to least spend</caption>");
    expect(page.match(/<th scope="row"/g)).toHaveLength(4);
    expect((await served.get("/scenario/leeks.yaml/tradeoff")).text).toBe(page);
  });

  it("are answered in turn, one after the other", async () => {
    await ask("/scenario/bake.yaml/worth");
    await ask("/scenario/bake.yaml/tradeoff");
    expect(await answered("/scenario/bake.yaml/tradeoff")).toContain("One plan is best in both");
    expect((await served.get("/scenario/bake.yaml/worth")).text).toContain("marrow dice");
  });

  it("are not asked by another site's page, nor of a scenario with problems", async () => {
    expect((await ask("/scenario/leeks.yaml/worth", "http://elsewhere.example")).status).toBe(403);
    const wrong = await ask("/scenario/wrong.yaml/worth");
    expect(wrong.headers.get("location")).toBe("/scenario/wrong.yaml/");
  });
});
