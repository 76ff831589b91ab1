import { type Document, isAlias, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap } from "yaml";
import { cleaned } from "./clean.js";
import type { Path } from "./source.js";

/** Where the values of a YAML document stand, and what its aliases refer to; each is looked for once. */
export class YamlPlaces {
  private readonly targets = new Map<unknown, Node | undefined>();
  private readonly pairs = new Map<YAMLMap, ReadonlyMap<string | number, Pair>>();

  constructor(private readonly document: Document) {
    this.follow(document.contents, new Map());
  }

  /** What an alias refers to: the last value above it with an anchor of that name. */
  target(alias: unknown): Node | undefined {
    return this.targets.get(alias);
  }

  /** Offsets of the value at a path and of its key, or of the last that exists on the way to it. */
  find(path: Path): { value: number; key: number } {
    let node: unknown = this.document.contents;
    let value = startOf(node, 0);
    let key = value;
    for (const step of path) {
      const inside = isAlias(node) ? this.target(node) : node;
      if (isSeq(inside) && typeof step === "number" && step < inside.items.length) {
        node = inside.items[step];
        value = startOf(node, value);
        key = value;
        continue;
      }
      const pair = isMap(inside) ? this.pairsOf(inside).get(step) : undefined;
      if (pair === undefined) return { value, key };
      node = pair.value;
      key = startOf(pair.key, value);
      value = isEmptyScalar(node) ? key : startOf(node, key);
    }
    return { value, key };
  }

  private pairsOf(map: YAMLMap): ReadonlyMap<string | number, Pair> {
    const known = this.pairs.get(map);
    if (known !== undefined) return known;
    // Of a key that stands twice, the first counts.
    const pairs = new Map(
      map.items
        .toReversed()
        .flatMap((pair) =>
          isScalar(pair.key) ? [[cleaned(String(pair.key.value ?? "")), pair] as const] : [],
        ),
    );
    this.pairs.set(map, pairs);
    return pairs;
  }

  private follow(node: unknown, anchors: Map<string, Node>): void {
    if (isAlias(node)) this.targets.set(node, anchors.get(node.source));
    if (!isScalar(node) && !isMap(node) && !isSeq(node)) return;
    if (node.anchor !== undefined) anchors.set(node.anchor, node);
    if (isSeq(node)) for (const item of node.items) this.follow(item, anchors);
    if (!isMap(node)) return;
    for (const { key, value } of node.items) {
      this.follow(key, anchors);
      this.follow(value, anchors);
    }
  }
}

/** Where a node begins; what is no node has no place of its own. */
export function startOf(node: unknown, fallback: number): number {
  return isScalar(node) || isMap(node) || isSeq(node) || isAlias(node)
    ? (node.range?.[0] ?? fallback)
    : fallback;
}

function isEmptyScalar(node: unknown): boolean {
  return isScalar(node) && node.value === "" && node.range?.[0] === node.range?.[1];
}
