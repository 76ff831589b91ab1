import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { Scenario } from "../kitchen/index.js";
import { readOwnTests } from "../kitchen-yields.js";
import { loadScenarioText } from "../load.js";
import type { Problem } from "../reading/index.js";

/** A scenario file as it was read: the same content, with the same own yield tests beside it, has the same hash. */
export interface ScenarioFile {
  /** Name of the file without its folder; problems name it so too. */
  readonly name: string;
  readonly hash: string;
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
}

/** The scenario files of one folder; nothing outside it can be named. */
export class Folder {
  readonly path: string;
  readonly #read = new Map<string, ScenarioFile>();

  constructor(path: string) {
    this.path = path;
  }

  /** Names of the folder's YAML files, in the order of the alphabet. */
  async names(): Promise<string[]> {
    const entries = await readdir(this.path, { withFileTypes: true });
    return entries
      .filter((entry) => entry.isFile() && /^[^.].*\.ya?ml$/i.test(entry.name))
      .map(({ name }) => name)
      .sort((a, b) => a.localeCompare(b, "en"));
  }

  /** The file of that name, read anew when its content has changed; null when the folder holds none. */
  async read(name: string): Promise<ScenarioFile | null> {
    if (!(await this.names()).includes(name)) return null;
    const text = await readFile(join(this.path, name), "utf8").catch(() => null);
    if (text === null) return null;
    const found = await readOwnTests(this.path);
    const ownTests = found === null ? null : { file: basename(found.file), text: found.text };
    const hash = createHash("sha256")
      .update(JSON.stringify([text, ownTests]))
      .digest("hex");
    const known = this.#read.get(name);
    if (known?.hash === hash) return known;
    const file = { name, hash, ...loadScenarioText(name, text, undefined, ownTests) };
    this.#read.set(name, file);
    return file;
  }
}
