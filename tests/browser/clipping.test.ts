import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityFaults, openBrowser, SCREENS, sidewaysScroll } from "../support/browser.js";
import { clippedText, type Paper } from "../support/clipping.js";
import { sheetText } from "../support/pdf.js";

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await openBrowser();
  page = await browser.newPage({ viewport: SCREENS.desktop });
});
afterAll(() => browser.close());

const PAPERS: Paper[] = ["A4", "Letter"];
const STYLE = `@page { margin: 18mm 12mm; @bottom-right { content: "page " counter(page) " of " counter(pages) } }
  body { margin: 0; font: 16px sans-serif } .cut { width: 90px; overflow: hidden; white-space: nowrap }
  .low { height: 30px; overflow: hidden } .screen-only { overflow: auto } @media print { .screen-only { overflow: visible } }
  .spoken { position: absolute; width: 1px; height: 1px; overflow: hidden }`;

function card(body: string): string {
  return `<!doctype html><html lang="en"><head><title>Card</title><style>${STYLE}</style></head><body><main>${body}</main></body></html>`;
}

const SOUND = `<h1>Cutting sheet</h1><table><caption>Weights</caption><thead><tr><th scope="col">Part</th></tr></thead>
  <tbody>${"<tr><td>marrow ring, efficient fillet ½ tray</td></tr>".repeat(90)}</tbody></table>
  <div class="screen-only"><p>A table that scrolls on a phone only</p></div><p class="spoken">For screen readers</p>
  <svg width="300" height="40"><text x="5" y="20">620 g of rings</text></svg>`;

const PLANTED: Record<string, { body: string; reason: string }> = {
  "a line cut at the side by its box": {
    body: `<p class="cut">ring of marrow for the bake</p>`,
    reason: '"ring of marrow for the bake" is cut by its <p class="cut">',
  },
  "a last line cut at the foot of its box": {
    body: `<div class="low">one<br>two<br>three</div>`,
    reason: '"three" is cut by its <div class="low">',
  },
  "a picture's label past its edge": {
    body: `<svg width="100" height="40"><text x="60" y="20">620 g of rings</text></svg>`,
    reason: '"620 g of rings" is cut by its <svg class="">',
  },
  "a word past the edge of the paper": {
    body: `<p style="position:absolute;left:680px;width:200px">off the right edge</p>`,
    reason: "wider than the paper and would be shrunk",
  },
  "a word before the left edge": {
    body: `<p style="margin-left:-40px">off the left edge</p>`,
    reason: '"off the left edge" runs off the paper',
  },
  "a table wider than the paper": {
    body: `<table><tr>${"<td>marrow&nbsp;rings&nbsp;for&nbsp;the&nbsp;bake</td>".repeat(14)}</tr></table>`,
    reason: "wider than the paper and would be shrunk",
  },
  "a picture taller than the paper": {
    body: `<svg width="100" height="1400"><text x="5" y="1010">low label</text></svg>`,
    reason: "taller than the paper and would be cut",
  },
  "text hidden in print by its own box": {
    body: `<div style="max-height:0;overflow:hidden">do not use the leaves</div>`,
    reason: 'the PDF shows "leaves" 0 times, the page 1 times',
  },
};

describe("the check for clipped text", () => {
  for (const paper of PAPERS) {
    it(`passes a sound page on ${paper}, and reads its page numbers`, async () => {
      await page.setContent(card(SOUND));
      const { faults, sheets } = await clippedText(page, paper);
      expect(faults).toEqual([]);
      expect(sheets.length).toBeGreaterThan(2);
      sheets.forEach((sheet, index) => {
        expect(sheetText(sheet)).toContain(`page ${index + 1} of ${sheets.length}`);
      });
      expect(page.viewportSize()).toEqual(SCREENS.desktop);
    });

    for (const [name, { body, reason }] of Object.entries(PLANTED)) {
      it(`finds ${name} on ${paper}`, async () => {
        await page.setContent(card(`<h1>Cutting sheet</h1>${body}`));
        expect((await clippedText(page, paper)).faults.join("\n")).toContain(reason);
      });
    }
  }

  it("finds a word that the layout has and the PDF has not", async () => {
    await page.setContent(
      card(`<p>Cut 3 marrows in rings</p><p style="clip-path:inset(0 0 0 200px)">hidden by a clip path</p>`),
    );
    expect((await clippedText(page, "A4")).faults.join()).toContain("hidden");
  });
});

describe("the other checks of a page", () => {
  it("finds a picture without a name and text too pale to read", async () => {
    await page.setContent(card(`<h1>Plan</h1><img src="data:," ><p style="color:#bbb">pale</p>`));
    expect((await accessibilityFaults(page)).map((fault) => fault.split(":")[0]).sort()).toEqual([
      "color-contrast",
      "image-alt",
    ]);
    await page.setContent(card("<h1>Plan</h1><p>dark</p>"));
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it("measures how far a phone must scroll sideways", async () => {
    await page.setViewportSize(SCREENS.phone);
    await page.setContent(card(`<div style="width:500px">wide</div>`));
    expect(await sidewaysScroll(page)).toBe(140);
    await page.setContent(card(`<div style="overflow:auto"><div style="width:500px">wide</div></div>`));
    expect(await sidewaysScroll(page)).toBe(0);
    await page.setViewportSize(SCREENS.desktop);
  });

  it("asks nothing of other machines", async () => {
    await expect(page.goto("http://example.org/")).rejects.toThrow(/ERR_NAME_NOT_RESOLVED/);
  });
});
