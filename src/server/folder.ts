import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { isTestCard, type Scenario } from "../kitchen/index.js";
import { loadScenarioText, readOwnTests } from "../kitchen-files/index.js";
import type { Problem, Source } from "../reading/index.js";
import { finishSaving } from "../records/index.js";
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

/** The scenario files of one folder; nothing outside it can be named. */
export class Folder {
  readonly path: string;
  readonly #read = new Map<string, ScenarioFile>();

  constructor(path: string) {
    this.path = path;
  }

  /** Names of the folder's scenario files, in the order of the alphabet. */
  async names(): Promise<string[]> {
    const files = await this.#yaml();
    return files.filter(({ text }) => !isTestCard(text)).map(({ file }) => file);
  }

  /** The folder's test cards: every YAML file with a butcher's test or a cooking-loss test. */
  async testCards(): Promise<Source[]> {
    const files = await this.#yaml();
    return files.filter(({ text }) => isTestCard(text));
  }

  async #yaml(): Promise<Source[]> {
    const entries = await readdir(this.path, { withFileTypes: true });
    const names = entries
      .filter((entry) => entry.isFile() && /^[^.].*\.ya?ml$/i.test(entry.name))
      .map(({ name }) => name)
      .sort((a, b) => a.localeCompare(b, "en"));
    const files = names.map(async (file) => ({
      file,
      text: await readFile(join(this.path, file), "utf8").catch(() => null),
    }));
    return (await Promise.all(files)).flatMap(({ file, text }) => (text === null ? [] : [{ file, text }]));
  }

  /** The file of that name, read anew when its content has changed; null when the folder holds none. */
  async read(name: string): Promise<ScenarioFile | null> {
    await finishSaving(this.path);
    const text = (await this.#yaml()).find(({ file }) => file === name)?.text;
    if (text === undefined || isTestCard(text)) return null;
    const found = await readOwnTests(this.path);
    const ownTests = found === null ? null : { file: basename(found.file), text: found.text };
    const hash = createHash("sha256")
      .update(JSON.stringify([text, ownTests]))
      .digest("hex");
    const known = this.#read.get(name);
    if (known?.hash === hash) return known;
    const texts = { name, text, ownTests };
    const file = { name, hash, texts, ...loadScenarioText(name, text, undefined, ownTests) };
    this.#read.set(name, file);
    return file;
  }
}
