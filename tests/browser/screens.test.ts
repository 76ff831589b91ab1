import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityFaults, openBrowser, SCREENS, sidewaysScroll } from "../support/browser.js";
import { clippedText } from "../support/clipping.js";
import { run } from "../support/program.js";
import { EIGHT_MISTAKES, marrowBake, TWO_EVENINGS } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

const SPINNING = new URL("../support/fixtures/spinning-plans.mjs", import.meta.url);
const FILES = { "bake.yaml": marrowBake(), "wrong.yaml": EIGHT_MISTAKES };
const AFTER_SERVICE = new URL("../../examples/after-service/", import.meta.url);
const LEAST_TARGET = 48;

let browser: Browser;
let page: Page;
let served: Served;
const complaints: string[] = [];
beforeAll(async () => {
  browser = await openBrowser();
  page = await browser.newPage({ viewport: SCREENS.phone });
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", ({ message }) => complaints.push(message));
  served = await serve(FILES);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

/** What is wrong with the screen as it stands, at both widths; targets are links and controls under 48 px. */
async function faults(): Promise<string[]> {
  const found: string[] = [];
  for (const [name, size] of Object.entries(SCREENS)) {
    await page.setViewportSize(size);
    found.push(...(await accessibilityFaults(page)).map((fault) => `${name}: ${fault}`));
    if ((await sidewaysScroll(page)) > 0) found.push(`${name}: scrolls sideways`);
  }
  await page.setViewportSize(SCREENS.phone);
  const targets = await page.$$eval("a, button, select", (all) =>
    all.map((each) => ({ text: each.textContent, height: each.getBoundingClientRect().height })),
  );
  found.push(
    ...targets.filter(({ height }) => height < LEAST_TARGET).map(({ text }) => `"${text}" is a small target`),
  );
  return [...found, ...complaints.splice(0)];
}

describe("the server's screens", () => {
  it("lead a cook from the list to a plan and its pages, by keyboard and without fault", async () => {
    await page.goto(served.server.url);
    expect(await faults()).toEqual([]);
    await page.getByRole("link", { name: "Marrow bake" }).click();
    expect(await faults()).toEqual([]);
    await page.getByLabel("Time it may take").selectOption("60");
    await page.getByRole("button", { name: "Plan it" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("link", { name: "Plan at a glance" }).waitFor();
    expect(await page.getByRole("status").textContent()).toContain("Proved least waste");
    expect(await faults()).toEqual([]);
    await page.getByRole("link", { name: "Plan at a glance" }).click();
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("Plan at a glance");
    await page.getByRole("link", { name: "Scenario", exact: true }).click();
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("Marrow bake");
  });

  it("list problems and say what is not there, without fault", async () => {
    await page.goto(`${served.server.url}scenario/wrong.yaml/`);
    expect(await page.getByRole("listitem").count()).toBeGreaterThanOrEqual(8);
    expect(await faults()).toEqual([]);
    await page.goto(`${served.server.url}nowhere`);
    complaints.length = 0;
    expect(await faults()).toEqual([]);
  });

  it("show progress while a plan is made, with a script and without", async () => {
    // Long enough to look at the screen at both widths on a slow machine.
    const slow = await serve(FILES, { planThread: () => SPINNING, seconds: 15 });
    const address = `${slow.server.url}scenario/bake.yaml/`;
    await slow.ask("bake.yaml");
    await page.goto(address);
    expect(await page.getByRole("status").textContent()).toContain("Being planned");
    expect(await faults()).toEqual([]);
    const plain = await browser.newPage({ javaScriptEnabled: false });
    await plain.goto(address);
    for (const each of [page, plain])
      await each.getByText("No answer in the time").waitFor({ timeout: 60_000 });
    await plain.close();
    await slow.close();
  });
});

describe("a yield test", () => {
  it("is found, filled in by keyboard, put right and recorded, without fault", async () => {
    await page.goto(served.server.url);
    await page.getByRole("link", { name: "Yields of every item" }).click();
    await page.getByRole("link", { name: "leek", exact: true }).click();
    expect(await faults()).toEqual([]);
    await page.getByRole("link", { name: "Weigh it: yield test" }).first().click();
    expect(await faults()).toEqual([]);
    const parts = await page.$$eval('input[name^="weight-"]', (inputs) =>
      inputs.map((input) => input.getAttribute("name")),
    );
    await page.getByLabel("Supplier").fill("Field & Co");
    await page.getByLabel("Date").fill("2026-10-12");
    const units = page.getByLabel(/^Number of/);
    if ((await units.count()) > 0) await units.fill("2");
    await page.getByLabel("Weight as bought, g").fill(String(parts.length * 100 + 50));
    const missing = page.locator(".missing output");
    await page.locator('[name="weight-0"]').fill("99,5");
    expect(await missing.textContent()).toBe("Digits, with a point");
    for (const part of parts) await page.locator(`[name="${part}"]`).fill("100");
    expect(await missing.textContent()).toBe("50 g missing");
    await page.getByLabel("cutting loss").fill("50.4");
    expect(await missing.textContent()).toBe("Closes; the scale explains 0.4 g");
    await page.getByLabel("cutting loss").fill("60.75");
    expect(await missing.textContent()).toBe("10.75 g too much");
    await page.getByLabel("cutting loss").fill("");
    await page.keyboard.press("Enter");
    await page.getByRole("alert").waitFor();
    expect(await missing.textContent()).toBe("50 g missing");
    expect(await page.getByLabel("Weight as bought, g").getAttribute("aria-invalid")).toBe("true");
    expect(await page.locator("#apWeight-error").textContent()).toContain("50 g missing");
    complaints.length = 0;
    expect(await faults()).toEqual([]);
    await page.getByLabel("Weight as bought, g").fill(String(parts.length * 100));
    await page.getByRole("button", { name: "Record" }).click();
    await page.getByText("Own tests beside the published figures").first().waitFor();
    expect(await page.getByRole("status").textContent()).toContain("Recorded.");
    expect(await faults()).toEqual([]);
  });
});

describe("the weigh-in", () => {
  it("is filled in on a phone, says what does not close, and shows what happened, without fault", async () => {
    const weighed = await serve(
      Object.fromEntries(
        ["lunch.yaml", "lunch.plan.json", "lunch.weigh-in.csv"].map((name) => [
          name,
          readFileSync(new URL(name, AFTER_SERVICE), "utf8"),
        ]),
      ),
    );
    await page.goto(`${weighed.server.url}scenario/lunch.yaml/`);
    await page.getByRole("link", { name: "Weigh in against" }).click();
    expect(await faults()).toEqual([]);
    const root = page.getByLabel(/^Root/);
    await root.fill("about 2900");
    await page.getByLabel("Initials").fill("MK");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByRole("alert").waitFor();
    expect(await root.inputValue()).toBe("about 2900");
    expect(await root.getAttribute("aria-invalid")).toBe("true");
    complaints.length = 0;
    expect(await faults()).toEqual([]);
    await root.fill("2764");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByText("100 g missing").waitFor();
    expect(await faults()).toEqual([]);
    await root.fill("2864");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByRole("link", { name: "What happened" }).click();
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("What happened");
    expect(await faults()).toEqual([]);
    for (const paper of ["A4", "Letter"] as const) {
      const { faults: clipped } = await clippedText(page, paper);
      expect(clipped).toEqual([]);
    }
    await weighed.close();
  });
});

describe("on the day", () => {
  it("what an offcut is good for and the rest of a plan are asked and answered, without fault", async () => {
    const kitchen = await serve({ "two.yaml": TWO_EVENINGS });
    const address = `${kitchen.server.url}scenario/two.yaml/`;
    const isWhole = async (title: string) => {
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(title);
      expect(await faults()).toEqual([]);
      for (const paper of ["A4", "Letter"] as const)
        expect((await clippedText(page, paper)).faults).toEqual([]);
    };
    await kitchen.ask("two.yaml");
    await kitchen.settled("two.yaml");
    await page.goto(address);
    await page.getByLabel("Part").selectOption("marrow dice");
    await page.getByLabel("Weight").fill("600 g");
    await page.getByRole("button", { name: "Find uses" }).click();
    await isWhole("Uses for an offcut");
    await page.goto(address);
    await page.getByRole("button", { name: "Keep this plan" }).click();
    await page.goto(address);
    await page.getByRole("link", { name: "Plan the rest of it anew" }).click();
    expect(await faults()).toEqual([]);
    await page.getByLabel("The first service not yet cooked for").selectOption("Friday");
    await page.getByText("What the cuts for Thursday gave").click();
    await page.getByLabel("marrow dice").fill("lots");
    await page.getByRole("button", { name: "Plan the rest anew" }).click();
    await page.getByRole("alert").waitFor();
    complaints.length = 0;
    expect(await faults()).toEqual([]);
    await page.getByLabel("marrow dice").fill("3.2 kg");
    await page.getByRole("button", { name: "Plan the rest anew" }).click();
    await page.getByRole("heading", { name: "What changes today", level: 1 }).waitFor();
    await isWhole("What changes today");
    await kitchen.close();
  });
});

describe("pages written by plan --out", () => {
  it("open from the disk without a server, with their style and links", async () => {
    const folder = mkdtempSync(join(tmpdir(), "trim-to-use-out-"));
    const out = join(folder, "pages");
    expect((await run("plan", "examples/smallest.yaml", "--out", out)).code).toBe(0);
    complaints.length = 0;
    await page.goto(pathToFileURL(join(out, "glance.html")).href);
    const fonts = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].filter(({ status }) => status === "loaded").map(({ family }) => family);
    });
    expect(fonts.join()).toContain("IBM Plex Sans");
    const others = await page.$$eval("nav a", (links) => links.map((link) => link.textContent));
    expect(others.length).toBeGreaterThanOrEqual(6);
    for (const name of others) {
      await page
        .getByRole("navigation")
        .getByRole("link", { name: name ?? "", exact: true })
        .click();
      expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(name);
    }
    expect(complaints).toEqual([]);
    rmSync(folder, { recursive: true });
  });
});
