import { describe, expect, it } from "vitest";
import { documentPage } from "../../src/pages/document.js";

const DATA = {
  headline: "Nothing weighed",
  what: "Weigh three heads.",
  reasons: [],
  small: "",
  warnings: [],
};

describe("a page of no plan", () => {
  it("has the head line, for screen and paper, the title and the foot of every page", () => {
    const head = ["broccoli", "12 Oct & later"];
    const { slug, title, html } = documentPage("no-plan", "Yields", DATA, { head });
    expect([slug, title]).toEqual(["no-plan", "Yields"]);
    expect(html).toContain('data-head="broccoli · 12 Oct &amp; later"');
    expect(html).toContain("<p><span>broccoli</span> <span>12 Oct &amp; later</span> </p>");
    expect(html).toContain("<title>Yields · broccoli</title>");
    expect(html).toContain("<h1>Yields</h1>");
    expect(html).toContain('href="assets/style.css"');
    expect(html).toContain("Local codes and licensed practice come first.");
    expect(html).not.toContain("<nav");
  });

  it("links where it is told to", () => {
    const options = {
      assets: "/assets/",
      home: { href: "/", text: "All scenarios" },
      nav: [{ href: "leek.html", text: "Leek" }],
    };
    const { html } = documentPage("no-plan", "Yields", DATA, options);
    expect(html).toContain('href="/assets/style.css"');
    expect(html.match(/<li>.*<\/li>/g)).toEqual([
      '<li><a href="/">All scenarios</a></li>',
      '<li><a href="leek.html">Leek</a></li>',
    ]);
    expect(html).not.toContain('<header class="head">');
  });
});
