import { execFile } from "node:child_process";
import { appendFile, cp, mkdtemp, readdir, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sourceFiles } from "../support/source-files.js";

const run = promisify(execFile);

/** What a build of the program needs. */
const COPIED = ["src", "templates", "yield-tables", "package.json", "tsconfig.json", "tsconfig.build.json"];
const BUNDLE = "bundle.js";

/** What is added: for each file a change of its text, or what is written at its end. */
type Change = { readonly file: string } & (
  | { readonly append: string }
  | { readonly before: string; readonly insert: string }
);

const ITEM: readonly Change[] = [
  {
    file: "yield-tables/items.csv",
    append:
      'crosne,unwashed,plant,loose,kg,1000,,"common practice, no source",common practice,4,"common practice, no source",common practice,,wash,\n',
  },
  {
    file: "yield-tables/roots.csv",
    append: [
      'crosne,unwashed,scrubbed,tuber,85,food,4,common practice,,,,"common practice, no source",common practice',
      'crosne,unwashed,scrubbed,ends,9,inedible,2,common practice,,,,"common practice, no source",common practice',
      'crosne,unwashed,scrubbed,loss,6,loss,,,,,,"common practice, no source",common practice',
      "",
    ].join("\n"),
  },
  {
    file: "yield-tables/cuts.csv",
    append: "crosne,unwashed,scrubbed,20,Rub with coarse salt; nip both ends.\n",
  },
];
const BREAKDOWN: readonly Change[] = [
  {
    file: "yield-tables/vegetables.csv",
    append: [
      'broccoli,crown,shaved,shavings,80,food,1,common practice,,,,"common practice, no source",common practice',
      'broccoli,crown,shaved,loss,20,loss,,,,,,"common practice, no source",common practice',
      "",
    ].join("\n"),
  },
  {
    file: "yield-tables/cuts.csv",
    append: "broccoli,crown,shaved,6,Shave 2 mm thin from the flower down.\n",
  },
];
const HAZARD: readonly Change[] = [
  {
    file: "yield-tables/safety/hazards.csv",
    append: "added row,rhubarb,any,,a harm that is added,warn,,Say it with care.,,,,added by a test,memory\n",
  },
];
const PAGE: readonly Change[] = [
  {
    file: "src/pages/staples.ts",
    append: `import type { PageMaker } from "./page.js";

/** The dishes by name. */
export const staplesPage: PageMaker = {
  slug: "staples",
  title: "Added page",
  data: ({ plan }) => ({ names: plan.dishes.map(({ dish }) => dish) }),
};
`,
  },
  {
    file: "templates/staples.hbs",
    append: "{{#> layout}}\n<ul>{{#each names}}<li>{{this}}</li>{{/each}}</ul>\n{{/layout}}\n",
  },
  {
    file: "src/pages/render.ts",
    before: "const PLAN_PAGES: readonly PageMaker[] = [\n",
    insert: 'import { staplesPage } from "./staples.js";\n',
  },
  { file: "src/pages/render.ts", before: "  weighInSheetPage,\n];", insert: "  staplesPage,\n" },
];
const COMMAND: readonly Change[] = [
  {
    file: "src/commands/count-hazards.ts",
    append: `import { hazards } from "../safety/index.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";

/** \`count-hazards\`: how many rows the table of hazards has. */
export function countHazards(terminal: Terminal): ExitCode {
  terminal.print(\`\${hazards().length} rows\`);
  return EXIT.plan;
}
`,
  },
  {
    file: "src/commands/command-line.ts",
    before: '  main\n    .command("safety-case")',
    insert: `  main
    .command("count-hazards")
    .description("count the rows of the table of hazards")
    .action(async () => {
      const { countHazards } = await import("./count-hazards.js");
      end(countHazards(terminal));
    });
`,
  },
];
const COSTING: readonly Change[] = [
  { file: "src/kitchen/costing.ts", before: '"edible weight", "trim credit"', insert: '"whole weight", ' },
  {
    file: "src/kitchen/costing.ts",
    before: '  "edible weight": { counts',
    insert: '  "whole weight": { counts: () => () => ALIKE, credits: false, needsValueOf: "no part" },\n',
  },
];

const filesOf = (changes: readonly Change[]): number => new Set(changes.map(({ file }) => file)).size;

let copy = "";
const program = (...args: string[]) =>
  run(process.execPath, [join(copy, "dist/cli.js"), ...args], { cwd: copy });

beforeAll(async () => {
  copy = await mkdtemp(join(tmpdir(), "to-add-"));
  await Promise.all([...COPIED, BUNDLE].map((name) => cp(name, join(copy, name), { recursive: true })));
  await symlink(join(process.cwd(), "node_modules"), join(copy, "node_modules"));
  for (const change of [...ITEM, ...BREAKDOWN, ...HAZARD, ...PAGE, ...COMMAND, ...COSTING]) {
    const path = join(copy, change.file);
    if ("append" in change) {
      await appendFile(path, change.append);
      continue;
    }
    const text = await readFile(path, "utf8");
    expect(text.split(change.before), `${change.file}: ${change.before}`).toHaveLength(2);
    await writeFile(
      path,
      text.replace(change.before, () => change.insert + change.before),
    );
  }
  await run(process.execPath, ["node_modules/typescript/bin/tsc", "-p", "tsconfig.build.json"], {
    cwd: copy,
  });
  await run(process.execPath, [BUNDLE], { cwd: copy });
  const smallest = await readFile("examples/smallest.yaml", "utf8");
  await writeFile(join(copy, "plain.yaml"), smallest);
  await writeFile(join(copy, "whole.yaml"), `costing: whole weight\n${smallest}`);
}, 300_000);

afterAll(async () => {
  await rm(copy, { recursive: true, force: true });
});

describe("in a copy of the program, so many files are touched to add", () => {
  it("an item with its breakdown: 3 tables and no code", async () => {
    expect(filesOf(ITEM)).toBe(3);
    const { stdout } = await program("yield", "crosne");
    expect(stdout).toContain("tuber");
  });

  it("a breakdown: 2 tables and no code", async () => {
    expect(filesOf(BREAKDOWN)).toBe(2);
    const { stdout } = await program("yield", "broccoli, crown");
    expect(stdout).toContain("shavings");
  });

  it("a hazard: one row", async () => {
    expect(filesOf(HAZARD)).toBe(1);
    const rows = (await readFile("yield-tables/safety/hazards.csv", "utf8")).trim().split("\n").length - 1;
    const { stdout } = await program("safety-case");
    expect(stdout).toContain(`Table of hazards: ${rows + 1} rows`);
  });

  it("a page of a plan: 3", async () => {
    expect(filesOf(PAGE)).toBe(3);
    await program("plan", "plain.yaml", "--out", "pages");
    expect(await readdir(join(copy, "pages"))).toContain("staples.html");
    const page = await readFile(join(copy, "pages/staples.html"), "utf8");
    expect(page).toContain("<li>stem soup</li>");
    expect(await readFile(join(copy, "pages/parts.html"), "utf8")).toContain('href="staples.html"');
  });

  it("a command: 2, and its page of the reference", async () => {
    expect(filesOf(COMMAND)).toBe(2);
    const { stdout } = await program("count-hazards");
    expect(stdout).toMatch(/^\d{2,} rows\n$/);
    expect((await program("--help")).stdout).toContain("count-hazards");
  });

  it("a costing method: 1, beside its words in the schema", async () => {
    expect(filesOf(COSTING)).toBe(1);
    const [plain, whole] = await Promise.all(
      ["plain.yaml", "whole.yaml"].map(async (file) =>
        JSON.parse((await program("plan", file, "--json")).stdout),
      ),
    );
    // The peel of the stems bears its share of the cost now, and the dishes so much less.
    const cost = ({ dishes }: { dishes: { cost: string }[] }) =>
      dishes.reduce((sum, dish) => sum + Number(dish.cost), 0);
    expect(whole.purchases).toEqual(plain.purchases);
    expect(cost(whole)).toBeLessThan(cost(plain));
  });
});

describe("a question of many plans like `worth`", () => {
  it("is named in no more files of code than it was, beside the doors of its rooms", () => {
    const named = /\bworth(?:Document|Command|Schema)\b|"worth"|\bWorthJson\b/;
    const files = sourceFiles().filter(
      ({ file, text }) => named.test(text) && !/^[^/]+\/index\.ts$/.test(file),
    );
    expect(files.map(({ file }) => file)).toEqual([
      "commands/command-line.ts",
      "commands/questions.ts",
      "contract/worth.ts",
      "insight/worth/worth.ts",
      "pages/worth.ts",
      "server/questions.ts",
      "server/work/questions.ts",
    ]);
  });
});
