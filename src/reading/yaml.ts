import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type YAMLError,
} from "yaml";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, type Path, type Source, type Written } from "./source.js";
import * as words from "./wording.js";

/** A YAML text as values that know where they stand. */
export interface YamlDocument {
  readonly file: string;
  /** Undefined where the text holds nothing, or its syntax is broken. */
  readonly value: Written | undefined;
  readonly problems: readonly Problem[];
  /** The keys that stand twice or can be none, whose values are not in the value. */
  readonly leftOut: readonly Path[];
  /** Where a value begins; where nothing stands at the path, the nearest thing around it. */
  positionOf(path: Path): Position;
  /** Where the key of a value begins; for an element of a list, the element itself. */
  keyPositionOf(path: Path): Position;
}

/** Values that anchors may be expanded into before the text is taken for a trap. */
const MOST_VALUES = 100_000;

/**
 * Reads YAML 1.2 with every scalar kept as its text, so that no figure passes through a binary float. Anchors
 * are followed. A text with broken syntax gives its problems and no value; a key written twice is a problem,
 * and its first value counts.
 */
export function readYaml(source: Source): YamlDocument {
  const lines = new LineCounter();
  const document = parseDocument(source.text, {
    schema: "failsafe",
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: false,
  });
  const at = (offset: number): Position => {
    const { line, col } = lines.linePos(offset);
    return { file: source.file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  const faults = syntaxProblems([...document.errors, ...document.warnings], at);
  const walk = faults.length === 0 ? new Walk(document, at) : null;
  const value = walk?.written(document.contents, 0, []);
  return {
    file: source.file,
    value: value === "" ? undefined : value,
    problems: walk === null ? faults : walk.problems,
    leftOut: walk?.leftOut ?? [],
    positionOf: (path) => at(find(document, path).value),
    keyPositionOf: (path) => at(find(document, path).key),
  };
}

/**
 * One problem a line, and none for what the parser stumbled over after its first complaint. Where tabs indent,
 * they are all that is said: how the other lines nest cannot be judged.
 */
function syntaxProblems(errors: readonly YAMLError[], at: (offset: number) => Position): Problem[] {
  const tabs = errors.filter(({ code }) => code === "TAB_AS_INDENT");
  const problems = (tabs.length > 0 ? tabs : errors)
    .filter(({ code }, index) => index === 0 || code !== "UNEXPECTED_TOKEN")
    .map(({ code, message, pos }) => ({ ...at(pos[0]), ...words.yamlSyntax(code, message) }))
    .sort(inFileOrder);
  return problems.filter(({ line }, index) => line !== problems[index - 1]?.line);
}

class Walk {
  readonly problems: Problem[] = [];
  readonly leftOut: Path[] = [];
  private values = 0;
  private readonly inside = new Set<Node>();

  constructor(
    private readonly document: Document,
    private readonly at: (offset: number) => Position,
  ) {}

  written(node: unknown, fallback: number, path: Path): Written {
    this.values += 1;
    if (this.values > MOST_VALUES) {
      if (this.values === MOST_VALUES + 1) this.complain(fallback, words.tooManyValues(MOST_VALUES));
      return "";
    }
    if (isAlias(node))
      return this.followed(node.resolve(this.document), node.source, startOf(node, fallback), path);
    if (isMap(node)) return this.within(node, () => this.map(node.items, startOf(node, fallback), path));
    if (isSeq(node)) {
      return this.within(node, () =>
        node.items.map((item, index) => this.written(item, startOf(item, fallback), [...path, index])),
      );
    }
    return isScalar(node) ? String(node.value ?? "") : "";
  }

  private followed(target: Node | undefined, name: string, offset: number, path: Path): Written {
    if (target === undefined) return this.complain(offset, words.unknownAnchor(name));
    if (this.inside.has(target)) return this.complain(offset, words.anchorInsideItself(name));
    return this.written(target, offset, path);
  }

  private within(node: Node, read: () => Written): Written {
    this.inside.add(node);
    const value = read();
    this.inside.delete(node);
    return value;
  }

  private map(pairs: readonly Pair[], fallback: number, path: Path): Written {
    const map: Record<string, Written> = {};
    const offsets = new Map<string, number>();
    for (const { key, value } of pairs) {
      const offset = startOf(key, fallback);
      const name = isScalar(key) ? String(key.value ?? "") : null;
      const earlier = name === null ? undefined : offsets.get(name);
      if (name === null || name === "" || name === "__proto__") {
        if (name !== null) this.leftOut.push([...path, name]);
        this.complain(offset, words.notAKey(name));
      } else if (name === "<<") this.complain(offset, words.mergeKey());
      else if (earlier !== undefined) {
        this.leftOut.push([...path, name]);
        this.complain(offset, words.writtenTwice(name, this.at(earlier).line));
      } else {
        offsets.set(name, offset);
        map[name] = this.written(value, offset, [...path, name]);
      }
    }
    return map;
  }

  private complain(offset: number, text: words.Wording): Written {
    this.problems.push({ ...this.at(offset), ...text });
    return "";
  }
}

/** Offsets of the value at a path and of its key, or of the last that exists on the way to it. */
function find(document: Document, path: Path): { value: number; key: number } {
  let node: unknown = document.contents;
  let value = startOf(node, 0);
  let key = value;
  for (const step of path) {
    const inside = isAlias(node) ? node.resolve(document) : node;
    if (isSeq(inside) && typeof step === "number" && step < inside.items.length) {
      node = inside.items[step];
      value = startOf(node, value);
      key = value;
      continue;
    }
    const pair = isMap(inside)
      ? inside.items.find((entry) => isScalar(entry.key) && entry.key.value === step)
      : undefined;
    if (pair === undefined) return { value, key };
    node = pair.value;
    key = startOf(pair.key, value);
    value = isEmptyScalar(node) ? key : startOf(node, key);
  }
  return { value, key };
}

function startOf(node: unknown, fallback: number): number {
  return isScalar(node) || isMap(node) || isSeq(node) || isAlias(node)
    ? (node.range?.[0] ?? fallback)
    : fallback;
}

function isEmptyScalar(node: unknown): boolean {
  return isScalar(node) && node.value === "" && node.range?.[0] === node.range?.[1];
}
