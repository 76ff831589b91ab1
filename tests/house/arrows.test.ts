import { describe, expect, it } from "vitest";
import { importsOf, wrongImports } from "../support/imports.js";
import { sourceFiles } from "../support/source-files.js";

describe("the rooms of src/", () => {
  it("import only from rooms they may know, by their front door", () => {
    const files = sourceFiles();
    expect(files.length).toBeGreaterThan(10);
    expect(files.flatMap(({ file, text }) => wrongImports(file, text))).toEqual([]);
  });
});

describe("the checker of arrows", () => {
  it("sees every way of importing", () => {
    const text = [
      'import { a } from "./a.js";',
      'import type { B } from "./b.js";',
      "import {",
      "  c,",
      "  d,",
      '} from "./c.js";',
      'export * from "./d.js";',
      'export type { E } from "./e.js";',
      'import "./f.js";',
      'const g = await import("./g.js");',
      '// import { no } from "./no.js";',
      '/* import "./neither.js"; */',
      'const text = "from elsewhere";',
    ].join("\n");
    expect(importsOf(text).sort()).toEqual(
      ["a", "b", "c", "d", "e", "f", "g"].map((name) => `./${name}.js`).sort(),
    );
  });

  it.each([
    ["quantity/exact.ts", "../kitchen/index.js", "quantity may not know kitchen"],
    ["reading/values.ts", "../kitchen/index.js", "reading may not know kitchen"],
    ["table-files/cells.ts", "../kitchen/index.js", "table-files may not know kitchen"],
    ["kitchen/scenario.ts", "../yields/index.js", "kitchen may not know yields"],
    ["yields/join.ts", "../safety/index.js", "yields may not know safety"],
    ["safety/dates.ts", "../yields/index.js", "safety may not know yields"],
    ["allocation/stages.ts", "../ledger/index.js", "allocation may not know ledger"],
    ["allocation/engines/highs.ts", "../../contract/index.js", "allocation may not know contract"],
    ["ledger/book.ts", "../allocation/index.js", "ledger may not know allocation"],
    ["contract/plan.ts", "../pages/index.js", "contract may not know pages"],
    ["insight/why.ts", "../pages/index.js", "insight may not know pages"],
    ["insight/why.ts", "../planning/index.js", "insight may not know planning"],
    ["pages/glance.ts", "../allocation/index.js", "pages may not know allocation"],
    ["pages/glance.ts", "../ledger/index.js", "pages may not know ledger"],
    ["records/store.ts", "../pages/index.js", "records may not know pages"],
    ["planning/plan.ts", "../pages/index.js", "planning may not know pages"],
    ["planning/plan.ts", "../server/index.js", "planning may not know server"],
    ["planning/plan.ts", "../kitchen-files/index.js", "planning may not know kitchen-files"],
    ["kitchen-files/load.ts", "../planning/index.js", "kitchen-files may not know planning"],
    ["server/index.ts", "../commands/index.js", "server may not know commands"],
    ["shelf/box.ts", "../quantity/index.js", "shelf is no room of this house"],
    ["cli.ts", "./shelf/box.js", "shelf is no room of this house"],
    ["ledger/book.ts", "../kitchen/scenario.js", "kitchen is entered by its index.js"],
    ["cli.ts", "./quantity/exact.js", "quantity is entered by its index.js"],
    ["kitchen/scenario.ts", "../../tests/support/imports.js", "outside src"],
    ["kitchen/load.ts", "node:fs", "kitchen touches neither files nor processes"],
    ["allocation/solve.ts", "highs", "highs is imported only in src/allocation/engines/"],
    [
      "planning/plan.ts",
      "javascript-lp-solver",
      "javascript-lp-solver is imported only in src/allocation/engines/",
    ],
    ["allocation/engines/glpk.ts", "glpk.js", "glpk.js is imported nowhere"],
    ["ledger/book.ts", "decimal.js", "decimal.js is imported only in src/quantity/"],
    ["insight/risk.ts", "pure-rand/distribution/uniformInt", "pure-rand is imported only in src/allocation/"],
    ["kitchen/load.ts", "yaml", "yaml is imported only in src/reading/"],
    ["yields/tables.ts", "csv-parse/sync", "csv-parse is imported only in src/reading/"],
    ["server/index.ts", "handlebars", "handlebars is imported only in src/pages/"],
    ["cli.ts", "express", "express is imported only in src/server/"],
  ])("finds %s importing %s wrong", (file, name, what) => {
    const expected = [`src/${file} imports "${name}": ${what}`];
    expect(wrongImports(file, `import { x } from "${name}";`)).toEqual(expected);
    expect(wrongImports(file, `export * from "${name}";`)).toEqual(expected);
    expect(wrongImports(file, `import type { X } from "${name}";`)).toEqual(expected);
  });

  it("lets the right arrows pass", () => {
    const right: [string, string][] = [
      ["kitchen/scenario.ts", "../quantity/index.js"],
      ["kitchen/scenario.ts", "./decision.js"],
      ["allocation/engines/highs.ts", "../engine.js"],
      ["allocation/engines/highs.ts", "highs"],
      ["quantity/decimal.ts", "decimal.js"],
      ["planning/plan.ts", "../ledger/index.js"],
      ["cli.ts", "./server/index.js"],
      ["cli.ts", "./planning/index.js"],
      ["server/index.ts", "../planning/index.js"],
      ["server/index.ts", "express"],
      ["cli.ts", "node:fs"],
      ["cli.ts", "../package.json"],
    ];
    for (const [file, name] of right) expect(wrongImports(file, `import { x } from "${name}";`)).toEqual([]);
  });
});
