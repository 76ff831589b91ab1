import { milligrams, smaller, type Weight } from "../quantity/index.js";

/** One movement of weight between two accounts of the ledger. */
export interface Flow {
  readonly from: string;
  readonly to: string;
  readonly weight: Weight;
}

/** Where accounts that do not close by themselves are summed. */
const SUMMED: Readonly<Record<string, string>> = {
  supplier: "purchased",
  onHand: "onHand",
  water: "absorbed",
  dish: "inDishes",
  givenAway: "givenAway",
  closingStock: "closingStock",
  wastedFood: "wastedFood",
  inedible: "inedible",
  loss: "losses",
};

/** Totals that are printed where no flows are too: rounded to the nearest step, as a weight alone is. */
const NEAREST = ["wastedFood", "givenAway"];

/** Ends of the balance, a node that all totals meet in. */
const HUB = "=";

interface Edge {
  readonly from: string;
  readonly to: string;
  weight: bigint;
  /** Totals are touched last, so that they stay nearest to what they are. */
  readonly rank: 0 | 1 | 2;
}

/**
 * Flows between a ledger's accounts in whole steps of the scale, in the order given: each rounded up or down by
 * less than a step, such that every item and part still closes and every account and total is itself its true
 * weight rounded up or down; wasted food, which is printed alone as well, to the nearest. Whatever a page adds up from these, it adds up. Items and parts that do not close are
 * a RangeError.
 */
export function roundedFlows(flows: readonly Flow[], step: Weight): Flow[] {
  const edges: Edge[] = flows.map(({ from, to, weight }) => ({ from, to, weight, rank: 0 }));
  edges.push(...totalEdges(edges));
  roundAroundCycles(edges, step);
  return flows.map(({ from, to }, index) => ({ from, to, weight: milligrams(edges[index]?.weight ?? 0n) }));
}

/** What each open account holds, run on to its total, and the totals run on to where both sides meet. */
function totalEdges(edges: readonly Edge[]): Edge[] {
  const balance = new Map<string, bigint>();
  for (const { from, to, weight } of edges) {
    balance.set(from, (balance.get(from) ?? 0n) - weight);
    balance.set(to, (balance.get(to) ?? 0n) + weight);
  }
  const totals = new Map<string, bigint>();
  const more: Edge[] = [];
  for (const [account, weight] of balance) {
    const total = SUMMED[account.split(":", 1)[0] ?? ""];
    if (total === undefined) continue;
    more.push({ from: account, to: `=${total}`, weight, rank: 1 });
    totals.set(total, (totals.get(total) ?? 0n) + weight);
  }
  for (const [total, weight] of totals) more.push({ from: `=${total}`, to: HUB, weight, rank: 2 });
  return more;
}

/** Pushes weight around cycles of edges that are not whole steps until none is left; each push ends one edge. */
function roundAroundCycles(edges: readonly Edge[], step: bigint): void {
  const at = new Map<string, Edge[]>();
  for (const edge of edges)
    if (!isWhole(edge.weight, step))
      for (const node of [edge.from, edge.to]) at.set(node, [...(at.get(node) ?? []), edge]);
  for (const list of at.values()) list.sort((a, b) => a.rank - b.rank);

  for (const name of NEAREST)
    for (const edge of edges) if (edge.from === `=${name}`) roundToNearest(edge, at, step);
  for (const edge of edges) {
    while (!isWhole(edge.weight, step)) {
      const cycle = findCycle(edge, at, step);
      if (cycle === null) throw new RangeError(openEnd(edge));
      push(cycle, step);
    }
  }
}

function openEnd({ from, to }: Edge): string {
  return `weights into and out of ${from} or ${to} do not close`;
}

/** Ends one edge at its nearest whole step: no unfinished edge is a bridge, so there is always a way round to it. */
function roundToNearest(edge: Edge, at: ReadonlyMap<string, readonly Edge[]>, step: bigint): void {
  const up = 2n * remainder(edge.weight, step) >= step;
  while (!isWhole(edge.weight, step)) {
    const way = wayBack(edge, at, step);
    if (way === null) throw new RangeError(openEnd(edge));
    const cycle = [{ edge, forward: true }, ...way];
    move(cycle, up ? least(cycle.map(rise(step))) : -least(cycle.map(fall(step))));
  }
}

/** From where an edge ends to where it begins, along unfinished edges. */
function wayBack(edge: Edge, at: ReadonlyMap<string, readonly Edge[]>, step: bigint): Stride[] | null {
  const cameBy = new Map<string, Stride | null>([[edge.to, null]]);
  for (const node of cameBy.keys()) {
    if (node === edge.from) break;
    for (const next of at.get(node) ?? []) {
      if (next === edge || isWhole(next.weight, step)) continue;
      const forward = next.from === node;
      const reached = forward ? next.to : next.from;
      if (!cameBy.has(reached)) cameBy.set(reached, { edge: next, forward });
    }
  }
  const way: Stride[] = [];
  for (let node = edge.from; node !== edge.to; ) {
    const stride = cameBy.get(node);
    if (stride === undefined || stride === null) return null;
    way.unshift(stride);
    node = stride.forward ? stride.edge.from : stride.edge.to;
  }
  return way;
}

interface Stride {
  readonly edge: Edge;
  readonly forward: boolean;
}

/** Walks along unfinished edges, never back by the one it came, until it meets its own trail. */
function findCycle(start: Edge, at: ReadonlyMap<string, readonly Edge[]>, step: bigint): Stride[] | null {
  const trail: Stride[] = [{ edge: start, forward: true }];
  const metAt = new Map<string, number>([[start.from, 0]]);
  let node = start.to;
  for (;;) {
    const met = metAt.get(node);
    if (met !== undefined) return trail.slice(met);
    metAt.set(node, trail.length);
    const last = trail.at(-1)?.edge;
    const next = at.get(node)?.find((edge) => edge !== last && !isWhole(edge.weight, step));
    if (next === undefined) return null;
    const forward = next.from === node;
    trail.push({ edge: next, forward });
    node = forward ? next.to : next.from;
  }
}

/** Moves the cycle by the least amount that makes one edge whole, in the direction that suits its totals. */
function push(cycle: readonly Stride[], step: bigint): void {
  const heaviest = Math.max(...cycle.map(({ edge }) => edge.rank));
  const judged = cycle.filter(({ edge }) => edge.rank === heaviest);
  const up = least(judged.map(rise(step))) <= least(judged.map(fall(step)));
  move(cycle, up ? least(cycle.map(rise(step))) : -least(cycle.map(fall(step))));
}

/** How far a stride can rise, or fall, before its edge is whole. */
function rise(step: bigint): (stride: Stride) => bigint {
  return ({ edge, forward }) =>
    forward ? step - remainder(edge.weight, step) : remainder(edge.weight, step);
}

function fall(step: bigint): (stride: Stride) => bigint {
  return ({ edge, forward }) =>
    forward ? remainder(edge.weight, step) : step - remainder(edge.weight, step);
}

function move(cycle: readonly Stride[], amount: bigint): void {
  for (const { edge, forward } of cycle) edge.weight += forward ? amount : -amount;
}

function least(values: readonly bigint[]): bigint {
  const [first = 0n, ...rest] = values as readonly Weight[];
  return rest.reduce((best, value) => smaller(best, value), first as Weight);
}

function isWhole(weight: bigint, step: bigint): boolean {
  return weight % step === 0n;
}

function remainder(weight: bigint, step: bigint): bigint {
  return ((weight % step) + step) % step;
}
