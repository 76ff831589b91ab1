import { afterEach, describe, expect, it } from "vitest";
import { planSchema } from "../../src/contract/index.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

const SPINNING = new URL("../support/fixtures/spinning-plans.mjs", import.meta.url);
const SECONDS = 3;

let served: Served | undefined;
afterEach(() => served?.close());

/** A server whose engines loop for ever on whatever they are asked. */
async function serveHung(files: Record<string, string>, mostWaiting?: number): Promise<Served> {
  served = await serve(files, {
    planThread: () => SPINNING,
    seconds: SECONDS,
    ...(mostWaiting === undefined ? {} : { mostWaiting }),
  });
  return served;
}

describe("an engine in an endless loop", () => {
  it("is ended at its deadline while the server answers others", async () => {
    const { get, ask, settled } = await serveHung({
      "hung.yaml": marrowBake({ name: "Hung" }),
      "other.yaml": marrowBake({ name: "Other" }),
    });
    expect((await ask("hung.yaml")).status).toBe(303);
    const began = performance.now();
    const seconds = () => (performance.now() - began) / 1000;
    let answers = 0;
    let slowest = 0;
    while (seconds() < SECONDS * 0.4) {
      for (const path of ["/", "/scenario/other.yaml/", "/assets/style.css"]) {
        const asked = performance.now();
        expect((await get(path)).status).toBe(200);
        slowest = Math.max(slowest, (performance.now() - asked) / 1000);
        answers += 1;
      }
    }
    expect((await get("/scenario/hung.yaml/")).text).toContain("Being planned");
    expect(answers).toBeGreaterThanOrEqual(3);
    expect(slowest).toBeLessThan(1);

    expect(await settled("hung.yaml")).toContain("No answer in the time");
    expect(seconds()).toBeGreaterThan(SECONDS * 0.5);
    expect(seconds()).toBeLessThan(SECONDS + 4);
    const { outcome } = planSchema.parse(JSON.parse((await get("/scenario/hung.yaml/plan.json")).text));
    expect(outcome).toMatchObject({ kind: "failed", certified: false });
    expect(outcome.stoppedBy).toContain("deadline");
    expect((await ask("hung.yaml")).status).toBe(303);
    expect((await get("/scenario/hung.yaml/")).text).toContain("Being planned");
  });

  it("lets only so many plans wait behind it", async () => {
    const names = ["a", "b", "c", "d"];
    const files = Object.fromEntries(names.map((name) => [`${name}.yaml`, marrowBake({ name })]));
    const { get, ask } = await serveHung(files, 2);
    expect((await ask("a.yaml")).status).toBe(303);
    expect((await ask("b.yaml")).status).toBe(303);
    expect((await ask("c.yaml")).status).toBe(303);
    const refused = await ask("d.yaml");
    expect([refused.status, refused.headers.get("retry-after")]).toEqual([503, "10"]);
    expect(await refused.text()).toContain("Too many plans are waiting");
    expect((await ask("b.yaml")).status).toBe(303);
    expect((await get("/scenario/c.yaml/")).text).toContain("2 plans are made first.");
    expect((await get("/scenario/d.yaml/")).text).toContain("Not planned yet");
  });
});

describe("the progress of a plan", () => {
  it("comes as events until it is done, and by loading again where no script runs", async () => {
    const { get, ask, server } = await serveHung({ "hung.yaml": marrowBake() });
    await ask("hung.yaml");
    const screen = (await get("/scenario/hung.yaml/")).text;
    expect(screen).toContain('<noscript><meta http-equiv="refresh" content="2"></noscript>');
    expect(screen).toContain('data-progress="progress"');
    const response = await fetch(`${server.url}scenario/hung.yaml/progress`);
    expect(response.headers.get("content-type")).toMatch(/^text\/event-stream\b/);
    const events = (await response.text())
      .split("\n\n")
      .filter((event) => event !== "")
      .map((event) => JSON.parse(event.replace(/^data: /, "")) as { text: string; done: boolean });
    expect(events.length).toBeGreaterThanOrEqual(2);
    expect(events.map(({ done }) => done)).toEqual([...events.slice(1).map(() => false), true]);
    expect(events[0]?.text).not.toBe("");
  });
});
