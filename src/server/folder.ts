import { createHash } from "node:crypto";
import { readdir, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import { isTestCard } from "../kitchen/index.js";
import { type OwnTestsFile, readOwnTests } from "../kitchen-files/index.js";
import { type Problem, problemOf, reasonOf, type Source } from "../reading/index.js";
import { finishSaving, textAt, yieldTestsFile } from "../records/index.js";
import type { ReadScenario } from "./desk/scenarios.js";
import type { TestCardLine } from "./desk/test-cards.js";
import { testCardAddress } from "./frame.js";
import type { ScenarioTexts } from "./scenario-texts.js";
import { words } from "./words.js";

/** A scenario file of the folder, and what was read of it. */
export interface ScenarioFile extends ReadScenario {
  readonly texts: ScenarioTexts;
}

/** Who reads the texts of files; both reject where the reader itself gave way. */
export interface Reader {
  readScenario(texts: ScenarioTexts): Promise<ReadScenario>;
  readTestCard(source: Source): Promise<TestCardLine>;
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
  readonly isTestCard: boolean;
}

/** What is read, or being read, of a file that looked so. */
interface Known<T> {
  readonly yaml: Yaml;
  readonly read: Promise<T>;
}

interface KnownScenario extends Known<ScenarioFile> {
  readonly ownTests: OwnTestsFile | null;
  readonly hash: string;
}

/** A file changed this short a time ago may change again without looking otherwise. */
const SETTLED_MS = 2_000;

/** The scenario files of one folder, read again where they changed; nothing outside it can be named. */
export class Folder {
  readonly path: string;
  readonly #reader: Reader;
  readonly #yamls = new Map<string, Seen<Yaml>>();
  readonly #scenarios = new Map<string, KnownScenario>();
  readonly #cards = new Map<string, Known<TestCardLine>>();
  #ownTests: Seen<OwnTestsFile | null> | null = null;

  constructor(path: string, reader: Reader) {
    this.path = path;
    this.#reader = reader;
  }

  /** Names of the folder's scenario files, in the order of the alphabet. */
  async names(): Promise<string[]> {
    const files = await Promise.all((await this.#yamlNames()).map((name) => this.#yaml(name)));
    return files.flatMap(({ file, isTestCard }) => (isTestCard ? [] : [file]));
  }

  /** The folder's test cards: every YAML file with a butcher's test or a cooking-loss test. */
  async testCards(): Promise<TestCardLine[]> {
    const files = await Promise.all((await this.#yamlNames()).map((name) => this.#yaml(name)));
    return Promise.all(files.filter((yaml) => yaml.isTestCard).map((yaml) => this.#card(yaml)));
  }

  /** The text of the test card in the file of that name; null where the folder holds none. */
  async testCard(name: string): Promise<Source | null> {
    if (!(await this.#yamlNames()).includes(name)) return null;
    const { file, text, isTestCard } = await this.#yaml(name);
    return isTestCard && text !== null ? { file, text } : null;
  }

  /** The file of that name, read anew when its content has changed; null when the folder holds none. */
  async read(name: string): Promise<ScenarioFile | null> {
    await finishSaving(this.path);
    if (!(await this.#yamlNames()).includes(name)) return null;
    const yaml = await this.#yaml(name);
    if (yaml.isTestCard) return null;
    const ownTests = await this.#ownTestsNow();
    const known = this.#scenarios.get(name);
    if (known?.yaml === yaml && known.ownTests === ownTests) return known.read;
    const hash = createHash("sha256")
      .update(JSON.stringify([yaml.text, ownTests]))
      .digest("hex");
    const isAsBefore = known?.hash === hash && yaml.text !== null;
    const read = isAsBefore
      ? known.read
      : this.#scenario(yaml, { name, text: yaml.text ?? "", ownTests, hash });
    this.#scenarios.set(name, { yaml, ownTests, hash, read });
    return read;
  }

  async #scenario({ file, text, problem }: Yaml, texts: ScenarioTexts): Promise<ScenarioFile> {
    if (text === null) return { texts, summary: null, problems: [problem ?? problemOf(file, words.gone())] };
    try {
      return { texts, ...(await this.#reader.readScenario(texts)) };
    } catch (error) {
      if (this.#scenarios.get(file)?.hash === texts.hash) this.#scenarios.delete(file);
      return { texts, summary: null, problems: [problemOf(file, words.notRead(reasonOf(error)))] };
    }
  }

  async #card(yaml: Yaml): Promise<TestCardLine> {
    const { file, text } = yaml;
    const known = this.#cards.get(file);
    if (known?.yaml === yaml) return known.read;
    const read = this.#reader.readTestCard({ file, text: text ?? "" }).catch(() => {
      if (this.#cards.get(file)?.yaml === yaml) this.#cards.delete(file);
      return { name: file, file: [], href: testCardAddress(file), state: "Not read" };
    });
    this.#cards.set(file, { yaml, read });
    return read;
  }

  async #yamlNames(): Promise<string[]> {
    const entries = await readdir(this.path, { withFileTypes: true });
    const names = entries
      .filter((entry) => entry.isFile() && /^[^.].*\.ya?ml$/i.test(entry.name))
      .map(({ name }) => name)
      .sort((a, b) => a.localeCompare(b, "en"));
    const there = new Set(names);
    for (const held of [this.#yamls, this.#scenarios, this.#cards])
      for (const name of held.keys()) if (!there.has(name)) held.delete(name);
    return names;
  }

  async #yaml(name: string): Promise<Yaml> {
    const path = join(this.path, name);
    const mark = await markOf(path);
    const known = this.#yamls.get(name);
    if (mark !== null && known?.mark === mark) return known.value;
    const text = await textAt(path);
    const value =
      text === null || typeof text === "string"
        ? { file: name, text, problem: null, isTestCard: text !== null && isTestCard(text) }
        : { file: name, text: null, problem: { ...text, file: name }, isTestCard: false };
    if (mark === null) this.#yamls.delete(name);
    else this.#yamls.set(name, { mark, value });
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
