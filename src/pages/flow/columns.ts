import type { Weight } from "../../quantity/index.js";
import { type Arrangement, LINE, leavingLabel, type Place, TEXT } from "./arrange.js";
import { spread } from "./spread.js";
import { wrap } from "./text-width.js";

export const GAP = 5;
const ROUNDS = 24;
/** By how much a label may be taller than the band it lies within. */
const OVERLAP = 4;
/** Room below a band that has its label above. */
const CLEAR = 2;

/** Beside a bar, the stretch that one arriving band and its label have to themselves. */
interface Slot {
  readonly height: number;
  /** From the slot's top to the middle of the band, and to the top of the label. */
  readonly band: number;
  readonly label: number;
}

export interface Box {
  readonly height: number;
  readonly barHeight: number;
  /** Slots of the arriving pieces, by piece. */
  readonly slots: ReadonlyMap<number, Slot>;
  readonly outHeight: number;
  readonly rightHeight: number;
  readonly headHeight: number;
}

export function boxFor(
  { graph, pieces, columns, writing, nodeLines }: Arrangement,
  place: Place,
  thick: (w: Weight) => number,
): Box {
  const bandOf = (piece: number) => graph.bands[pieces[piece]?.band ?? 0];
  const width = (piece: number) => thick(bandOf(piece)?.weight ?? (0n as Weight));
  const slots = new Map(
    place.arriving.map((piece): [number, Slot] => {
      const lines = place.node === null ? 0 : (columns.bandLines[pieces[piece]?.band ?? 0]?.length ?? 1);
      return [piece, slotFor(width(piece), lines * LINE)];
    }),
  );
  const sum = (values: Iterable<number>) => [...values].reduce((acc, value) => acc + value, 0);
  const inHeight = sum([...slots.values()].map(({ height }) => height));
  const outHeight = sum(place.leaving.map(width));
  let headHeight = 0;
  let rightHeight = 0;
  if (place.node !== null && place.node.kind !== "part") {
    headHeight = nodeLines(place.node).length * LINE;
    rightHeight =
      headHeight +
      sum(
        place.node.leaving.map((each) =>
          Math.max(
            thick(each.weight),
            wrap(leavingLabel(each, writing), columns.rightText, TEXT).length * LINE,
          ),
        ),
      );
  }
  return {
    height: Math.max(inHeight, outHeight, rightHeight),
    barHeight: Math.max(inHeight, outHeight),
    slots,
    outHeight,
    rightHeight,
    headHeight,
  };
}

/** A label lies within a band that is thick enough for it, and above a thinner one. */
function slotFor(width: number, text: number): Slot {
  if (width >= text - OVERLAP) {
    const height = Math.max(width, text);
    return { height, band: height / 2, label: (height - text) / 2 };
  }
  return { height: text + width + CLEAR, band: text + width / 2, label: 0 };
}

/** Tops of all places, column by column drawn towards what they are joined to. */
export function settle(
  { places, pieces, layers, graph }: Arrangement,
  boxes: readonly Box[],
  room: number,
  thick: (weight: Weight) => number,
): number[] {
  const tops: number[] = places.map(() => 0);
  const middle = (index: number) => (tops[index] ?? 0) + (boxes[index]?.height ?? 0) / 2;
  const pullOf = (piece: number) =>
    1 + thick(graph.bands[pieces[piece]?.band ?? 0]?.weight ?? (0n as Weight));
  const place = (layer: readonly number[], wish: (index: number) => { top: number; pull: number }) => {
    const blocks = layer.map((index) => {
      const { top, pull } = wish(index);
      return { height: boxes[index]?.height ?? 0, wish: top, pull };
    });
    spread(blocks, GAP, room).forEach((top, at) => {
      tops[layer[at] ?? 0] = top;
    });
  };
  for (const layer of layers) {
    const used = layer.reduce((sum, index) => sum + (boxes[index]?.height ?? 0) + GAP, -GAP);
    let top = 0;
    const stretch = layer.length > 1 ? (room - used) / (layer.length - 1) : 0;
    place(layer, (index) => {
      const wish = { top, pull: 1 };
      top += (boxes[index]?.height ?? 0) + GAP + stretch;
      return wish;
    });
  }
  for (let round = 0; round < ROUNDS; round++) {
    const sequence = round % 2 === 0 ? [...layers].reverse() : layers;
    for (const layer of sequence)
      place(layer, (index) => {
        const joined = [
          ...(places[index]?.arriving ?? []).map((piece) => ({ piece, other: pieces[piece]?.from ?? 0 })),
          ...(places[index]?.leaving ?? []).map((piece) => ({ piece, other: pieces[piece]?.to ?? 0 })),
        ];
        const pull = joined.reduce((sum, { piece }) => sum + pullOf(piece), 0);
        const mean = joined.reduce((sum, { piece, other }) => sum + pullOf(piece) * middle(other), 0) / pull;
        return { top: mean - (boxes[index]?.height ?? 0) / 2, pull };
      });
  }
  return tops;
}

interface Port {
  leave: number;
  arrive: number;
  /** Top of the label beside the arrival. */
  label: number;
}

/** Heights at which each piece leaves and arrives: pieces in the order of where they come from or go. */
export function portsOf(
  { places, pieces, graph }: Arrangement,
  boxes: readonly Box[],
  topOf: (index: number) => number,
  placeOrder: ReadonlyMap<number, number>,
  thick: (weight: Weight) => number,
): Port[] {
  const ports = pieces.map((): Port => ({ leave: 0, arrive: 0, label: 0 }));
  const order = (index: number) => placeOrder.get(index) ?? 0;
  places.forEach((place, index) => {
    const box = boxes[index];
    if (box === undefined) return;
    const arriving = [...place.arriving].sort(
      (a, b) => order(pieces[a]?.from ?? 0) - order(pieces[b]?.from ?? 0),
    );
    const inHeight = [...box.slots.values()].reduce((sum, { height }) => sum + height, 0);
    let y = topOf(index) + (box.height - inHeight) / 2;
    for (const piece of arriving) {
      const slot = box.slots.get(piece);
      const port = ports[piece];
      if (slot === undefined || port === undefined) continue;
      port.arrive = y + slot.band;
      port.label = y + slot.label;
      y += slot.height;
    }
    const leaving = [...place.leaving].sort((a, b) => order(pieces[a]?.to ?? 0) - order(pieces[b]?.to ?? 0));
    y = topOf(index) + (box.height - box.outHeight) / 2;
    for (const piece of leaving) {
      const width = thick(graph.bands[pieces[piece]?.band ?? 0]?.weight ?? (0n as Weight));
      const port = ports[piece];
      if (port !== undefined) port.leave = y + width / 2;
      y += width;
    }
  });
  return ports;
}
