import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { filled, referencePages } from "../support/reference.js";

const FOLDER = fileURLToPath(new URL("../../docs/reference/", import.meta.url));
const pages = Object.entries(referencePages());

describe("docs/reference/", () => {
  it.each(pages)("%s is current (`npm run docs` writes it anew)", async (name, generated) => {
    const page = readFileSync(`${FOLDER}${name}`, "utf8");
    await expect(filled(page, generated)).toMatchFileSnapshot(`${FOLDER}${name}`);
  });

  it.each(pages)("%s says what each key and field of its own means", (_, generated) => {
    const unexplained = Object.values(generated)
      .flatMap((text) => text.split("\n"))
      .filter((line) => /^\| \**`[^.]+`.* \| {2}\|$/.test(line));
    expect(unexplained).toEqual([]);
  });

  it("has a mark for everything that is generated", () => {
    expect(() => filled("<!-- generated: a -->\n<!-- end -->\n", { a: "x", b: "y" })).toThrow("not for a, b");
    expect(filled("<!-- generated: a -->\nold\n<!-- end -->\n", { a: "new" })).toBe(
      "<!-- generated: a -->\n\nnew\n\n<!-- end -->\n",
    );
  });
});
