import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Block, blocksOf, pageText, ROOT } from "../support/markdown.js";
import { finished, PROGRAM, type Ran } from "../support/program.js";

/** Commands that are not run here, with what covers them. */
const NOT_RUN: Readonly<Record<string, string>> = {
  "npm ci && npm start": "it serves until it is stopped; tests/cli/serve.test.ts starts what it starts",
  "npm ci && npm test": "it would run this test within itself; .ci/run runs it",
  "npx trim-to-use serve .": "it serves until it is stopped; tests/cli/serve.test.ts starts it",
};
const PAGES = ["README.md", ...readdirSync(join(ROOT, "docs/cook")).map((name) => `docs/cook/${name}`)];
const SECONDS = 300;
/** `npx trim-to-use` is the built program; nothing is looked up on the net. */
const SHELL = `npx() { [ "$1" = trim-to-use ] || return 9; shift; "${process.execPath}" "${PROGRAM}" "$@"; }`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "docs-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The commands of a block, each without its remark. */
function commandsOf({ text }: Block): string[] {
  return text
    .split("\n")
    .map((line) => line.replace(/\s+#.*$/, "").trim())
    .filter((line) => line !== "");
}

/** The commands of a session and what is said to follow each. */
function sessionOf({ text }: Block): { command: string; printed: string }[] {
  return text
    .split(/^\$ /m)
    .slice(1)
    .map((each) => {
      const [command = "", ...printed] = each.split("\n");
      return { command, printed: printed.join("\n").trimEnd() };
    });
}

function shell(command: string): Promise<Ran> {
  const env = { ...process.env, NO_COLOR: "" };
  return finished(spawn("sh", ["-euc", `${SHELL}\n${command}`], { cwd: folder, env }));
}

/** What was printed and how it ended, without what differs from run to run, and with plain spaces. */
function outcomeOf({ code, stdout, stderr }: Ran): string {
  const ending = code === 0 ? "" : `exit code ${code}`;
  return sameRun(`${stdout}${stderr}${ending}`.trimEnd()).replaceAll("\u00a0", " ");
}

/** Text with the same solver and the same time everywhere: on a busy machine another one may be asked. */
function sameRun(text: string): string {
  return text.replace(/\(solver [\w-]+,\s+[\d.]+ s/g, "(solver, 0 s");
}

/** Text as a pattern, a line `...` standing for any lines or none. */
function pattern(printed: string): RegExp {
  const lines = `${printed}\n`.split(/^\.\.\.\n/m).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return new RegExp(`^${lines.join("(?:.*\\n)*?")}$`);
}

async function checkBlock(block: Block): Promise<void> {
  const { language, file, text } = block;
  if (language === "text") return;
  if (file !== null) {
    const path = join(folder, file);
    if (file.startsWith("examples/")) expect(readFileSync(path, "utf8")).toContain(text);
    else writeFileSync(path, text);
  } else if (language === "sh") {
    for (const command of commandsOf(block)) {
      if (command in NOT_RUN) continue;
      const ran = await shell(command);
      expect({ command, ...ran }).toMatchObject({ command, code: 0 });
    }
  } else if (language === "console") {
    for (const { command, printed } of sessionOf(block))
      expect(`${outcomeOf(await shell(command))}\n`).toMatch(pattern(sameRun(printed)));
  } else throw new Error(`line ${block.line}: a block of ${language || "no language"} is not checked`);
}

describe.each(PAGES)("every block of %s", (page) => {
  it(
    "does what the page says, one after the other in a folder with the examples",
    async () => {
      rmSync(folder, { recursive: true });
      cpSync(join(ROOT, "examples"), join(folder, "examples"), { recursive: true });
      for (const block of blocksOf(pageText(page))) await checkBlock(block);
    },
    1000 * SECONDS,
  );
});

describe("what is checked", () => {
  it("leaves out nothing that no page has", () => {
    const all = PAGES.flatMap((page) => blocksOf(pageText(page)).flatMap(commandsOf));
    expect(Object.keys(NOT_RUN).filter((command) => !all.includes(command))).toEqual([]);
  });

  it("finds every block of a page", () => {
    for (const page of PAGES)
      expect(pageText(page).match(/^```/gm) ?? []).toHaveLength(2 * blocksOf(pageText(page)).length);
  });

  it("takes other words for a mistake, whatever the time and the solver", () => {
    const said = sameRun("Plan\n...\nProof (solver highs, 0.01 s)");
    expect(sameRun("Plan\nBuy\nCut\nProof (solver javascript-lp-solver,\n  2.50 s)\n")).toMatch(
      pattern(said),
    );
    expect(sameRun("Plan\nBuy\nNo proof (solver highs, 0.01 s)\n")).not.toMatch(pattern(said));
    expect("Plan\n").not.toMatch(pattern("Plan\nBuy"));
  });
});
