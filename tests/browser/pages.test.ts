import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type RunningServer, startServer } from "../../src/server/index.js";
import { accessibilityFaults, openBrowser, SCREENS, sidewaysScroll } from "../support/browser.js";
import { clippedText, type Paper } from "../support/clipping.js";
import { exampleNames } from "../support/examples.js";
import { crownTests } from "../support/own-tests.js";
import { sheetText } from "../support/pdf.js";
import { serve } from "../support/served.js";

const EXAMPLES = fileURLToPath(new URL("../../examples/", import.meta.url));
const PAPERS: Paper[] = ["A4", "Letter"];
const SECONDS = 40;

let server: RunningServer;
let browser: Browser;
let page: Page;
/** What the browser complained of: scripts that failed, files that did not load, what the policy blocked. */
let complaints: string[];

beforeAll(async () => {
  server = await startServer({ folder: EXAMPLES, port: 0, seconds: SECONDS });
  browser = await openBrowser();
  page = await browser.newPage({ viewport: SCREENS.desktop });
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", ({ message }) => complaints.push(message));
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

/** Everything wrong with the page as it stands, on a screen and on paper, each with where it was seen. */
async function faultsOf(address: string): Promise<string[]> {
  complaints = [];
  await page.goto(address);
  return faultsHere();
}

async function faultsHere(): Promise<string[]> {
  const faults: string[] = [];
  for (const [screen, size] of Object.entries(SCREENS)) {
    await page.setViewportSize(size);
    faults.push(...(await accessibilityFaults(page)).map((fault) => `${screen}: ${fault}`));
    const scroll = await sidewaysScroll(page);
    if (scroll > 0) faults.push(`${screen}: scrolls ${scroll} px sideways`);
  }
  await page.setViewportSize(SCREENS.desktop);
  for (const paper of PAPERS) {
    const { faults: clipped, sheets } = await clippedText(page, paper);
    faults.push(...clipped.map((fault) => `${paper}: ${fault}`));
    sheets.forEach((sheet, index) => {
      const number = `page ${index + 1} of ${sheets.length}`;
      if (!sheetText(sheet).includes(number)) faults.push(`${paper}: sheet ${index + 1} lacks "${number}"`);
    });
  }
  return [...faults, ...complaints.map((complaint) => `browser: ${complaint}`)];
}

describe("the page of an item's forms", () => {
  it("is asked for on the scenario's screen, and is sound on a laptop, a phone, A4 and US Letter", async () => {
    await page.goto(server.addressOf("two-forms.yaml"));
    await page.getByLabel("Wage for an hour").fill("14.00 / h");
    await page.getByRole("button", { name: "Compare" }).click();
    // The page that waits has the same heading.
    await page.getByText("By usable weight:").waitFor();
    complaints = [];
    expect(await faultsHere()).toEqual([]);
  });
});

describe("the pages that answer questions", () => {
  it.each([
    ["us-units", "tradeoff", "The plans, from least waste to least spend"],
    ["smallest", "worth", "Dishes: what each one changes"],
  ])(
    "of the example %s are sound on a laptop, a phone, A4 and US Letter: %s",
    async (name, slug, caption) => {
      const address = `${server.addressOf(`${name}.yaml`)}${slug}`;
      expect(await faultsOf(address)).toEqual([]);
      await page.getByRole("button", { name: "Find out" }).click();
      await page.getByText(caption).waitFor();
      expect(await faultsOf(address)).toEqual([]);
    },
  );
});

describe.each(exampleNames())("the pages of the example %s", (name) => {
  it("are sound on a laptop, a phone, A4 and US Letter", async () => {
    const planned = await server.plan(`${name}.yaml`);
    expect(planned).not.toBeNull();
    const start = server.addressOf(`${name}.yaml`);
    await page.goto(start);
    const pages = await page.$$eval('a[href^="pages/"]', (links) =>
      links.map((link) => link.getAttribute("href")),
    );
    expect(pages.length).toBeGreaterThanOrEqual(planned?.planned.weighIn === null ? 1 : 6);
    const faults: string[] = [];
    for (const path of pages)
      faults.push(...(await faultsOf(`${start}${path}`)).map((fault) => `${path}: ${fault}`));
    expect(faults).toEqual([]);
  }, 180_000);
});

describe("the safety case", () => {
  it("is sound on a laptop, a phone, A4 and US Letter", async () => {
    expect(await faultsOf(`${server.url}safety-case`)).toEqual([]);
  });
});

describe("the pages of yields", () => {
  it("are sound on a laptop, a phone, A4 and US Letter", async () => {
    const kitchen = await serve({ "yield-tests.csv": crownTests([1, 2, 3, 4, 5]) });
    const faults: string[] = [];
    for (const path of ["yields/", "yields/broccoli/", "yields/broccoli/test?form=crown&breakdown=florets"])
      faults.push(...(await faultsOf(kitchen.server.url + path)).map((fault) => `${path}: ${fault}`));
    await kitchen.close();
    expect(faults).toEqual([]);
  });
});

describe("the test cards of the examples and the blank forms", () => {
  it("are sound on a laptop, a phone, A4 and US Letter", async () => {
    const hrefs = async (address: string, links: string) => {
      await page.goto(address);
      return page.$$eval(links, (all) =>
        all.map((link) => (link instanceof HTMLAnchorElement ? link.href : "")),
      );
    };
    const cards = await hrefs(server.url, 'a[href^="/test-card/"]');
    const pages = await hrefs(server.url, 'a[href^="/forms/"]');
    expect([cards.length, pages.length]).toEqual([1, 2]);
    for (const card of cards) pages.push(...(await hrefs(card, 'a[href$=".html"]:not([href*="form"])')));
    expect(pages.length).toBe(4);
    const faults: string[] = [];
    for (const path of pages) faults.push(...(await faultsOf(path)).map((fault) => `${path}: ${fault}`));
    expect(faults).toEqual([]);
    // To be filled in at the bench: one sheet each, blank or after the example.
    const forms = [
      ...pages.slice(0, 2),
      `${cards[0]}butchers-test-form.html`,
      `${cards[0]}cooking-loss-form.html`,
    ];
    for (const form of forms) {
      await page.goto(form);
      expect((await clippedText(page, "Letter")).sheets.length, form).toBe(1);
    }
  });
});
