import { HtmlValidate } from "html-validate";
import { describe, expect, it } from "vitest";
import { testCardPage, testFormPage } from "../../src/pages/index.js";
import { testFigures } from "../../src/yields/index.js";
import { testCard, VEAL } from "../support/test-cards.js";

const HOSTILE = "<img src=x> & {{x}}";
const card = testCard(VEAL);
const hostile = { ...card, item: HOSTILE, grade: HOSTILE };
const pages = [card, hostile].flatMap((each) =>
  testFigures(each).map((figures) => testCardPage(each, figures)),
);
const forms = (["butchers", "cooking"] as const).flatMap((kind) =>
  [null, card, hostile].map((each) => testFormPage(kind, each)),
);

/** The rows of a page's tables as text, cell by cell. */
function rowsOf(html: string): string[][] {
  return [...html.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row = ""]) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell = ""]) =>
      cell.replace(/<[^>]+>/g, "").trim(),
    ),
  );
}

describe("the pages of a test card", () => {
  it("are valid HTML with hostile names too, and need no script, style or other machine", async () => {
    const validator = new HtmlValidate({ extends: ["html-validate:recommended"] });
    for (const { slug, html } of [...pages, ...forms]) {
      const { results } = await validator.validateString(html);
      expect(results.flatMap(({ messages }) => messages.map(({ message }) => `${slug}: ${message}`))).toEqual(
        [],
      );
      expect(html).not.toMatch(/<script|<style|\sstyle="|https?:\/\/|<img|undefined|NaN|\[object/);
      expect(html).toContain("Local codes and licensed practice come first.");
    }
  });

  it("print columns that add up to their totals", () => {
    for (const { html } of pages.slice(0, 2)) {
      const rows = rowsOf(html).filter((row) => row.length === 5);
      const body = rows.slice(1, -1);
      const figure = (text = "") => Number(text.replace(/[^\d.-]/g, "") || 0);
      const total = rows.at(-1) ?? [];
      for (const column of [1, 2, 4])
        expect(body.reduce((sum, row) => sum + figure(row[column]), 0)).toBeCloseTo(figure(total[column]), 6);
      expect(total).toEqual(["As purchased", "5,200", "100.0%", "€7.40", "€38.48"]);
    }
  });

  it("show no weight coarser than it was written, whatever the scale's step", () => {
    const fine = testCard(
      "item: x\ncurrency: EUR\nscale_step: 10 g\nap_weight: 6.842 kg\nap_price: 5 / kg\nbutchers_test: {by_products: {fat: 512.5 g}, usable_weight: 6.33 kg}\n",
    );
    const [figures] = testFigures(fine);
    if (figures === undefined) throw new Error("no test");
    expect(
      rowsOf(testCardPage(fine, figures).html)
        .slice(1, 5)
        .map(([name, weight]) => [name, weight]),
    ).toEqual([
      ["Fat", "512.5"],
      ["Weighing difference in cutting", "-0.5"],
      ["Usable", "6,330.0"],
      ["As purchased", "6,842.0"],
    ]);
  });

  it("say the unit of every weight, in pounds and ounces too", () => {
    const lamb = testCard(
      "item: lamb\ncurrency: USD\nap_weight: 2 lb 8 oz\nap_price: 6.65 / lb\nbutchers_test: {by_products: {fat: 4.5 oz}, usable_weight: 2 lb 3.5 oz}\n",
    );
    const [figures] = testFigures(lamb);
    if (figures === undefined) throw new Error("no test");
    const rows = rowsOf(testCardPage(lamb, figures).html).map(([, weight]) =>
      weight?.replaceAll("\u00a0", " "),
    );
    expect(rows.slice(0, 4)).toEqual(["Weight", "4.5 oz", "2 lb 3.5 oz", "2 lb 8 oz"]);
  });
});

describe("the blank forms", () => {
  it("have a line for every figure that the card takes, with the names known already", () => {
    const [blank, known] = forms.map(({ html }) => html);
    const lines = (html = "") => html.split('class="line').length - 1;
    expect(lines(blank)).toBe(5 + 7 * 5 + 3 * 2 + 8 + 2);
    expect(lines(known)).toBe(lines(blank) - 1 - 3);
    for (const name of ["Veal breast", "Bones", "Trimmings", "Sinew", "Usable", "Cutting loss"])
      expect(known).toContain(name);
    expect(known).toContain("Value per kg");
    expect(blank).toContain("Value per kg/lb");
  });
});
