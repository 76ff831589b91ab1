import type { Writing } from "../writing.js";
import type { FlowBand, FlowGraph, FlowNode, Leaving } from "./graph.js";
import { textWidth, wrap } from "./text-width.js";

/** Lengths are points on paper: the picture is as wide as the narrower of A4 and Letter leaves room for. */
export const WIDTH = 536;
export const TEXT = 11;
export const LINE = 13;
export const BAR = 3;
export const EDGE = 2;
export const PADDING = 4;
export const STUB = 14;
/** The least width in which bands bend from column to column. */
const CURVE = 26;
const LEFT_MOST = 76;
const RIGHT_MOST = 112;

/** A place in a column: a node, or the passing of a long band through the column. */
export interface Place {
  readonly node: FlowNode | null;
  readonly layer: number;
  /** Bands, or pieces of long bands, that arrive and leave, as indexes into `pieces`. */
  readonly arriving: number[];
  readonly leaving: number[];
}

/** One stretch of a band, between neighbouring columns. */
interface Piece {
  readonly band: number;
  readonly from: number;
  readonly to: number;
}

interface Columns {
  readonly leftText: number;
  /** Right end of each column's bars, and where the run of labels before them begins. */
  readonly bars: readonly number[];
  readonly runs: readonly number[];
  readonly bandLines: readonly (readonly string[])[];
  readonly rightText: number;
  /** Width of the stubs of what leaves dishes, nothing where there are none. */
  readonly stub: number;
}

/** The picture without its scale or order: who stands in which column, and how the labels break. */
export interface Arrangement {
  readonly graph: FlowGraph;
  readonly places: readonly Place[];
  readonly pieces: readonly Piece[];
  readonly layers: readonly (readonly number[])[];
  readonly columns: Columns;
  readonly writing: Writing;
  readonly nodeLines: (node: FlowNode) => readonly string[];
}

/** What a picture writes beside its nodes and on its bands. */
export interface Labels {
  readonly writing: Writing;
  node(node: FlowNode): string;
  /** The name of a part where its item need not be said. */
  shortName(name: string): string;
}

export function arrange(graph: FlowGraph, labels: Labels): Arrangement {
  const layerOf = layering(graph);
  const last = Math.max(1, ...layerOf.values());
  const places: Place[] = graph.nodes.map((node) => ({
    node,
    layer: layerOf.get(node.id) ?? 0,
    arriving: [],
    leaving: [],
  }));
  const indexOf = new Map(graph.nodes.map(({ id }, index): [string, number] => [id, index]));
  const pieces: Piece[] = [];
  graph.bands.forEach(({ from, to }, band) => {
    let here = indexOf.get(from) ?? 0;
    const end = indexOf.get(to) ?? 0;
    const connect = (next: number) => {
      places[here]?.leaving.push(pieces.length);
      places[next]?.arriving.push(pieces.length);
      pieces.push({ band, from: here, to: next });
      here = next;
    };
    for (let layer = (places[here]?.layer ?? 0) + 1; layer < (places[end]?.layer ?? 0); layer++) {
      places.push({ node: null, layer, arriving: [], leaving: [] });
      connect(places.length - 1);
    }
    connect(end);
  });
  const layers = Array.from({ length: last + 1 }, (_, layer) =>
    places.flatMap((place, index) => (place.layer === layer ? [index] : [])),
  );
  const columns = columnsFor(graph, layerOf, last, labels);
  const nodeLines = (node: FlowNode) =>
    wrap(labels.node(node), node.kind === "source" ? columns.leftText : columns.rightText, TEXT, "semibold");
  return { graph, places, pieces, layers, columns, writing: labels.writing, nodeLines };
}

/** Sources first, dishes and ends last, parts by the longest way they have come. */
function layering({ nodes, bands }: FlowGraph): Map<string, number> {
  const into = new Map<string, string[]>();
  for (const { from, to } of bands) into.set(to, [...(into.get(to) ?? []), from]);
  const kinds = new Map(nodes.map(({ id, kind }): [string, FlowNode["kind"]] => [id, kind]));
  const known = new Map<string, number>();
  const depth = (id: string): number => {
    const seen = known.get(id);
    if (seen !== undefined) return seen;
    const value =
      kinds.get(id) === "source" ? 0 : 1 + Math.max(0, ...(into.get(id) ?? []).map((from) => depth(from)));
    known.set(id, value);
    return value;
  };
  const last = Math.max(1, ...nodes.map(({ id }) => depth(id)));
  for (const { id, kind } of nodes) if (kind === "dish" || kind === "end") known.set(id, last);
  return known;
}

function bandText({ contents }: FlowBand, { shortName, writing }: Labels): string {
  return contents
    .map(({ names, weight }) => `${names.map(shortName).join(" + ")} ${writing.weight(weight)}`)
    .join(", ");
}

function columnsFor(
  { nodes, bands }: FlowGraph,
  layerOf: ReadonlyMap<string, number>,
  last: number,
  labels: Labels,
): Columns {
  const widest = (lines: readonly string[], strong: boolean) =>
    Math.max(0, ...lines.map((line) => textWidth(line, TEXT, strong ? "semibold" : "regular")));
  const textRoom = (kinds: readonly FlowNode["kind"][], most: number) =>
    widest(
      nodes
        .filter(({ kind }) => kinds.includes(kind))
        .flatMap((node) => wrap(labels.node(node), most, TEXT, "semibold")),
      true,
    );
  const leavingText = nodes.flatMap(({ leaving }) =>
    leaving.flatMap((each) => wrap(leavingLabel(each, labels.writing), RIGHT_MOST, TEXT)),
  );
  const leftText = textRoom(["source"], LEFT_MOST);
  const rightText = Math.max(textRoom(["dish", "end"], RIGHT_MOST), widest(leavingText, false));
  const stub = leavingText.length > 0 ? STUB : 0;
  const between = WIDTH - EDGE - leftText - PADDING - BAR - rightText - stub - PADDING - EDGE;
  const texts = bands.map((band) => bandText(band, labels));
  const natural = Array.from({ length: last }, (_, index) =>
    widest(
      texts.filter((_, band) => layerOf.get(bands[band]?.to ?? "") === index + 1),
      false,
    ),
  );
  const most = share(between - last * (CURVE + BAR + 2 * PADDING), natural);
  const bandLines = texts.map((text) => wrap(text, most, TEXT));
  const runWidths = Array.from(
    { length: last },
    (_, index) =>
      2 * PADDING +
      widest(
        bandLines.flatMap((lines, band) => (layerOf.get(bands[band]?.to ?? "") === index + 1 ? lines : [])),
        false,
      ),
  );
  const curve = (between - runWidths.reduce((sum, width) => sum + width + BAR, 0)) / last;
  const bars = [EDGE + leftText + PADDING + BAR];
  const runs = [0];
  for (const width of runWidths) {
    runs.push((bars.at(-1) ?? 0) + curve);
    bars.push((runs.at(-1) ?? 0) + width + BAR);
  }
  return { leftText, bars, runs, bandLines, rightText, stub };
}

/** The width that lets every wish be had, or if room is short, that cuts the widest wishes alike. */
function share(room: number, wishes: readonly number[]): number {
  const sorted = [...wishes].sort((a, b) => a - b);
  let left = room;
  for (const [index, wish] of sorted.entries()) {
    const each = left / (sorted.length - index);
    if (wish > each) return each;
    left -= wish;
  }
  return sorted.at(-1) ?? 0;
}

export function leavingLabel({ name, weight }: Leaving, writing: Writing): string {
  return `${name} ${writing.weight(weight)}`;
}
