import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, expect, it } from "vitest";

const ROOT = resolve(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "planted-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** What the compiler of this project says of a text: its exit code, and the line and code of each error. */
function compile(lines: readonly string[]): Promise<{ code: number; errors: string[] }> {
  const file = join(folder, "planted.mts");
  const config = join(folder, "tsconfig.json");
  writeFileSync(file, `${lines.join("\n")}\n`);
  writeFileSync(
    config,
    JSON.stringify({
      extends: join(ROOT, "tsconfig.json"),
      compilerOptions: { typeRoots: [join(ROOT, "node_modules", "@types")] },
      include: [],
      files: [file],
    }),
  );
  const tsc = join(ROOT, "node_modules", ".bin", "tsc");
  return new Promise((done) => {
    execFile(tsc, ["-p", config, "--pretty", "false"], { cwd: folder }, (error, output) => {
      const errors = [...output.matchAll(/planted\.mts\((\d+),\d+\): error (TS\d+)/g)];
      const code = typeof error?.code === "number" ? error.code : 0;
      done({ code, errors: errors.map(([, line, name]) => `${line} ${name}`) });
    });
  });
}

const QUANTITY = JSON.stringify(join(ROOT, "src", "quantity", "index.js"));
const IMPORTS = `import { Decimal, grams, money, type Money, plus, scale, total, type Weight } from ${QUANTITY};`;
const SOUND = [
  'const w: Weight = grams("0.5");',
  'export const sum = plus(w, scale(w, new Decimal("0.1")));',
];

it("lets exact weights and money pass", async () => {
  const used = ['export const paid: Money = money("1.35");', "export const all = total([paid]);"];
  expect(await compile([IMPORTS, ...SOUND, ...used])).toEqual({ code: 0, errors: [] });
});

it("refuses every binary float planted among weights and money", async () => {
  const planted = [
    "export const half: Weight = 0.5;",
    "export const more = plus(w, 0.1);",
    "export const asGrams = grams(0.5);",
    "export const price: Money = 1.35;",
    "export const asMoney = money(1.35);",
    "export const scaled = scale(w, 0.1);",
    "export const added = total<Weight>([w, 0.1]);",
    "export const product = w * 0.5;",
    "export const bare: Weight = 5n;",
    'export const mixed = plus<Weight>(w, money("1"));',
  ];
  const { code, errors } = await compile([IMPORTS, ...SOUND, ...planted]);
  expect(code).not.toBe(0);
  const first = 2 + SOUND.length;
  expect([...new Set(errors.map((error) => Number(error.split(" ")[0])))]).toEqual(
    planted.map((_, index) => first + index),
  );
});
