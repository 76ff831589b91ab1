/// <reference lib="dom" />
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { expect, it } from "vitest";
import { openBrowser } from "../support/browser.js";
import { run } from "../support/program.js";

const PICTURES = fileURLToPath(new URL("../../examples/pictures/", import.meta.url));
/** A sheet of A4 at 96 pixels an inch, without its margins. */
const SHEET = { width: 703, height: 1000 };
const MARGIN = 44;

/** Draws the pictures of the demo's pages anew: `PICTURES=1 npx vitest run tests/docs/pictures.test.ts`. */
it.runIf(process.env.PICTURES !== undefined)(
  "draws the pictures of the demo's pages",
  async () => {
    const folder = mkdtempSync(join(tmpdir(), "pictures-"));
    const { code } = await run("plan", "examples/demo.yaml", "--seconds", "60", "--out", folder);
    expect(code).toBe(0);
    const browser = await openBrowser();
    const page = await browser.newPage({
      viewport: { width: SHEET.width + 2 * MARGIN, height: SHEET.height + 2 * MARGIN },
    });
    for (const [name, slug] of [
      ["glance", "glance"],
      ["flow", "grams"],
      ["cutting", "cutting"],
      ["dish", "dishes"],
    ]) {
      await page.goto(pathToFileURL(join(folder, `${slug}.html`)).href);
      await page.emulateMedia({ media: "print" });
      await page.addStyleTag({ content: `html { padding: ${MARGIN}px; background: white }` });
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      const height = await page.evaluate(wholeLines, MARGIN + SHEET.height);
      const clip = { x: 0, y: 0, width: SHEET.width + 2 * MARGIN, height };
      await page.screenshot({ path: join(PICTURES, `${name}.png`), clip });
    }
    await browser.close();
    rmSync(folder, { recursive: true });
  },
  180_000,
);

/** The most of the page, up to so many pixels, that ends neither within a line or drawing nor after a heading. */
function wholeLines(most: number): number {
  const boxes = [...document.querySelectorAll("h1, h2, h3, p, li, tr, dl, svg, figure")].map((element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return { top, bottom: /^H\d$/.test(element.tagName) ? bottom + 60 : bottom };
  });
  for (let height = most; height > 0; height--)
    if (boxes.every(({ top, bottom }) => height <= top + 1 || height >= bottom - 1)) return height;
  return most;
}
