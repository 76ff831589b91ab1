import { toGrams, type Weight } from "../../quantity/index.js";
import { type Arrangement, BAR, EDGE, LINE, leavingLabel, PADDING, TEXT } from "./arrange.js";
import { type Box, boxFor, GAP, portsOf, settle } from "./columns.js";
import type { FlowBand, FlowNode, Leaving } from "./graph.js";
import { untangled } from "./order.js";
import { textWidth, wrap } from "./text-width.js";

export interface PlacedLabel {
  readonly lines: readonly string[];
  readonly strong: boolean;
  readonly anchor: "start" | "end";
  readonly x: number;
  /** Top of the first line. */
  readonly top: number;
  readonly width: number;
}

export interface PlacedBand {
  readonly band: FlowBand;
  /** Centre line, point by point from left to right; between points it runs level or in a soft curve. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly width: number;
  readonly label: PlacedLabel;
}

interface PlacedNode {
  readonly node: FlowNode;
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly label: PlacedLabel | null;
}

/** What leaves a dish again, a stub of its own width at the right of the dish. */
interface PlacedLeaving {
  readonly leaving: Leaving;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly label: PlacedLabel;
}

export interface Layout {
  readonly height: number;
  readonly bands: readonly PlacedBand[];
  readonly nodes: readonly PlacedNode[];
  readonly leavings: readonly PlacedLeaving[];
}

/** Height of an arrangement at so many points a gram; its order makes no difference. */
export function heightAt(arrangement: Arrangement, pointsPerGram: number): number {
  return roomFor(arrangement, boxesOf(arrangement, thickness(pointsPerGram))) + 2 * EDGE;
}

function thickness(pointsPerGram: number): (weight: Weight) => number {
  return (weight) => toGrams(weight).toNumber() * pointsPerGram;
}

function boxesOf(arrangement: Arrangement, thick: (weight: Weight) => number): Box[] {
  return arrangement.places.map((place) => boxFor(arrangement, place, thick));
}

function roomFor({ layers }: Arrangement, boxes: readonly Box[]): number {
  const heights = layers.map((layer) =>
    layer.reduce((sum, index) => sum + (boxes[index]?.height ?? 0) + GAP, -GAP),
  );
  return Math.max(...heights);
}

/** Orders an arrangement so that few bands cross, and draws it at so many points a gram. */
export function layOut(unordered: Arrangement, pointsPerGram: number): Layout {
  const layers = untangled({ layers: unordered.layers, edges: unordered.pieces });
  const arrangement = { ...unordered, layers };
  const { places, writing } = arrangement;
  const thick = thickness(pointsPerGram);
  const boxes = boxesOf(arrangement, thick);
  const room = roomFor(arrangement, boxes);
  const tops = settle(arrangement, boxes, room, thick);
  const topOf = (index: number) => EDGE + (tops[index] ?? 0);
  const placeOrder = new Map(
    layers.flatMap((layer) => layer.map((index, at): [number, number] => [index, at])),
  );
  const ports = portsOf(arrangement, boxes, topOf, placeOrder, thick);

  const { columns, graph } = arrangement;
  const bands = graph.bands.map((band, index): PlacedBand => {
    const points: { x: number; y: number }[] = [];
    let labelTop = 0;
    arrangement.pieces.forEach((piece, at) => {
      if (piece.band !== index) return;
      const layer = places[piece.to]?.layer ?? 0;
      const { leave, arrive, label } = ports[at] ?? { leave: 0, arrive: 0, label: 0 };
      labelTop = label;
      points.push(
        { x: columns.bars[layer - 1] ?? 0, y: leave },
        { x: columns.runs[layer] ?? 0, y: arrive },
        { x: (columns.bars[layer] ?? 0) - BAR, y: arrive },
      );
    });
    const lines = columns.bandLines[index] ?? [];
    const end = points.at(-1)?.x ?? 0;
    return {
      band,
      points,
      width: thick(band.weight),
      label: {
        lines,
        strong: false,
        anchor: "end",
        x: end - PADDING,
        top: labelTop,
        width: Math.max(...lines.map((line) => textWidth(line, TEXT))),
      },
    };
  });
  const nodes: PlacedNode[] = [];
  const leavings: PlacedLeaving[] = [];
  places.forEach((place, index) => {
    const box = boxes[index];
    if (place.node === null || box === undefined) return;
    const x = (columns.bars[place.layer] ?? 0) - BAR;
    const top = topOf(index);
    const bar = {
      top: top + (box.height - box.barHeight) / 2,
      bottom: top + (box.height + box.barHeight) / 2,
    };
    nodes.push({ node: place.node, x, ...bar, label: nodeLabelAt(arrangement, place.node, x, top, box) });
    let y = top + (box.height - box.rightHeight) / 2 + box.headHeight;
    for (const each of place.node.leaving) {
      const lines = wrap(leavingLabel(each, writing), columns.rightText, TEXT);
      const width = thick(each.weight);
      const height = Math.max(width, lines.length * LINE);
      leavings.push({
        leaving: each,
        x: x + BAR,
        y: y + height / 2,
        width,
        label: {
          lines,
          strong: false,
          anchor: "start",
          x: x + BAR + columns.stub + PADDING,
          top: y + (height - lines.length * LINE) / 2,
          width: Math.max(...lines.map((line) => textWidth(line, TEXT))),
        },
      });
      y += height;
    }
  });
  return { height: room + 2 * EDGE, bands, nodes, leavings };
}

function nodeLabelAt(
  { columns, nodeLines }: Arrangement,
  node: FlowNode,
  x: number,
  top: number,
  box: Box,
): PlacedLabel | null {
  if (node.kind === "part") return null;
  const lines = nodeLines(node);
  const width = Math.max(...lines.map((line) => textWidth(line, TEXT, "semibold")));
  const textHeight = lines.length * LINE;
  if (node.kind === "source")
    return {
      lines,
      strong: true,
      anchor: "end",
      x: EDGE + columns.leftText,
      top: top + (box.height - textHeight) / 2,
      width,
    };
  return {
    lines,
    strong: true,
    anchor: "start",
    x: x + BAR + columns.stub + PADDING,
    top: top + (box.height - box.rightHeight) / 2,
    width,
  };
}
