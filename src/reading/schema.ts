import { z } from "zod";
import { nameFault } from "./clean.js";
import { didYouMean } from "./did-you-mean.js";
import { MOST } from "./limits.js";
import { PathSet } from "./paths.js";
import { isWording, type Position, type Problem, type Wording } from "./problem.js";
import { inFileOrder, isWrittenMap, type Path, type Written, writtenAt } from "./source.js";
import { words } from "./wording.js";
import type { YamlDocument } from "./yaml.js";

/** A map with these keys and no others; `remedy` says what to write where something else stands. */
export function keyed<T extends z.core.$ZodLooseShape>(shape: T, remedy: string) {
  return z.strictObject(shape, {
    error: (issue) => (issue.code === "unrecognized_keys" ? Object.keys(shape).join(", ") : remedy),
  });
}

/**
 * A map from names that the user gives. It has no prototype, so that a look-up by a name like `constructor` finds only
 * what was written.
 */
export function named<T extends z.ZodType>(value: T, remedy: string) {
  return z.record(z.string(), value, { error: () => remedy }).transform(byName);
}

/** The same names and values without a prototype. */
export function byName<T>(record: Readonly<Record<string, T>>): Record<string, T> {
  return Object.assign(Object.create(null), record);
}

/** A figure or word whose text, its spaces made single ones, `parse` turns into a value or the words of a problem. */
export function scalar<T>(parse: (text: string) => T | Wording, remedy: string, json: object = {}) {
  return parsed(
    (text) =>
      text.length > MOST.figure ? words.longText(text, MOST.figure) : parse(text.replace(/\s+/g, " ")),
    remedy,
    json,
  );
}

/** A text of its own lines, such as a method. */
export function prose(remedy: string, json: object = {}) {
  return parsed((text) => (text.length > MOST.text ? words.longText(text, MOST.text) : text), remedy, json);
}

/** A text that names something. */
export function name(remedy: string, json: object = {}) {
  return parsed((text) => nameFault(text) ?? text, remedy, json);
}

function parsed<T>(parse: (text: string) => T | Wording, remedy: string, json: object) {
  return z
    .string({ error: () => remedy })
    .transform((text, context): T => {
      const parsed = text.trim() === "" ? words.wrongKind("", remedy) : parse(text.trim());
      if (!isWording(parsed)) return parsed;
      context.addIssue({ code: "custom", message: parsed.remedy, params: { wording: parsed } });
      return z.NEVER;
    })
    .meta({ ...json });
}

/** A value read by a schema, with whatever could not be read left out of it. */
export interface ReadValue<T> {
  /** Null where nothing could be kept. */
  readonly value: T | null;
  readonly problems: readonly Problem[];
  positionOf(path: Path): Position;
  keyPositionOf(path: Path): Position;
  /**
   * Whether the value at a path, or anything inside it, was written but left out because of a problem; so it is
   * too where the path lies in what stands twice.
   */
  isLeftOut(path: Path): boolean;
}

/** What `readBySchema` needs to know of a kind of file beside its schema. */
export interface FileKind {
  /** What to write where the file holds nothing. */
  readonly emptyRemedy: string;
  /** For each key at the top that cannot be left out, what stands in for it so that the rest can be checked. */
  readonly standIns: Readonly<Record<string, Written>>;
}

/**
 * Reads a document by a schema built from `keyed` and `scalar`. Every problem is reported; what has one is
 * left out, with the map around it where it cannot do without, so that the rest can be checked further. Paths
 * given to the functions of the result are those of its value.
 */
export function readBySchema<S extends z.ZodType>(
  schema: S,
  document: YamlDocument,
  kind: FileKind,
): ReadValue<z.output<S>> {
  const salvage = new Salvage(document, kind.standIns);
  const written = document.value;
  if (written === undefined) {
    const syntax = document.problems;
    const empty = { ...document.positionOf([]), ...words.emptyFile(kind.emptyRemedy) };
    return { ...salvage.places(), value: null, problems: syntax.length > 0 ? syntax : [empty] };
  }
  for (;;) {
    const result = schema.safeParse(salvage.kept(written));
    if (result.success) return { ...salvage.places(), value: result.data, problems: salvage.sorted() };
    if (!salvage.drop(result.error.issues.flatMap(plainIssues))) {
      return { ...salvage.places(), value: null, problems: salvage.sorted() };
    }
  }
}

type Issue = z.core.$ZodIssue;

class Salvage {
  private readonly problems: Problem[];
  private readonly dropped = new PathSet();
  private readonly twice = new PathSet();
  /** For each list that has lost elements, where those that are left stood in it. */
  private readonly stood = new Map<Written, readonly number[]>();
  private current: Written | undefined;

  constructor(
    private readonly document: YamlDocument,
    private readonly standIns: FileKind["standIns"],
  ) {
    this.problems = [...document.problems];
    for (const path of document.leftOut) this.twice.add(path);
  }

  sorted(): Problem[] {
    return this.problems.sort(inFileOrder);
  }

  /** Reports issues and leaves out what they are about. False when nothing is left to read again. */
  drop(issues: readonly Issue[]): boolean {
    const placed = issues.map((issue) => ({ issue, path: this.original(issue.path) }));
    const left = placed.flatMap(({ issue, path }) => this.report(issue, path));
    const before = this.dropped.size;
    for (const path of left) this.dropped.add(path);
    return this.dropped.size > before && left.every((path) => path.length > 0);
  }

  /** What is written, without what was left out and with what stands in for it. */
  kept(written: Written): Written {
    this.stood.clear();
    const pruned = this.pruned(written, []);
    const missing = Object.entries(this.standIns).filter(([key]) => this.dropped.has([key]));
    this.current = isWrittenMap(pruned) ? { ...pruned, ...Object.fromEntries(missing) } : pruned;
    return this.current;
  }

  places(): Pick<ReadValue<unknown>, "positionOf" | "keyPositionOf" | "isLeftOut"> {
    return {
      positionOf: (path) => this.document.positionOf(this.original(path)),
      keyPositionOf: (path) => this.document.keyPositionOf(this.original(path)),
      isLeftOut: (path) => {
        const wanted = this.original(path);
        return this.dropped.hasWithin(wanted) || this.twice.hasWithin(wanted) || this.twice.hasAround(wanted);
      },
    };
  }

  /** Reports an issue, unless it is only that something left out is missing; the paths to leave out for it. */
  private report(issue: Issue, path: Path): Path[] {
    if (issue.code === "unrecognized_keys") {
      return issue.keys.map((key) => {
        const meant = didYouMean(key, issue.message.split(", "));
        this.add(this.document.keyPositionOf([...path, key]), words.unknownKey(key, meant, issue.message));
        return [...path, key];
      });
    }
    const value = writtenAt(this.document.value, path);
    if (value !== undefined && !this.dropped.has(path)) {
      this.add(this.document.positionOf(path), wordingOf(issue, value));
      return [path];
    }
    const around = path.slice(0, -1);
    const key = String(path.at(-1));
    if (!this.dropped.has(path)) {
      this.add(this.document.keyPositionOf(around), words.missing(key, issue.message));
    }
    return around.length === 0 && Object.hasOwn(this.standIns, key) ? [path] : [around];
  }

  private pruned(value: Written, path: Path): Written {
    if (!this.dropped.hasWithin(path) || typeof value === "string") return value;
    const isKept = (step: string | number) => !this.dropped.has([...path, step]);
    if (isWrittenMap(value)) {
      return Object.fromEntries(
        Object.entries(value)
          .filter(([key]) => isKept(key))
          .map(([key, inner]) => [key, this.pruned(inner, [...path, key])]),
      );
    }
    const stood = [...value.keys()].filter(isKept);
    const left = stood.map((index) => this.pruned(value[index] ?? "", [...path, index]));
    this.stood.set(left, stood);
    return left;
  }

  /** The path as written of a path in the pruned value, whose lists have lost the elements left out. */
  private original(path: readonly PropertyKey[]): Path {
    const found: (string | number)[] = [];
    let node = this.current;
    for (const each of path) {
      const step = typeof each === "number" ? each : String(each);
      const stood = node === undefined ? undefined : this.stood.get(node);
      found.push(typeof step === "number" && stood !== undefined ? (stood[step] ?? step) : step);
      node = writtenAt(node, [step]);
    }
    return found;
  }

  private add(position: Position, text: Wording): void {
    this.problems.push({ ...position, ...text });
  }
}

/** A choice between kinds of value is judged by the one whose kind was written. */
function plainIssues(issue: Issue): Issue[] {
  if (issue.code !== "invalid_union") return [issue];
  const branch = issue.errors.find((errors) => !errors.some(isWrongKind)) ?? issue.errors[0] ?? [];
  return branch.flatMap((inner) => plainIssues({ ...inner, path: [...issue.path, ...inner.path] }));
}

function isWrongKind(issue: Issue): boolean {
  return issue.code === "invalid_type" && issue.path.length === 0;
}

function wordingOf(issue: Issue, value: Written): Wording {
  const wording: unknown = issue.code === "custom" ? issue.params?.wording : undefined;
  return isWording(wording) ? wording : words.wrongKind(value, issue.message);
}
