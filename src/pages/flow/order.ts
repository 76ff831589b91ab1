/** A layered graph: every edge runs from one layer to the next. Nodes and edges are indexes. */
export interface Layered {
  /** Node indexes, layer by layer, in drawing order from the top. */
  readonly layers: readonly (readonly number[])[];
  readonly edges: readonly { readonly from: number; readonly to: number }[];
}

const SWEEPS = 16;

/**
 * Orders the nodes of every layer so that few edges cross: barycentre sweeps down and up, then swaps of
 * neighbours while that helps, from the order given and from its mirror image; the best order met is given back.
 */
export function untangled({ layers, edges }: Layered): number[][] {
  let best = layers.map((layer) => [...layer]);
  let fewest = crossings({ layers, edges });
  for (const start of [best, layers.map((layer) => [...layer].reverse())]) {
    let order = start;
    for (let count = 0; count < SWEEPS && fewest > 0; count++) {
      const flip = count % 4 > 1;
      order = count % 2 === 0 ? sweepDown(order, edges, flip) : sweepUp(order, edges, flip);
      swapNeighbours(order, edges);
      const crossed = crossings({ layers: order, edges });
      if (crossed >= fewest) continue;
      fewest = crossed;
      best = order.map((layer) => [...layer]);
    }
  }
  return best;
}

/** How many pairs of edges cross, ends that share a node not counted. */
export function crossings({ layers, edges }: Layered): number {
  const place = places(layers);
  let count = 0;
  for (const here of edgesByLayer(layers, edges))
    for (let i = 0; i < here.length; i++)
      for (let j = i + 1; j < here.length; j++) {
        const first = here[i];
        const second = here[j];
        if (first !== undefined && second !== undefined && cross(first, second, place)) count++;
      }
  return count;
}

type Edge = Layered["edges"][number];

function cross(first: Edge, second: Edge, place: ReadonlyMap<number, number>): boolean {
  const at = (node: number) => place.get(node) ?? 0;
  return (at(first.from) - at(second.from)) * (at(first.to) - at(second.to)) < 0;
}

function places(layers: readonly (readonly number[])[]): Map<number, number> {
  return new Map(layers.flatMap((layer) => layer.map((node, index): [number, number] => [node, index])));
}

function edgesByLayer(layers: readonly (readonly number[])[], edges: readonly Edge[]): Edge[][] {
  const layerOf = new Map(
    layers.flatMap((layer, index) => layer.map((node): [number, number] => [node, index])),
  );
  return layers.map((_, index) => edges.filter(({ from }) => layerOf.get(from) === index));
}

function sweepDown(layers: readonly number[][], edges: readonly Edge[], flip: boolean): number[][] {
  return sweep(layers, (node) => edges.filter(({ to }) => to === node).map(({ from }) => from), 1, flip);
}

function sweepUp(layers: readonly number[][], edges: readonly Edge[], flip: boolean): number[][] {
  return sweep(layers, (node) => edges.filter(({ from }) => from === node).map(({ to }) => to), -1, flip);
}

/**
 * Sorts layer after layer by the mean place of each node's neighbours in the layer before; `flip` turns nodes
 * round that wish for the same place, so that sweeps do not stand still.
 */
function sweep(
  layers: readonly number[][],
  neighbours: (node: number) => number[],
  direction: 1 | -1,
  flip: boolean,
): number[][] {
  const order = layers.map((layer) => [...layer]);
  const indexes = order.map((_, index) => index);
  if (direction === -1) indexes.reverse();
  for (const index of indexes.slice(1)) {
    const before = order[index - direction] ?? [];
    const place = places([before]);
    const here = order[index] ?? [];
    const wish = new Map(
      here.map((node, at): [number, number] => {
        const near = neighbours(node).filter((other) => place.has(other));
        const sum = near.reduce((acc, other) => acc + (place.get(other) ?? 0), 0);
        return [node, near.length === 0 ? (at * before.length) / here.length : sum / near.length];
      }),
    );
    if (flip) here.reverse();
    here.sort((a, b) => (wish.get(a) ?? 0) - (wish.get(b) ?? 0));
  }
  return order;
}

function swapNeighbours(order: number[][], edges: readonly Edge[]): void {
  const touching = new Map<number, Edge[]>();
  for (const edge of edges)
    for (const node of [edge.from, edge.to]) touching.set(node, [...(touching.get(node) ?? []), edge]);
  for (let better = true; better; ) {
    better = false;
    const place = places(order);
    for (const layer of order)
      for (let i = 0; i + 1 < layer.length; i++) {
        const upper = layer[i] ?? 0;
        const lower = layer[i + 1] ?? 0;
        if (gain(touching.get(upper) ?? [], touching.get(lower) ?? [], upper, lower, place) <= 0) continue;
        layer[i] = lower;
        layer[i + 1] = upper;
        place.set(lower, i).set(upper, i + 1);
        better = true;
      }
  }
}

/** Crossings saved by swapping two neighbours of one layer. */
function gain(
  upperEdges: readonly Edge[],
  lowerEdges: readonly Edge[],
  upper: number,
  lower: number,
  place: ReadonlyMap<number, number>,
): number {
  let saved = 0;
  for (const a of upperEdges)
    for (const b of lowerEdges) {
      if ((a.from === upper) !== (b.from === lower)) continue;
      const far = (edge: Edge, node: number) => place.get(edge.from === node ? edge.to : edge.from) ?? 0;
      saved += Math.sign(far(a, upper) - far(b, lower));
    }
  return saved;
}
