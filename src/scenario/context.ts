import type { ReadScenario, ScenarioFile } from "../kitchen/index.js";
import { didYouMean, keysAt, type Path, type Problem, type Wording, writtenAt } from "../reading/index.js";
import type { YieldTables } from "../yields/index.js";
import { words } from "./wording/index.js";

export type ItemEntry = ScenarioFile["items"][string];

/** What is being resolved, and the problems found on the way. */
export class Resolving {
  readonly problems: Problem[];
  /** What items whose yields could not be settled are forms of: nothing said of its parts can be judged. */
  readonly unsettledItems = new Set<string>();
  /** Parts of a breakdown, or made by a step, that has a problem. */
  readonly unsettledParts = new Set<string>();

  constructor(
    private readonly read: ReadScenario,
    readonly file: ScenarioFile,
    readonly tables: YieldTables,
  ) {
    this.problems = [...read.problems];
  }

  /** Reports a problem at the value at a path. */
  at(path: Path, text: Wording): void {
    this.problems.push({ ...this.read.positionOf(path), ...text });
  }

  /** Reports a problem at the key at a path. */
  atKey(path: Path, text: Wording): void {
    this.problems.push({ ...this.read.keyPositionOf(path), ...text });
  }

  /** Reports a problem at a name, which may be a key of a map, an element of a list, or a value by itself. */
  atName(path: Path, text: Wording): void {
    const isKey = typeof path.at(-1) === "string" && typeof writtenAt(this.read.written, path) === "object";
    if (isKey) this.atKey(path, text);
    else this.at(path, text);
  }

  lineOf(path: Path): number {
    return this.read.keyPositionOf(path).line;
  }

  /** Whether something at or under a path was written but could not be read. */
  isLeftOut(path: Path): boolean {
    return this.read.isLeftOut(path);
  }

  /** The path of one element of what may be written as a list or as a single value. */
  elementOf(path: Path, index: number): Path {
    return Array.isArray(writtenAt(this.read.written, path)) ? [...path, index] : path;
  }

  /** The keys written in a map, those included whose values could not be read. */
  namesWritten(path: Path): string[] {
    return keysAt(this.read.written, path);
  }

  /** What an item's parts are named after, as written, whether the rest of it is readable or not. */
  formOf(item: string): string {
    const of = writtenAt(this.read.written, ["items", item, "of"]);
    return typeof of === "string" ? of : item;
  }

  /** Full names of the parts that an item's own breakdowns declare, readable or not. */
  ownPartsWritten(item: string): string[] {
    const breakdowns = ["items", item, "breakdowns"];
    return this.namesWritten(breakdowns).flatMap((breakdown) =>
      this.namesWritten([...breakdowns, breakdown, "parts"]).map((part) => `${this.formOf(item)} ${part}`),
    );
  }

  serviceNamesWritten(): string[] {
    const services = writtenAt(this.read.written, ["services"]);
    if (!Array.isArray(services)) return [];
    return services.flatMap((_, index) => {
      const name = writtenAt(this.read.written, ["services", index, "name"]);
      return typeof name === "string" ? [name] : [];
    });
  }

  /**
   * Whether nothing can be said of a part, because what would declare it, or make it, has a problem of its own.
   */
  isUnsettled(part: string): boolean {
    const noItems = this.isLeftOut(["items"]) && this.namesWritten(["items"]).length === 0;
    return (
      noItems ||
      this.unsettledParts.has(part) ||
      [...this.unsettledItems].some((item) => part.startsWith(`${item} `))
    );
  }
}

/**
 * What to say of a part name that nothing declares: the part it stands for, one that can be had here before any
 * other, or the parts of the item it names.
 */
export function unknownPart(
  context: Resolving,
  name: string,
  known: ReadonlySet<string>,
  had: readonly string[],
): Wording {
  const items = Object.keys(context.file.items);
  const ofItem = items.includes(name)
    ? [...known].filter((part) => part.startsWith(`${context.formOf(name)} `))
    : [];
  if (ofItem.length > 0) return words.itemForPart(name, ofItem);
  const named = items.find((item) => context.formOf(item) !== item && name.startsWith(`${item} `));
  const short = named === undefined ? name : name.slice(named.length + 1);
  const stems = new Set((named === undefined ? items : [named]).map((item) => context.formOf(item)));
  const [whole, ...others] = [...stems].map((stem) => `${stem} ${short}`).filter((part) => known.has(part));
  const meant =
    whole !== undefined && others.length === 0
      ? whole
      : (didYouMean(name, had) ?? didYouMean(name, [...known]));
  return words.unknownPart(name, meant);
}
