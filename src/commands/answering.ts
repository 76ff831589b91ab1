import { dirname } from "node:path";
import { Engines, ModelTooLarge } from "../allocation/index.js";
import type { Aim, Scenario } from "../kitchen/index.js";
import { loadScenario } from "../kitchen-files/index.js";
import { CostingError } from "../ledger/index.js";
import { type Page, pageAssets } from "../pages/index.js";
import { problemLines } from "../reading/index.js";
import { finishSaving } from "../records/index.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";
import { folderObstacle, writeFolder } from "./write-folder.js";

interface Asked {
  readonly file: string;
  readonly aim?: Aim | undefined;
  /** A folder that pages are to be written to. */
  readonly out?: string | undefined;
}

/**
 * Reads a scenario, has it answered, and ends the engines; what is wrong with the input is said and nothing done. The
 * answer is told how long ago it was asked for, as reading takes some of the time allowed.
 */
export async function answering(
  { file, aim, out }: Asked,
  terminal: Terminal,
  answer: (scenario: Scenario, engines: Engines, spent: () => number) => Promise<ExitCode>,
): Promise<ExitCode> {
  const began = performance.now();
  const engines = new Engines();
  engines.warm();
  try {
    await finishSaving(dirname(file));
    const { scenario, problems } = await loadScenario(file, aim);
    for (const line of problemLines(problems)) terminal.complain(line);
    if (scenario === null || problems.length > 0) return EXIT.wrongInput;
    const obstacle = out === undefined ? null : folderObstacle(out);
    if (obstacle !== null) {
      terminal.complain(obstacle);
      return EXIT.wrongInput;
    }
    return await answer(scenario, engines, () => (performance.now() - began) / 1000);
  } catch (error) {
    if (!(error instanceof CostingError || error instanceof ModelTooLarge)) throw error;
    for (const { what, remedy } of error.problems) terminal.complain(`${file}: ${what}. ${remedy}`);
    return EXIT.wrongInput;
  } finally {
    await engines.close();
  }
}

/** Writes pages and what they need into a folder, and says which to open. */
export function writePages(out: string, pages: readonly Page[], say: (line: string) => void): void {
  writeFolder(out, [
    ...pages.map(({ slug, html }) => ({ path: `${slug}.html`, content: html })),
    ...pageAssets().map(({ path, content }) => ({ path: `assets/${path}`, content })),
  ]);
  say(`Pages: ${out}/${pages[0]?.slug ?? ""}.html`);
}
