import { z } from "zod";
import { didYouMean } from "./did-you-mean.js";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, isWrittenMap, type Path, type Written, writtenAt } from "./source.js";
import * as words from "./wording.js";
import type { YamlDocument } from "./yaml.js";

/** A map with these keys and no others; `remedy` says what to write where something else stands. */
export function keyed<T extends z.core.$ZodLooseShape>(shape: T, remedy: string) {
  return z.strictObject(shape, {
    error: (issue) => (issue.code === "unrecognized_keys" ? Object.keys(shape).join(", ") : remedy),
  });
}

/** A scalar whose text `parse` turns into a value, or into the words of a problem. */
export function scalar<T>(parse: (text: string) => T | words.Wording, remedy: string, json: object = {}) {
  return z
    .string({ error: () => remedy })
    .transform((text, context): T => {
      const parsed = text.trim() === "" ? words.wrongKind("", remedy) : parse(text.trim());
      if (!isWording(parsed)) return parsed;
      context.addIssue({ code: "custom", message: parsed.remedy, params: { what: parsed.what } });
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
  /** Whether the value at a path, or anything inside it, was written but left out because of a problem. */
  isLeftOut(path: Path): boolean;
}

/**
 * Reads a document by a schema built from `keyed` and `scalar`. Every problem is reported; what has one is
 * left out, with the map around it where it cannot do without, so that the rest can be checked further. Paths
 * given to the functions of the result are those of its value.
 */
export function readBySchema<S extends z.ZodType>(
  schema: S,
  document: YamlDocument,
  emptyRemedy: string,
): ReadValue<z.output<S>> {
  const salvage = new Salvage(document);
  const written = document.value;
  if (written === undefined) {
    const syntax = document.problems;
    const problems =
      syntax.length > 0 ? syntax : [{ ...document.positionOf([]), ...words.emptyFile(emptyRemedy) }];
    return { ...salvage.places(), value: null, problems };
  }
  for (;;) {
    const result = schema.safeParse(salvage.pruned(written, []));
    if (result.success) return { ...salvage.places(), value: result.data, problems: salvage.sorted() };
    const kept = result.error.issues.flatMap(plainIssues).map((issue) => salvage.drop(issue));
    if (!kept.every(Boolean)) return { ...salvage.places(), value: null, problems: salvage.sorted() };
  }
}

type Issue = z.core.$ZodIssue;

class Salvage {
  private readonly problems: Problem[];
  private readonly dropped = new Map<string, Path>();

  constructor(private readonly document: YamlDocument) {
    this.problems = [...document.problems];
  }

  sorted(): Problem[] {
    return this.problems.sort(inFileOrder);
  }

  /** Reports an issue and leaves out what it is about. False when that is the whole document. */
  drop(issue: Issue): boolean {
    const path = this.original(issue.path);
    const value = writtenAt(this.document.value, path);
    if (issue.code === "unrecognized_keys") {
      for (const key of issue.keys) {
        const meant = didYouMean(key, issue.message.split(", "));
        this.report(this.document.keyPositionOf([...path, key]), words.unknownKey(key, meant, issue.message));
        this.leaveOut([...path, key]);
      }
      return true;
    }
    const parent = path.slice(0, -1);
    if (value === undefined || this.dropped.has(keyOf(path))) {
      if (!this.dropped.has(keyOf(path))) {
        this.report(this.document.keyPositionOf(parent), words.missing(String(path.at(-1)), issue.message));
      }
      return this.leaveOut(parent);
    }
    this.report(this.document.positionOf(path), wordingOf(issue, value));
    return this.leaveOut(path);
  }

  pruned(value: Written, path: Path): Written {
    const kept = (step: string | number) => !this.dropped.has(keyOf([...path, step]));
    if (isWrittenMap(value)) {
      return Object.fromEntries(
        Object.entries(value)
          .filter(([key]) => kept(key))
          .map(([key, inner]) => [key, this.pruned(inner, [...path, key])]),
      );
    }
    if (typeof value === "string") return value;
    return value.flatMap((inner, index) => (kept(index) ? [this.pruned(inner, [...path, index])] : []));
  }

  places(): Pick<ReadValue<unknown>, "positionOf" | "keyPositionOf" | "isLeftOut"> {
    return {
      positionOf: (path) => this.document.positionOf(this.original(path)),
      keyPositionOf: (path) => this.document.keyPositionOf(this.original(path)),
      isLeftOut: (path) => {
        const wanted = this.original(path);
        return [...this.dropped.values()].some((left) => wanted.every((step, index) => left[index] === step));
      },
    };
  }

  /** The path as written of a path in the pruned value, whose lists have lost the elements left out. */
  private original(path: readonly PropertyKey[]): Path {
    const found: (string | number)[] = [];
    for (const step of path)
      found.push(typeof step === "number" ? this.originalIndex(found, step) : String(step));
    return found;
  }

  private originalIndex(list: Path, wanted: number): number {
    let index = 0;
    for (let kept = 0; ; index += 1) {
      if (this.dropped.has(keyOf([...list, index]))) continue;
      if (kept === wanted) return index;
      kept += 1;
    }
  }

  private report(position: Position, text: words.Wording): void {
    this.problems.push({ ...position, ...text });
  }

  private leaveOut(path: Path): boolean {
    this.dropped.set(keyOf(path), path);
    return path.length > 0;
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

function wordingOf(issue: Issue, value: Written): words.Wording {
  const what = issue.code === "custom" ? issue.params?.what : undefined;
  if (typeof what === "string") return { what, remedy: issue.message };
  return words.wrongKind(value, issue.message);
}

function isWording(value: unknown): value is words.Wording {
  return typeof value === "object" && value !== null && "what" in value && "remedy" in value;
}

function keyOf(path: Path): string {
  return JSON.stringify(path);
}
