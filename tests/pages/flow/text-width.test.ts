import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { textWidth, wrap } from "../../../src/pages/flow/text-width.js";
import { readAdvances } from "../../support/woff.js";

const find = createRequire(import.meta.url).resolve;

describe("the width of text", () => {
  // The font itself, IBM Plex Sans from npm @fontsource/ibm-plex-sans, as the pages serve it.
  it.each([
    ["regular", "400"],
    ["semibold", "600"],
  ] as const)("is the font's own, %s", (weightiness, weight) => {
    const path = find(`@fontsource/ibm-plex-sans/files/ibm-plex-sans-latin-${weight}-normal.woff`);
    const advance = readAdvances(readFileSync(path));
    let compared = 0;
    for (let code = 0x20; code <= 0xff; code++) {
      if (code > 0x7e && code < 0xa0) continue;
      expect([code, textWidth(String.fromCodePoint(code), 1000, weightiness)]).toEqual([code, advance(code)]);
      compared++;
    }
    expect(compared).toBe(191);
    for (const digit of "0123456789") expect(advance(digit.codePointAt(0) ?? 0)).toBe(600);
  });

  it("is never taken too small for letters the table lacks", () => {
    expect(textWidth("Ж", 10)).toBeGreaterThanOrEqual(textWidth("W", 10));
  });
});

describe("breaking labels", () => {
  it("keeps within the width and loses nothing", () => {
    const text = "broccoli peeled stem 1,440\u00a0g";
    for (const width of [40, 60, 80, 200]) {
      const lines = wrap(text, width, 11);
      for (const line of lines) expect(textWidth(line, 11)).toBeLessThanOrEqual(width);
      expect(lines.join(" ")).toBe(text);
    }
    expect(wrap(text, 200, 11)).toEqual([text]);
  });

  it("breaks a word that is too long for a line", () => {
    const lines = wrap("Kartoffelpuffer", 40, 11);
    for (const line of lines) expect(textWidth(line, 11)).toBeLessThanOrEqual(40);
    expect(lines.join("").replaceAll("-", "")).toBe("Kartoffelpuffer");
  });
});
