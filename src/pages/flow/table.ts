import { total } from "../../quantity/index.js";
import { itemsOf, type View } from "../view.js";
import { type FlowNode, flowGraph } from "./graph.js";

/** The picture's figures again, for those who cannot see it: everything that leaves one place. */
export type FlowTable = {
  readonly name: string;
  readonly shown: string;
  readonly rows: readonly { readonly name: string; readonly shown: string }[];
};

export function flowTables(view: View): FlowTable[] {
  const { nodes, bands } = flowGraph(view);
  const { shown } = view.writing;
  const nameOf = new Map(nodes.map(({ id, name }): [string, string] => [id, name]));
  const rank: Readonly<Record<FlowNode["kind"], number>> = { source: 0, part: 1, dish: 2, end: 3 };
  const itemRank = ({ id, kind }: FlowNode) => {
    const items = view.scenario.items.map(({ name }) => name);
    if (kind === "part")
      return items.indexOf(itemsOf(id.slice("part:".length), view.scenario)[0]?.name ?? "");
    const own = items.indexOf(id.slice("item:".length));
    return kind === "source" && own >= 0 ? own : items.length;
  };
  return [...nodes]
    .sort((a, b) => itemRank(a) - itemRank(b) || rank[a.kind] - rank[b.kind])
    .flatMap(({ id, name, leaving }): FlowTable[] => {
      const out = bands.filter(({ from }) => from === id);
      const rows = [...out.map(({ to, weight }) => ({ name: nameOf.get(to) ?? to, weight })), ...leaving];
      if (rows.length === 0) return [];
      const into = bands.filter(({ to }) => to === id).map(({ weight }) => weight);
      return [
        {
          name,
          shown: shown(total(into.length === 0 ? rows.map(({ weight }) => weight) : into)),
          rows: rows.map((row) => ({ name: row.name, shown: shown(row.weight) })),
        },
      ];
    });
}
