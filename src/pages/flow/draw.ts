import { LINE, STUB, TEXT, WIDTH } from "./arrange.js";
import type { Fate } from "./graph.js";
import type { Layout, PlacedBand, PlacedLabel } from "./layout.js";

/** A picture as its template prints it: all lengths in the picture's own units. */
export type DrawnPicture = {
  readonly id: string;
  readonly name: string;
  readonly describes: string;
  readonly viewBox: string;
  readonly bands: readonly { readonly path: string; readonly fate: string; readonly fill: string }[];
  readonly bars: readonly { readonly x: string; readonly y: string; readonly height: string }[];
  readonly labels: readonly DrawnLabel[];
  readonly patterns: readonly string[];
};

type DrawnLabel = {
  readonly x: string;
  readonly anchor: string;
  readonly kind: string;
  readonly lines: readonly { readonly y: string; readonly text: string }[];
};

const BASELINE = 0.78;

export function drawn(
  layout: Layout,
  {
    id,
    name,
    describes,
    withPatterns,
  }: { id: string; name: string; describes: string; withPatterns: boolean },
): DrawnPicture {
  const labels = [
    ...layout.bands.map(({ label }) => label),
    ...layout.nodes.flatMap(({ label }) => (label === null ? [] : [label])),
    ...layout.leavings.map(({ label }) => label),
  ];
  return {
    id,
    name,
    describes,
    viewBox: `0 0 ${WIDTH} ${length(layout.height)}`,
    bands: [
      ...[...layout.bands]
        .sort((a, b) => b.width - a.width)
        .map((placed) => ({ path: bandPath(placed), ...fateAttributes(placed.band.fate) })),
      ...layout.leavings.map(({ leaving, x, y, width }) => ({
        path: area(
          [
            { x, y },
            { x: x + STUB, y },
          ],
          width,
        ),
        ...fateAttributes(leaving.fate),
      })),
    ],
    bars: layout.nodes.map(({ x, top, bottom }) => ({
      x: length(x),
      y: length(top),
      height: length(Math.max(1, bottom - top)),
    })),
    labels: labels.map(drawnLabel),
    patterns: withPatterns ? ["once"] : [],
  };
}

function fateAttributes(fate: Fate): { fate: string; fill: string } {
  return { fate, fill: fate === "mixed" || fate === "dish" ? "" : `url(#hatch-${fate})` };
}

function bandPath({ points, width }: PlacedBand): string {
  return area(points, width);
}

/** The outline of a band of that width along its centre line: soft between columns, level beside labels. */
function area(points: readonly { x: number; y: number }[], width: number): string {
  const half = width / 2;
  const edge = (list: readonly { x: number; y: number }[], shift: number, start: "M" | "L") =>
    list
      .map(({ x, y }, index) => {
        const before = list[index - 1];
        const at = `${length(x)} ${length(y + shift)}`;
        if (before === undefined) return `${start}${at}`;
        if (before.y === y) return `L${at}`;
        const middle = length((before.x + x) / 2);
        return `C${middle} ${length(before.y + shift)} ${middle} ${length(y + shift)} ${at}`;
      })
      .join("");
  return `${edge(points, -half, "M")}${edge([...points].reverse(), half, "L")}Z`;
}

function drawnLabel({ lines, strong, anchor, x, top }: PlacedLabel): DrawnLabel {
  return {
    x: length(x),
    anchor,
    kind: strong ? "name" : "run",
    lines: lines.map((text, index) => ({ y: length(top + index * LINE + TEXT * BASELINE + 2), text })),
  };
}

function length(value: number): string {
  return String(Math.round(value * 100) / 100);
}
