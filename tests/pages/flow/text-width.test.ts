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

  it("breaks between letters, also those of two code units, and ends without a hyphen", () => {
    const word = "𝒶".repeat(30);
    const lines = wrap(word, 40, 11);
    expect(lines.map((line) => line.replace(/-$/, "")).join("")).toBe(word);
    expect(lines.at(-1)).not.toMatch(/-$/);
    for (const line of lines) expect(line).toMatch(/^(?:𝒶)+-?$/u);
    expect(wrap("abc", 1, 11)).toEqual(["a-", "b-", "c"]);
  });

  it("takes time that grows with a word, not with its square", () => {
    const time = (letters: number): number =>
      Math.min(
        ...[1, 2, 3].map(() => {
          // This process's own time: what else the machine does counts for nothing.
          const began = process.cpuUsage();
          wrap("a".repeat(letters), 60, 11);
          const { user, system } = process.cpuUsage(began);
          return user + system;
        }),
      );
    time(10_000);
    // Eight times the letters: 8 by length, 64 by its square.
    expect(time(80_000) / time(10_000)).toBeLessThan(30);
  });
});
