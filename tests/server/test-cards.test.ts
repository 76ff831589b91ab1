import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { rewritten } from "../support/examples.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";
import { VEAL } from "../support/test-cards.js";

let served: Served;
beforeAll(async () => {
  served = await serve({
    "bake.yaml": marrowBake(),
    "veal breast.yaml": VEAL,
    "wrong.yaml": rewritten(VEAL, "cutting_loss: 50 g", "cutting_loss: 20 g"),
  });
});
afterAll(() => served.close());

describe("test cards on the server", () => {
  it("are listed on the first page apart from scenarios, with blank forms", async () => {
    const { text } = await served.get("/");
    expect(text).toContain('<a class="press" href="/scenario/bake.yaml/">');
    expect(text).not.toContain("/scenario/veal");
    expect(text).toContain('<a class="press" href="/test-card/veal%20breast.yaml/">Veal breast</a>');
    expect(text).toContain("Butcher&#x27;s test, then cooking-loss test");
    expect(text).toContain("1 problem");
    expect(text).toContain('href="/forms/cooking-loss-form.html"');
  });

  it("lead to their pages and their forms", async () => {
    const { text } = await served.get("/test-card/veal%20breast.yaml/");
    const links = [...text.matchAll(/href="([\w-]+\.html)"/g)].map(([, link]) => link);
    expect(links).toEqual([
      "butchers-test.html",
      "cooking-loss.html",
      "butchers-test-form.html",
      "cooking-loss-form.html",
    ]);
    for (const link of links) {
      const page = await served.get(`/test-card/veal%20breast.yaml/${link}`);
      expect([page.status, page.text.includes("Veal breast")]).toEqual([200, true]);
    }
    expect((await served.get("/forms/butchers-test-form.html")).text).toContain("Butcher&#x27;s test, blank");
  });

  it("say what is wrong with them, and what is not there", async () => {
    const { text } = await served.get("/test-card/wrong.yaml/");
    expect(text).toContain("wrong.yaml:5:1: by-products, cutting loss and usable weight make 5170 g");
    for (const path of [
      "/test-card/bake.yaml/",
      "/test-card/wrong.yaml/butchers-test.html",
      "/test-card/veal%20breast.yaml/x.html",
      "/scenario/veal%20breast.yaml/",
      "/forms/x.html",
      "/test-card/..%2Fveal.yaml/",
    ])
      expect((await served.get(path)).status, path).toBe(404);
  });
});
