/// <reference lib="dom" />
import type { Page } from "playwright-core";
import { type PdfSheet, readPdf } from "./pdf.js";

/** Sheet sizes in millimetres: ISO 216 A4, ANSI A (US Letter). */
const PAPERS = { A4: { width: 210, height: 297 }, Letter: { width: 215.9, height: 279.4 } } as const;
export type Paper = keyof typeof PAPERS;
const PIXELS_PER_MILLIMETRE = 96 / 25.4;

interface PrintedPage {
  /** The words of every piece of text that is to be seen on paper. */
  readonly texts: readonly string[];
  readonly faults: readonly string[];
}

/**
 * Text of the page that a reader of its print would not see whole, one line a finding. It looks twice: at the
 * layout for this paper, where a box or the edge of the paper cuts text; and at the PDF, which must hold every
 * word of the page, inside the sheet.
 */
export async function clippedText(
  page: Page,
  paper: Paper,
): Promise<{ faults: string[]; sheets: PdfSheet[] }> {
  const viewport = page.viewportSize();
  const { width, height } = PAPERS[paper];
  await page.emulateMedia({ media: "print" });
  const margins = await page.evaluate(pageMargins);
  const area = {
    width: Math.floor(width * PIXELS_PER_MILLIMETRE - margins.left - margins.right),
    height: Math.floor(height * PIXELS_PER_MILLIMETRE - margins.top - margins.bottom),
  };
  await page.setViewportSize(area);
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  const printed = await page.evaluate(inspectPrint, area.height);
  const sheets = await readPdf(await page.pdf({ format: paper, printBackground: true }));
  await page.emulateMedia({ media: null });
  if (viewport !== null) await page.setViewportSize(viewport);
  return { faults: [...printed.faults, ...missingFromPdf(printed.texts, sheets)], sheets };
}

function missingFromPdf(texts: readonly string[], sheets: readonly PdfSheet[]): string[] {
  const faults: string[] = [];
  sheets.forEach(({ runs, width, height }, index) => {
    for (const { text, left, right, bottom, top } of runs) {
      if (left < 0 || right > width + 1 || bottom < 0 || top > height)
        faults.push(`sheet ${index + 1}: "${text}" runs off the paper`);
    }
  });
  const whole = squeeze(sheets.map(({ runs }) => runs.map(({ text }) => text).join("")).join(""));
  const wanted = new Map<string, number>();
  for (const text of texts) {
    const key = squeeze(text);
    if (whole.includes(key)) wanted.set(key, (wanted.get(key) ?? 0) + 1);
    else
      for (const word of text.split(/\s+/)) wanted.set(squeeze(word), (wanted.get(squeeze(word)) ?? 0) + 1);
  }
  for (const [text, times] of wanted) {
    const found = text === "" ? times : whole.split(text).length - 1;
    if (found < times) faults.push(`the PDF shows "${text}" ${found} times, the page ${times} times`);
  }
  return faults;
}

/** Letters alone: no spaces, no case, no ligatures, so that line ends and fonts make no difference. */
function squeeze(text: string): string {
  return text
    .normalize("NFKC")
    .replace(/[\s\u00ad\u200b]+/g, "")
    .toLowerCase();
}

/** Runs in the browser: the margins that the page's own `@page` rules set, in pixels. */
function pageMargins(): { left: number; right: number; top: number; bottom: number } {
  const probe = document.createElement("div");
  document.body.append(probe);
  const margins = { left: 0, right: 0, top: 0, bottom: 0 };
  const sides = ["left", "right", "top", "bottom"] as const;
  const visit = (rules: CSSRuleList): void => {
    for (const rule of rules) {
      if (rule instanceof CSSMediaRule) visit(rule.cssRules);
      if (!(rule instanceof CSSPageRule) || rule.selectorText !== "") continue;
      for (const side of sides) {
        const length = rule.style.getPropertyValue(`margin-${side}`);
        if (length === "") continue;
        probe.style.setProperty("position", "absolute");
        probe.style.setProperty("width", length);
        margins[side] = probe.getBoundingClientRect().width;
      }
    }
  };
  for (const sheet of document.styleSheets) visit(sheet.cssRules);
  probe.remove();
  return margins;
}

/** Runs in the browser, laid out for print: what is cut, and all the text there is. */
function inspectPrint(pageHeight: number): PrintedPage {
  const faults: string[] = [];
  const texts: string[] = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth)
    faults.push(
      `the page is ${root.scrollWidth - root.clientWidth} px wider than the paper and would be shrunk`,
    );

  const clips = (element: Element): boolean => {
    const { overflow, display } = getComputedStyle(element);
    return overflow !== "visible" && (display !== "inline" || element instanceof SVGElement);
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const parent = node.parentElement;
    const text = (node.textContent ?? "").trim();
    if (parent === null || text === "" || parent.closest("script,style,noscript,title,desc,template"))
      continue;
    if (!parent.checkVisibility({ visibilityProperty: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const boxes = [...range.getClientRects()].filter(({ width, height }) => width > 0 && height > 0);
    if (boxes.length === 0) continue;
    const frames: { element: Element; box: DOMRect }[] = [];
    for (
      let element: Element | null = parent;
      element !== null && element !== root;
      element = element.parentElement
    )
      if (element !== document.body && clips(element))
        frames.push({ element, box: element.getBoundingClientRect() });
    if (frames.some(({ box }) => box.width <= 1 && box.height <= 1)) continue;
    texts.push(text);
    for (const { left, right, top, bottom, height } of boxes) {
      const slack = height / 4;
      if (left < -1 || right > root.clientWidth + 1 || top + slack < 0)
        faults.push(`"${text}" runs off the paper`);
      for (const { element, box } of frames)
        if (
          left < box.left - 1 ||
          right > box.right + 1 ||
          top < box.top - slack ||
          bottom > box.bottom + slack
        )
          faults.push(
            `"${text}" is cut by its <${element.tagName.toLowerCase()} class="${element.getAttribute("class") ?? ""}">`,
          );
    }
  }
  for (const element of document.body.querySelectorAll("*")) {
    const whole = element.matches("svg, img") || clips(element);
    const { height } = element.getBoundingClientRect();
    if (whole && height > pageHeight)
      faults.push(
        `<${element.tagName.toLowerCase()}> is ${Math.round(height - pageHeight)} px taller than the paper and would be cut`,
      );
  }
  return { texts, faults: [...new Set(faults)] };
}
