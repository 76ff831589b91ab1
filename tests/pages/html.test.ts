import { readdirSync, readFileSync } from "node:fs";
import { HtmlValidate } from "html-validate";
import { describe, expect, it } from "vitest";
import type { PlanJson, Uses } from "../../src/contract/index.js";
import { pageAssets, pageOf, renderPages, usesDocument } from "../../src/pages/index.js";
import { Decimal, grams } from "../../src/quantity/index.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";

const TEMPLATES = new URL("../../templates/", import.meta.url);
const noPlan: PlanJson = {
  ...hallPlan,
  outcome: {
    ...hallPlan.outcome,
    kind: "infeasible",
    objective: null,
    bound: null,
    gap: null,
    certified: false,
  },
  stages: [],
  purchases: [],
  cuts: [],
  preps: [],
  goings: [],
  dishes: [],
  leftovers: [],
  transfers: [],
  reasons: [
    {
      change: "ceiling",
      text: "Raise the ceiling of Squash soup from 0.40 to 0.48.",
      checked: "planned again",
    },
  ],
};

const HOSTILE = `<img src=x onerror="alert('1')"> & {{frame}} \${1}`;

/** The same value with a hostile name in place of every mention of squash. */
function poisoned<T>(value: T): T {
  const visit = (each: unknown): unknown => {
    if (typeof each === "string") return each.replaceAll("squash", HOSTILE);
    if (Array.isArray(each)) return each.map(visit);
    if (each === null || typeof each !== "object" || each instanceof Decimal) return each;
    return Object.fromEntries(Object.entries(each).map(([key, inner]) => [key, visit(inner)]));
  };
  return visit(value) as T;
}

const pages = renderPages(hallPlan, hallScenario);
const uses: Uses = {
  part: "squash dice",
  weight: grams("600"),
  useBy: "2026-10-03",
  dishes: [
    {
      dish: "Squash soup",
      services: [0],
      takes: new Decimal(500),
      leaves: new Decimal(100),
      portions: 4,
      cooked: 5,
      steps: ["dice down"],
      needs: [
        { kind: "part", parts: ["squash ring", "squash dice"], grams: new Decimal(120) },
        { kind: "staple", name: "cream", amount: { value: new Decimal(90), unit: "mL" } },
        { kind: "staple", name: "salt", amount: null },
      ],
      costPerPortion: new Decimal("0.35"),
      allergens: ["milk"],
      critical: ["Boil the squash."],
    },
  ],
  resorts: [
    { kind: "frozen", part: "frozen squash", steps: ["freeze"], grams: new Decimal(590), keepsUntil: null },
  ],
  cautions: ["Raw squash may be bitter (nobody)"],
  givenTo: ["staff meal"],
};
const everyPage = [
  ...pages,
  pageOf(usesDocument(uses, hallScenario)),
  pageOf(usesDocument({ ...poisoned(uses), dishes: [] }, poisoned(hallScenario))),
  ...renderPages(noPlan, hallScenario),
  ...renderPages(poisoned(hallPlan), poisoned(hallScenario)),
];

describe("the pages of a plan", () => {
  it("are these, in the order they are used", () => {
    expect(pages.map(({ slug }) => slug)).toEqual([
      "glance",
      "shopping",
      "order-of-work",
      "cutting",
      "labels",
      "parts",
      "dishes",
      "allergens",
      "grams",
      "waste",
      "waste-account",
      "risk",
      "weigh-in",
    ]);
    expect(renderPages({ ...hallPlan, risk: null }, hallScenario)).toHaveLength(pages.length - 1);
    expect(renderPages(noPlan, hallScenario).map(({ slug }) => slug)).toEqual(["no-plan"]);
  });

  it("are valid HTML, all of it, with hostile names too", async () => {
    const validator = new HtmlValidate({ extends: ["html-validate:recommended"] });
    for (const { slug, html } of everyPage) {
      const { results } = await validator.validateString(html);
      const messages = results.flatMap((result) =>
        result.messages.map(({ ruleId, message, line }) => `${slug}:${line} ${ruleId}: ${message}`),
      );
      expect(messages).toEqual([]);
    }
  });

  it("link to each other and to their assets by relative paths only", () => {
    for (const { slug, html } of pages) {
      const links = [...html.matchAll(/(?:href|src)="([^"]*)"/g)].map((match) => match[1] ?? "");
      const local = new Set(["assets/style.css", ...pages.map((page) => `${page.slug}.html`)]);
      for (const link of links) expect(local.has(link) || /^#dish-\d+$/.test(link)).toBe(true);
      expect(html).toContain(`<a href="${slug}.html" aria-current="page">`);
    }
    const moved = renderPages(hallPlan, hallScenario, {
      assets: "../",
      home: { href: "../", text: "Scenarios" },
    });
    expect(moved[0]?.html).toContain('<link rel="stylesheet" href="../style.css">');
    expect(moved[0]?.html).toContain('<li><a href="../">Scenarios</a></li>');
  });

  it("need no script, no inline style and no other machine", () => {
    for (const { html } of everyPage) {
      expect(html).not.toMatch(/<script|<style|\sstyle="|javascript:|https?:\/\//);
      expect(html).not.toMatch(/undefined|NaN|\[object|Infinity/);
    }
    for (const { path, content } of pageAssets())
      if (path.endsWith(".css")) expect(content.toString()).not.toMatch(/https?:|@import|\/\//);
  });

  it("say who, when and which page, and who comes first", () => {
    for (const { html, title } of pages) {
      expect(html).toContain(`<h1>${title}</h1>`);
      expect(html).toContain(hallScenario.name);
      expect(html).toContain("Friday dinner to Saturday dinner");
      expect(html).toContain("Local codes and licensed practice come first.");
    }
  });

  it("print a hostile name as the text it is", () => {
    for (const { html } of renderPages(poisoned(hallPlan), poisoned(hallScenario))) {
      expect(html).not.toContain("<img");
      expect(html).not.toContain('onerror="');
    }
    const glance = renderPages(poisoned(hallPlan), poisoned(hallScenario))[0]?.html ?? "";
    expect(glance).toContain(
      "&lt;img src&#x3D;x onerror&#x3D;&quot;alert(&#x27;1&#x27;)&quot;&gt; &amp; {{frame}}",
    );
  });
});

describe("the templates", () => {
  const names = readdirSync(TEMPLATES);
  const text = (name: string) => readFileSync(new URL(name, TEMPLATES), "utf8");

  it("escape everything: no triple stash, no ampersand stash", () => {
    const templates = names.filter((name) => name.endsWith(".hbs"));
    expect(templates.length).toBeGreaterThan(8);
    for (const name of templates) expect(text(name)).not.toMatch(/\{\{\{|\{\{~?&/);
  });

  it("are there for every page", () => {
    for (const { slug } of [...pages, ...renderPages(noPlan, hallScenario)])
      expect(names).toContain(`${slug}.hbs`);
  });

  it("are refused a name that the data lacks", async () => {
    const { fill } = await import("../../src/pages/template.js");
    expect(() => fill("no-plan", { headline: "No" })).toThrow(/not defined/);
  });
});

describe("the assets", () => {
  const assets = pageAssets();
  const style = assets.find(({ path }) => path === "style.css")?.content.toString() ?? "";

  it("are one style sheet and every font it names", () => {
    const fonts = [...style.matchAll(/url\(([^)]+)\)/g)].map((match) => match[1]);
    expect(fonts.length).toBeGreaterThan(0);
    expect(assets.map(({ path }) => path).sort()).toEqual([...fonts, "style.css"].sort());
    for (const { path, content } of assets)
      if (path !== "style.css") expect(content.subarray(0, 4).toString("latin1")).toBe("wOF2");
  });

  it("are all the style sheets there are", () => {
    const sheets = readdirSync(TEMPLATES).filter((name) => name.endsWith(".css"));
    for (const name of sheets) expect(style).toContain(readFileSync(new URL(name, TEMPLATES), "utf8"));
  });

  it("name every colour and size of text once, in the tokens", () => {
    const rules = readdirSync(TEMPLATES)
      .filter((name) => name.endsWith(".css") && name !== "tokens.css")
      .map((name) => readFileSync(new URL(name, TEMPLATES), "utf8"))
      .join("\n");
    expect(rules.match(/#[0-9a-f]{3,8}\b|\b(?:rgb|hsl)a?\(/gi)).toBeNull();
    // What is drawn is sized in the unit of its drawing.
    const sizes = [...rules.matchAll(/font(?:-size)?: ([^;]+);/g)].map((match) => match[1] ?? "");
    expect(sizes.length).toBeGreaterThan(10);
    for (const size of sizes)
      expect(size).toMatch(/^(?:inherit|\d+px|(?:400 )?var\(--(?:title|head|lead|text|measure)\).*)$/);
  });

  it("leave the paper's size to the printer", () => {
    expect(style).toContain("@page");
    expect(style).not.toMatch(/(?:^|[\s;{])size\s*:/);
  });
});
