import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { AnswersHeld } from "../../src/server/answers-held.js";
import { Queue } from "../../src/server/queue.js";
import { Stopped } from "../../src/server/work/stopped.js";
import { TaskThread, threadFile } from "../../src/server/work/task-thread.js";
import type { PlanTasks } from "../../src/server/work/tasks.js";
import { exampleText } from "../support/examples.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

const SPINNING = new URL("../support/fixtures/spinning-plans.mjs", import.meta.url);
const PATIENCE = 1.5;

let served: Served | undefined;
afterEach(() => served?.close());

/** A server whose first engines loop for ever on whatever they are asked; those made after them do not. */
async function serveHung(files: Record<string, string>, patience = PATIENCE): Promise<Served> {
  let made = 0;
  const planThread = () => (made++ === 0 ? SPINNING : threadFile("plan-worker"));
  served = await serve(files, { planThread, seconds: 300, patience });
  return served;
}

const pause = (seconds: number) => new Promise((resolve) => setTimeout(resolve, seconds * 1000));

/** The share of one core that this process and its threads take for half a second. */
async function load(): Promise<number> {
  const before = process.cpuUsage();
  await pause(0.5);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 500_000;
}

function post({ server }: Served, path: string, fields: Record<string, string> = {}): Promise<Response> {
  const origin = server.url.slice(0, -1);
  const body = new URLSearchParams(fields);
  return fetch(origin + path, { method: "POST", headers: { origin }, body, redirect: "manual" });
}

const FILES = {
  "hung.yaml": marrowBake({ name: "Hung" }),
  "next.yaml": marrowBake({ name: "Next" }),
  "last.yaml": marrowBake({ name: "Last" }),
  "two.yaml": exampleText("two-forms"),
};

describe("a plan that nobody watches", () => {
  it("is stopped, leaves the cores to others, and the next is made", async () => {
    const all = await serveHung(FILES);
    await all.ask("hung.yaml", { seconds: "300" });
    expect((await all.get("/scenario/hung.yaml/")).text).toContain("Being planned");
    const spinning = await load();
    await pause(PATIENCE * 1.5);
    expect(await load()).toBeLessThan(spinning / 2);
    expect((await all.get("/scenario/hung.yaml/")).text).toContain(
      "Not planned: it was stopped, as nobody waited for it",
    );
    await all.ask("next.yaml");
    expect(await all.settled("next.yaml")).toContain("Proved least waste");
  }, 30_000);

  it("is made as long as its screen is loaded again, or its progress is listened to", async () => {
    const all = await serveHung(FILES);
    await all.ask("hung.yaml", { seconds: "300" });
    for (let turn = 0; turn < 4; turn++) {
      await pause(PATIENCE / 2);
      expect((await all.get("/scenario/hung.yaml/")).text).toContain("Being planned");
    }
    for (let turn = 0; turn < 4; turn++) {
      await pause(PATIENCE / 2);
      expect((await all.get("/scenario/hung.yaml/plan.json")).status).toBe(404);
    }
    expect((await all.get("/")).text).toContain("Being planned");
    const listening = new AbortController();
    const news = await fetch(`${all.server.url}scenario/hung.yaml/progress`, { signal: listening.signal });
    await pause(PATIENCE * 2);
    expect((await all.get("/")).text).toContain("Being planned");
    listening.abort();
    await news.body?.cancel().catch(() => undefined);
    await pause(PATIENCE * 1.5);
    expect((await all.get("/")).text).toContain("it was stopped");
  }, 30_000);

  it("leaves its place in the queue, though others wait on", async () => {
    const all = await serveHung(FILES);
    for (const name of ["hung.yaml", "next.yaml", "last.yaml"]) await all.ask(name, { seconds: "300" });
    expect((await all.get("/scenario/last.yaml/")).text).toContain("2 plans are made first.");
    const watch = setInterval(() => {
      for (const name of ["hung", "last"]) void all.get(`/scenario/${name}.yaml/`);
    }, 300);
    await pause(PATIENCE * 2);
    clearInterval(watch);
    expect((await all.get("/scenario/last.yaml/")).text).toContain("1 plan is made first.");
    expect((await all.get("/")).text).toMatch(/Next[\s\S]{0,200}it was stopped/);
  }, 30_000);
});

describe("a server that is closed", () => {
  it("takes nothing more, also of a request that was still being read", async () => {
    const thread = new TaskThread<PlanTasks>({ file: () => threadFile("plan-worker"), outOfMemory: "" });
    const queue = new Queue({ thread, mostWaiting: 8, patienceMs: 1000 });
    await queue.close();
    const file = { name: "next.yaml", text: marrowBake(), ownTests: null, hash: "1" };
    expect(queue.add("plan", { file, seconds: 1 })).toBeNull();
  });
});

describe("answers that are held", () => {
  it("are fifty, without those being made, and the oldest goes first", async () => {
    const held = new AnswersHeld();
    const page = { status: 200, html: "" };
    const place = {
      done: Promise.resolve(page),
      ahead: () => 0,
      look: () => undefined,
      stop: () => undefined,
    };
    for (let key = 0; key < 60; key++) await held.ask(`${key}`, "Answer", () => place);
    const kept = Array.from({ length: 60 }, (_, key) => held.answer(`${key}`)?.answer.kind);
    expect(kept.filter((kind) => kind === "answered").length).toBe(50);
    expect([kept[0], kept[59]]).toEqual([undefined, "answered"]);
  });

  it("stay where asking again is stopped", async () => {
    const held = new AnswersHeld();
    const places = { ahead: () => 0, look: () => undefined, stop: () => undefined };
    const page = { status: 200, html: "first" };
    await held.ask("key", "Answer", () => ({ ...places, done: Promise.resolve(page) }));
    await held.ask("key", "Answer", () => ({ ...places, done: Promise.reject(new Stopped("it was")) }));
    expect(held.answer("key")?.answer).toEqual({ kind: "answered", answer: page });
  });
});

describe("stop", () => {
  it("ends a plan and begins the next", async () => {
    const all = await serveHung(FILES, 60);
    await all.ask("hung.yaml", { seconds: "300" });
    await all.ask("next.yaml");
    const { text } = await all.get("/scenario/hung.yaml/");
    expect(text).toMatch(/<form method="post" action="stop">\s*<button type="submit">Stop</);
    expect(text).toContain('<noscript><meta http-equiv="refresh" content="2"></noscript>');
    const stopped = await post(all, "/scenario/hung.yaml/stop");
    expect([stopped.status, stopped.headers.get("location")]).toEqual([303, "/scenario/hung.yaml/"]);
    expect((await all.get("/scenario/hung.yaml/")).text).toContain("Not planned: it was stopped");
    expect(await all.settled("next.yaml")).toContain("Proved least waste");
  }, 30_000);

  it("ends a plan also where its file has changed since", async () => {
    const all = await serveHung(FILES, 60);
    await all.ask("hung.yaml", { seconds: "300" });
    await all.ask("next.yaml");
    writeFileSync(join(all.folder, "hung.yaml"), marrowBake({ name: "Otherwise" }));
    await post(all, "/scenario/hung.yaml/stop");
    expect(await all.settled("next.yaml")).toContain("Proved least waste");
  }, 30_000);

  it("ends a question and a form's answer, which say their place until then", async () => {
    const all = await serveHung(FILES, 60);
    await all.ask("hung.yaml", { seconds: "300" });
    await post(all, "/scenario/next.yaml/worth");
    const asked = await post(all, "/scenario/two.yaml/forms", { item: "broccoli" });
    const address = asked.headers.get("location") ?? "";
    expect([asked.status, address]).toEqual([303, expect.stringMatching(/^\/scenario\/two\.yaml\/answer-/)]);
    const waiting = (await all.get(address)).text;
    expect(waiting).toContain("2 plans are made first.");
    expect(waiting).toContain('http-equiv="refresh"');
    expect((await all.get("/scenario/next.yaml/worth")).text).toContain("1 plan is made first.");
    expect((await post(all, "/scenario/next.yaml/worth/stop")).status).toBe(303);
    expect((await all.get("/scenario/next.yaml/worth")).text).toContain("Not answered: it was stopped");
    expect((await all.get(address)).text).toContain("1 plan is made first.");
    await post(all, "/scenario/hung.yaml/stop");
    for (;;) {
      const { text, status } = await all.get(address);
      if (text.includes("data-progress")) await pause(0.1);
      else {
        expect([status, text.includes("<h1>Which form to buy</h1>")]).toEqual([200, true]);
        break;
      }
    }
  }, 60_000);

  it("ends a form's answer that is being worked at", async () => {
    const all = await serveHung(FILES, 60);
    const asked = await post(all, "/scenario/two.yaml/forms", { item: "broccoli" });
    const address = asked.headers.get("location") ?? "";
    const spinning = await load();
    await post(all, `${address}/stop`);
    expect((await all.get(address)).text).toContain("Not answered: it was stopped");
    expect(await load()).toBeLessThan(spinning / 2);
    expect((await all.get(`${address.slice(0, -3)}000`)).status).toBe(404);
  }, 30_000);

  it("is taken from this server's own pages only", async () => {
    const all = await serveHung(FILES, 60);
    await all.ask("hung.yaml", { seconds: "300" });
    const foreign = { method: "POST", headers: { origin: "http://elsewhere.example" } };
    for (const path of ["stop", "worth/stop", "answer-1/stop"])
      expect((await fetch(`${all.server.url}scenario/hung.yaml/${path}`, foreign)).status, path).toBe(403);
    expect((await all.get("/scenario/hung.yaml/")).text).toContain("Being planned");
  }, 30_000);
});
