import { NO_WEIGHT, plus, type Weight } from "../../quantity/index.js";
import { endWords, isKind, type View } from "../view.js";

/** Where weight ends; "mixed" while it is still on its way to more than one end. */
export type Fate = "dish" | "givenAway" | "closingStock" | "wastedFood" | "inedible" | "loss" | "mixed";

export interface FlowNode {
  readonly id: string;
  readonly kind: "source" | "part" | "dish" | "end";
  /** Name where nothing around it says more. */
  readonly name: string;
  readonly fate: Fate;
  /** Of a dish: what leaves it again, to be shown beside it. */
  readonly leaving: readonly Leaving[];
}

export interface Leaving {
  readonly name: string;
  readonly fate: Fate;
  readonly weight: Weight;
}

export interface FlowBand {
  readonly from: string;
  readonly to: string;
  readonly weight: Weight;
  readonly fate: Fate;
  /** What runs here: parts by their full names, an item, "water"; several only where small parts are gathered. */
  readonly contents: readonly Content[];
}

interface Content {
  readonly names: readonly string[];
  readonly weight: Weight;
}

export interface FlowGraph {
  readonly nodes: readonly FlowNode[];
  readonly bands: readonly FlowBand[];
}

const FATES: Readonly<Record<string, Fate>> = {
  dish: "dish",
  givenAway: "givenAway",
  closingStock: "closingStock",
  wastedFood: "wastedFood",
  inedible: "inedible",
  loss: "loss",
};

/** The printed flows as a picture's nodes and bands; cookings of one dish are one node. */
export function flowGraph(view: View): FlowGraph {
  const weights = new Map<string, { from: string; to: string; weight: Weight }>();
  const leaving = new Map<string, Map<string, Weight>>();
  for (const flow of view.movements.flows) {
    const from = nodeId(flow.from, view);
    const to = nodeId(flow.to, view);
    if (flow.weight === 0n || from === "supplier" || from === to || isKind(to, "item")) continue;
    if (isKind(from, "dish")) {
      const out = leaving.get(from) ?? new Map<string, Weight>();
      leaving.set(from, out.set(to, plus(out.get(to) ?? NO_WEIGHT, flow.weight)));
      continue;
    }
    const key = JSON.stringify([from, to]);
    weights.set(key, { from, to, weight: plus(weights.get(key)?.weight ?? NO_WEIGHT, flow.weight) });
  }
  const pairs = [...weights.values()];
  const ids = [...new Set(pairs.flatMap(({ from, to }) => [from, to]))];
  const fateOf = fates(pairs);
  const nodes = ids.map((id): FlowNode => {
    const kind = kindOf(id);
    return {
      id,
      kind,
      name: nodeName(id, view),
      fate: fateOf(id),
      leaving: [...(leaving.get(id) ?? [])].map(([to, weight]) => ({
        name: leavingName(to, view),
        fate: FATES[to.split(":", 1)[0] ?? ""] ?? "mixed",
        weight,
      })),
    };
  });
  const bands = pairs.map(
    ({ from, to, weight }): FlowBand => ({
      from,
      to,
      weight,
      fate: fateOf(to),
      contents: [{ names: [bandName(from, to, view)], weight }],
    }),
  );
  return { nodes, bands };
}

function nodeId(account: string, { accountOf }: View): string {
  const { kind, name } = accountOf(account);
  return kind === "dish" ? `dish:${name}` : account;
}

function kindOf(id: string): FlowNode["kind"] {
  if (isKind(id, "item", "onHand", "water")) return "source";
  if (isKind(id, "part")) return "part";
  return isKind(id, "dish") ? "dish" : "end";
}

/** The one end that everything out of a node comes to, or "mixed". */
function fates(pairs: readonly { from: string; to: string }[]): (id: string) => Fate {
  const known = new Map<string, Fate>();
  const find = (id: string): Fate => {
    const seen = known.get(id);
    if (seen !== undefined) return seen;
    const own = FATES[id.split(":", 1)[0] ?? ""];
    const ends = new Set(pairs.filter(({ from }) => from === id).map(({ to }) => find(to)));
    const fate = own ?? (ends.size === 1 ? ([...ends][0] ?? "mixed") : "mixed");
    known.set(id, fate);
    return fate;
  };
  return find;
}

function nodeName(id: string, { accountOf }: View): string {
  return endWords(accountOf(id));
}

function leavingName(id: string, view: View): string {
  const { kind, name } = view.accountOf(id);
  if (kind === "loss") return `${name} loss`;
  return kind === "closingStock" ? "portions kept" : `spare, to ${name}`;
}

/** What runs in a band: the part it becomes where it is cut, the part it was where it is used. */
function bandName(from: string, to: string, view: View): string {
  const source = view.accountOf(from);
  const target = view.accountOf(to);
  if (source.kind === "water") return "water";
  if (target.kind === "part") return target.name;
  return source.name === "" ? nodeName(from, view) : source.name;
}
