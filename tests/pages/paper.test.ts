/// <reference lib="dom" />
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pageAssets, renderPages } from "../../src/pages/index.js";
import { openBrowser } from "../support/browser.js";
import type { Paper } from "../support/clipping.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";
import { readPdf, sheetText } from "../support/pdf.js";

/** Width between the margins of the sheet, in CSS pixels: 190 mm of A4, 195.9 mm of Letter. */
const INNER_WIDTH: Readonly<Record<Paper, number>> = { A4: 718, Letter: 740 };
const pages = renderPages(hallPlan, hallScenario);
const slugs = pages.map(({ slug }) => slug);

let folder: string;
let browser: Browser;
let page: Page;

/** The pages as files, as `plan --out` leaves them, opened without a server. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "pages-"));
  const write = (path: string, content: string | Buffer) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  };
  for (const { slug, html } of pages) write(`${slug}.html`, html);
  for (const { path, content } of pageAssets()) write(`assets/${path}`, content);
  browser = await openBrowser();
  page = await browser.newPage();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

async function open(slug: string): Promise<void> {
  await page.goto(pathToFileURL(join(folder, `${slug}.html`)).href);
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
}

/** Runs in the browser: text smaller than `least` CSS pixels where it is seen, drawn text at its drawn size. */
function smallText({ least, selector }: { least: number; selector: string }): string[] {
  const small: string[] = [];
  for (const element of document.querySelectorAll(selector)) {
    const own = [...element.childNodes].some(
      (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? "").trim() !== "",
    );
    if (!own || element.matches("title, desc, option") || element.closest(".sr") !== null) continue;
    if (!element.checkVisibility({ visibilityProperty: true })) continue;
    const svg = element.closest("svg");
    const scale = svg === null ? 1 : (svg.getScreenCTM()?.a ?? 1);
    const size = Number.parseFloat(getComputedStyle(element).fontSize) * scale;
    if (size < least - 0.01) small.push(`${(element.textContent ?? "").trim().slice(0, 40)}: ${size} px`);
  }
  return small;
}

const POINT = 96 / 72;

describe.each(slugs)("the page %s, opened as a file", (slug) => {
  it("uses its own font", async () => {
    await open(slug);
    expect(await page.evaluate(() => document.fonts.check('400 17px "IBM Plex Sans"'))).toBe(true);
    const faces = await page.evaluate(() =>
      [...document.fonts].filter(({ status }) => status === "loaded").map(({ weight }) => weight),
    );
    expect(new Set(faces)).toEqual(new Set(["400", "600"]));
  });

  it.each(["A4", "Letter"] as const)(
    "is in 11 points and more on %s, weights to measure in 14",
    async (paper) => {
      await open(slug);
      await page.emulateMedia({ media: "print" });
      await page.setViewportSize({ width: INNER_WIDTH[paper], height: 900 });
      const all = await page.evaluate(smallText, { least: 11 * POINT, selector: "body *" });
      const measured = await page.evaluate(smallText, { least: 14 * POINT, selector: ".measure" });
      await page.emulateMedia({ media: null });
      expect([...all, ...measured]).toEqual([]);
    },
  );

  it.each([1280, 390])(
    "is in 17 pixels and more on a screen %s wide, all that is pressed 48 high",
    async (width) => {
      await page.setViewportSize({ width, height: 900 });
      await open(slug);
      expect(await page.evaluate(smallText, { least: 17, selector: "body *" })).toEqual([]);
      const low = await page.$$eval("a, label", (targets) =>
        targets
          .filter((target) => target.getBoundingClientRect().height < 48)
          .map((target) => target.textContent),
      );
      expect(low).toEqual([]);
    },
  );

  it.each(["A4", "Letter"] as const)(
    "has the plan, its days and its number on every sheet of %s",
    async (paper) => {
      await open(slug);
      const sheets = await readPdf(await page.pdf({ format: paper }));
      sheets.forEach((sheet, index) => {
        const text = sheetText(sheet).replace(/\s+/g, " ");
        expect(text).toContain(`page ${index + 1} of ${sheets.length}`);
        expect(text).toContain(hallScenario.name);
        expect(text).toContain("Friday dinner to Saturday dinner");
        expect(text).toContain("Local codes and licensed practice come first.");
      });
    },
  );
});

describe("the dish sheets and cutting sheets on paper", () => {
  it("start each dish on a sheet of its own", async () => {
    await open("dishes");
    const sheets = (await readPdf(await page.pdf({ format: "A4" }))).map(sheetText);
    for (const { dish } of hallPlan.dishes)
      expect(sheets.filter((text) => text.includes(dish) && text.includes("Allergens"))).toHaveLength(1);
  });

  it("keep raw poultry off the sheet of food that is ready to eat", async () => {
    await open("cutting");
    const sheets = (await readPdf(await page.pdf({ format: "A4" }))).map(sheetText);
    expect(sheets.some((text) => text.includes("Raw poultry"))).toBe(true);
    for (const text of sheets)
      expect(text.includes("Raw poultry") && text.includes("broccoli floret")).toBe(false);
  });
});
