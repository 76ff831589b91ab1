import { createHash } from "node:crypto";
import { readdir, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import { isTestCard, readTestCard, type Scenario } from "../kitchen/index.js";
import { loadScenarioText, type OwnTestsFile, readOwnTests } from "../kitchen-files/index.js";
import type { Problem, Source } from "../reading/index.js";
import { finishSaving, textAt, yieldTestsFile } from "../records/index.js";
import { type SettledTestCard, settleTestCard } from "../yields/index.js";
import type { ScenarioTexts } from "./work/tasks.js";

/** A scenario file as it was read: the same content, with the same own yield tests beside it, has the same hash. */
export interface ScenarioFile {
  /** Name of the file without its folder; problems name it so too. */
  readonly name: string;
  readonly hash: string;
  /** For a thread to read it again. */
  readonly texts: ScenarioTexts;
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
}

/** One without a problem. */
export interface ReadFile extends ScenarioFile {
  readonly scenario: Scenario;
}

export function isRead(file: ScenarioFile): file is ReadFile {
  return file.scenario !== null;
}

/** A test card of the folder, worked out. */
interface TestCardFile {
  readonly file: string;
  readonly settled: SettledTestCard;
}

/** Something read from a file, and what the file looked like then. */
interface Seen<T> {
  readonly mark: string;
  readonly value: T;
}

/** A YAML file of the folder: its text, or why it has none. */
interface Yaml {
  readonly file: string;
  readonly text: string | null;
  readonly problem: Problem | null;
}

/** A file changed this short a time ago may change again without looking otherwise. */
const SETTLED_MS = 2_000;

/** The scenario files of one folder, read again where they changed; nothing outside it can be named. */
export class Folder {
  readonly path: string;
  readonly #texts = new Map<string, Seen<Yaml>>();
  readonly #scenarios = new Map<string, { yaml: Yaml; ownTests: OwnTestsFile | null; file: ScenarioFile }>();
  readonly #cards = new Map<string, { yaml: Yaml; settled: SettledTestCard }>();
  #ownTests: Seen<OwnTestsFile | null> | null = null;

  constructor(path: string) {
    this.path = path;
  }

  /** Names of the folder's scenario files, in the order of the alphabet. */
  async names(): Promise<string[]> {
    const files = await Promise.all((await this.#yamlNames()).map((name) => this.#yaml(name)));
    return files.filter(({ text }) => text === null || !isTestCard(text)).map(({ file }) => file);
  }

  /** The folder's test cards: every YAML file with a butcher's test or a cooking-loss test. */
  async testCards(): Promise<TestCardFile[]> {
    const files = await Promise.all((await this.#yamlNames()).map((name) => this.#yaml(name)));
    return files.flatMap((yaml) => {
      const { file, text } = yaml;
      if (text === null || !isTestCard(text)) return [];
      const known = this.#cards.get(file);
      const settled = known?.yaml === yaml ? known.settled : settledApart({ file, text });
      this.#cards.set(file, { yaml, settled });
      return [{ file, settled }];
    });
  }

  /** The file of that name, read anew when its content has changed; null when the folder holds none. */
  async read(name: string): Promise<ScenarioFile | null> {
    await finishSaving(this.path);
    if (!(await this.#yamlNames()).includes(name)) return null;
    const yaml = await this.#yaml(name);
    if (yaml.text !== null && isTestCard(yaml.text)) return null;
    const ownTests = await this.#ownTestsNow();
    const known = this.#scenarios.get(name);
    if (known?.yaml === yaml && known.ownTests === ownTests) return known.file;
    const hash = createHash("sha256")
      .update(JSON.stringify([yaml.text, ownTests]))
      .digest("hex");
    const texts = { name, text: yaml.text ?? "", ownTests };
    const isAsBefore = known?.file.hash === hash && yaml.text !== null;
    const file = isAsBefore ? known.file : { name, hash, texts, ...loadedApart(name, yaml, ownTests) };
    this.#scenarios.set(name, { yaml, ownTests, file });
    return file;
  }

  async #yamlNames(): Promise<string[]> {
    const entries = await readdir(this.path, { withFileTypes: true });
    return entries
      .filter((entry) => entry.isFile() && /^[^.].*\.ya?ml$/i.test(entry.name))
      .map(({ name }) => name)
      .sort((a, b) => a.localeCompare(b, "en"));
  }

  async #yaml(name: string): Promise<Yaml> {
    const path = join(this.path, name);
    const mark = await markOf(path);
    const known = this.#texts.get(name);
    if (mark !== null && known?.mark === mark) return known.value;
    const text = await textAt(path);
    const value =
      text === null || typeof text === "string"
        ? { file: name, text, problem: null }
        : { file: name, text: null, problem: { ...text, file: name } };
    if (mark === null) this.#texts.delete(name);
    else this.#texts.set(name, { mark, value });
    return value;
  }

  async #ownTestsNow(): Promise<OwnTestsFile | null> {
    const mark = await markOf(yieldTestsFile(this.path));
    if (mark !== null && this.#ownTests?.mark === mark) return this.#ownTests.value;
    const found = await readOwnTests(this.path);
    const file = basename(found?.file ?? "");
    const problem = found?.problem === undefined ? {} : { problem: { ...found.problem, file } };
    const value = found === null ? null : { file, text: found.text, ...problem };
    this.#ownTests = mark === null ? null : { mark, value };
    return value;
  }
}

/** What a file looks like from outside; null where that does not tell whether it changed. */
async function markOf(path: string): Promise<string | null> {
  const found = await stat(path).catch(() => null);
  if (found === null || Math.abs(Date.now() - found.mtimeMs) < SETTLED_MS) return null;
  return [found.size, found.mtimeMs, found.ctimeMs, found.ino].join(" ");
}

type Loaded = Pick<ScenarioFile, "scenario" | "problems">;

/** One file that the program itself stumbles over is a problem of that file alone. */
function loadedApart(name: string, { text, problem }: Yaml, ownTests: OwnTestsFile | null): Loaded {
  if (text === null) return { scenario: null, problems: problem === null ? [gone(name)] : [problem] };
  try {
    return loadScenarioText(name, text, undefined, ownTests);
  } catch (error) {
    return { scenario: null, problems: [stumbled(name, error)] };
  }
}

function settledApart(source: Source): SettledTestCard {
  try {
    return settleTestCard(readTestCard(source));
  } catch (error) {
    return { card: null, problems: [stumbled(source.file, error)] };
  }
}

function gone(file: string): Problem {
  return { file, line: 1, column: 1, what: "this file is not there any more", remedy: "Load the page again" };
}

function stumbled(file: string, error: unknown): Problem {
  process.stderr.write(`${file}: ${error instanceof Error ? error.message : String(error)}\n`);
  const what = "the program stumbles over this file, which is our fault";
  return { file, line: 1, column: 1, what, remedy: "Undo what was written last, and tell us what it was" };
}
