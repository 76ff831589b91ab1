import type { Item, Part, Scenario } from "../kitchen/index.js";
import { tcsOf } from "./tcs.js";

/** Where parts come from and what they become, through any number of steps. */
export interface Lineage {
  readonly parts: ReadonlyMap<string, Part>;
  /** Every form of the item it is cut from, those that need temperature control first; none for a blend. */
  itemsOf(part: Part): readonly Item[];
  /** The parts it is made of by one step. */
  sourcesOf(partName: string): Part[];
  /** The part itself and all it is made of. */
  withSources(partName: string): Part[];
  /** Whether some food is made of the part by a step, or by steps after it. */
  becomesFood(partName: string): boolean;
}

/** The lineage of a scenario's parts. Steps that go round in a circle are walked once. */
export function lineageOf(scenario: Scenario): Lineage {
  const parts = new Map(scenario.parts.map((part) => [part.name, part]));
  const up = new Map<string, string[]>();
  const down = new Map<string, string[]>();
  for (const { from, yields } of scenario.steps) {
    for (const source of from) {
      for (const { part } of yields) {
        up.set(part, [...(up.get(part) ?? []), source]);
        down.set(source, [...(down.get(source) ?? []), part]);
      }
    }
  }
  return {
    parts,
    itemsOf: (part) => itemsOfPart(part, scenario),
    sourcesOf: (name) => [...new Set(up.get(name) ?? [])].flatMap((found) => parts.get(found) ?? []),
    withSources: (name) => [...reach(name, up)].flatMap((found) => parts.get(found) ?? []),
    becomesFood: (name) =>
      [...reach(name, down)].some((found) => found !== name && parts.get(found)?.class === "food"),
  };
}

/**
 * Every form of the item a part is cut from, those that need temperature control once cut first; and any other item
 * that gives a part of its name ("sorrel green" and "leaf", "sorrel" and "green leaf").
 */
export function itemsOfPart(part: Part, { items }: Pick<Scenario, "items">): Item[] {
  const gives = ({ breakdowns }: Item): boolean =>
    breakdowns.some(({ yields }) => yields.some((given) => given.part === part.name));
  const forms = items.filter((item) => item.of === part.item || gives(item));
  if (forms.length < 2) return forms;
  const rank = (item: Item): number => (tcsOf(part, item) === null ? 1 : 0);
  return forms.sort((a, b) => rank(a) - rank(b));
}

function reach(start: string, edges: ReadonlyMap<string, readonly string[]>): Set<string> {
  const seen = new Set([start]);
  for (const name of seen) for (const next of edges.get(name) ?? []) seen.add(next);
  return seen;
}
