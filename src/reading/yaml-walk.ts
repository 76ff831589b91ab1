import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type Scalar } from "yaml";
import { cleaned, codeOf, composed, nameFault, uncleanIn } from "./clean.js";
import { MOST } from "./limits.js";
import type { Position, Problem, Wording } from "./problem.js";
import type { Path, Written } from "./source.js";
import { words } from "./wording.js";
import { startOf, type YamlPlaces } from "./yaml-places.js";

/** From the nodes of a YAML text to the values written, with what is wrong on the way. */
export class YamlWalk {
  readonly problems: Problem[] = [];
  readonly leftOut: Path[] = [];
  /** What is wrong with all of it, so that its values count for nothing. */
  refusal: Problem | null = null;
  private values = 0;
  private readonly inside = new Set<Node>();

  constructor(
    private readonly text: string,
    private readonly places: YamlPlaces,
    private readonly at: (offset: number) => Position,
  ) {}

  /** The value of a node; `fallback` is the offset of what is around it. */
  written(node: unknown, fallback: number, path: Path): Written {
    if (this.refusal !== null) return "";
    this.values += 1;
    if (this.values > MOST.values) return this.refuse(fallback, words.tooManyValues(MOST.values));
    // Only anchors lead so deep: what is written out was measured before.
    if (path.length > MOST.depth) return this.refuse(fallback, words.tooDeep(MOST.depth));
    if (isAlias(node))
      return this.followed(node.source, this.places.target(node), startOf(node, fallback), path);
    if (isMap(node)) return this.within(node, () => this.map(node.items, startOf(node, fallback), path));
    if (isSeq(node)) {
      return this.within(node, () =>
        node.items.map((item, index) => this.written(item, startOf(item, fallback), [...path, index])),
      );
    }
    return isScalar(node) ? this.scalar(node) : "";
  }

  private followed(name: string, target: Node | undefined, offset: number, path: Path): Written {
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
      if (!isScalar(key)) {
        this.complain(offset, words.notAKey(null));
        continue;
      }
      const name = this.scalar(key);
      const earlier = offsets.get(name);
      const fault =
        name === "<<"
          ? words.mergeKey()
          : earlier === undefined
            ? nameFault(name)
            : words.writtenTwice(name, this.at(earlier).line);
      if (fault === null) {
        offsets.set(name, offset);
        map[name] = this.written(value, offset, [...path, name]);
      } else {
        this.leftOut.push([...path, name]);
        this.complain(offset, fault);
      }
    }
    return map;
  }

  /** The text of a scalar, without what may not stand in it; an accent is always one with its letter. */
  private scalar(node: Scalar): string {
    const text = String(node.value ?? "");
    const character = uncleanIn(text);
    if (character === null) return composed(text);
    const [start = 0, end = start] = node.range ?? [];
    const within = this.text.slice(start, end).indexOf(character);
    this.complain(start + Math.max(0, within), words.uncleanCharacter(codeOf(character)));
    return composed(cleaned(text));
  }

  private complain(offset: number, text: Wording): Written {
    this.problems.push({ ...this.at(offset), ...text });
    return "";
  }

  private refuse(offset: number, text: Wording): Written {
    this.refusal = { ...this.at(offset), ...text };
    return "";
  }
}
