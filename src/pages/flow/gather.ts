import { total, type Weight } from "../../quantity/index.js";
import { listed } from "../writing.js";
import type { Fate, FlowBand, FlowGraph, FlowNode } from "./graph.js";

/**
 * The graph with small parts gathered: parts lighter than `small` that come from one place and go whole to one
 * end share a node and its bands, which name every one of them.
 */
export function gathered({ nodes, bands }: FlowGraph, small: Weight): FlowGraph {
  const groups = new Map<string, { node: FlowNode; into: FlowBand; out: FlowBand }[]>();
  for (const node of nodes) {
    if (node.kind !== "part") continue;
    const into = bands.filter(({ to }) => to === node.id);
    const out = bands.filter(({ from }) => from === node.id);
    const [one, other] = [into[0], out[0]];
    if (into.length !== 1 || out.length !== 1 || one === undefined || other === undefined) continue;
    if (one.weight >= small) continue;
    const key = JSON.stringify([one.from, other.to]);
    groups.set(key, [...(groups.get(key) ?? []), { node, into: one, out: other }]);
  }
  const several = [...groups.values()].filter((group) => group.length > 1);
  const replaced = new Set(several.flat().map(({ node }) => node.id));
  const untouched = ({ from, to }: FlowBand) => !replaced.has(from) && !replaced.has(to);
  return {
    nodes: [
      ...nodes.filter(({ id }) => !replaced.has(id)),
      ...several.map((group): FlowNode => {
        const names = group.map(({ node }) => node.name);
        return { id: nodeId(group), kind: "part", name: listed(names), fate: fateOf(group), leaving: [] };
      }),
    ],
    bands: [
      ...bands.filter(untouched),
      ...several.flatMap((group): FlowBand[] => {
        const weight = total(group.map(({ into }) => into.weight));
        const contents = group.flatMap(({ into }) => into.contents);
        const id = nodeId(group);
        const fate = fateOf(group);
        const [first] = group;
        if (first === undefined) return [];
        return [
          { from: first.into.from, to: id, weight, fate, contents },
          {
            from: id,
            to: first.out.to,
            weight,
            fate,
            contents: [{ names: contents.flatMap(({ names }) => names), weight }],
          },
        ];
      }),
    ],
  };
}

type Group = readonly { readonly node: FlowNode }[];

/** Named after its first part, so that it is known whose it is. */
function nodeId(group: Group): string {
  return group[0]?.node.id ?? "";
}

function fateOf(group: Group): Fate {
  return group[0]?.node.fate ?? "mixed";
}
