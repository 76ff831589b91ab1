import { toGrams, total, type Weight } from "../../quantity/index.js";
import { itemsOf, type View } from "../view.js";
import { type Arrangement, arrange } from "./arrange.js";
import { type FlowBand, type FlowGraph, type FlowNode, flowGraph } from "./graph.js";
import { type Layout, layOut } from "./layout.js";

/** What fits under a heading on A4 and on Letter, whichever is shorter, at the printed width. */
export const TALLEST = 600;
/** Height at which a picture is all labels: beyond this its items are shown in more than one. */
const MOST_LABELS = 0.75 * TALLEST;
/** Height that all the weight takes, where there is room for it. */
const FULL_SCALE = 330;
const HALVINGS = 12;

export interface Picture {
  /** Items shown, in the scenario's order. */
  readonly items: readonly string[];
  readonly layout: Layout;
}

/** Where every gram goes, in as many pictures as paper needs, all to one scale. */
export function flowPictures(view: View): { pictures: Picture[]; pointsPerGram: number } {
  const whole = flowGraph(view);
  const sources = whole.bands.filter(({ from }) =>
    whole.nodes.some(({ id, kind }) => id === from && kind === "source"),
  );
  const groups = grouped(whole, view);
  const arranged = groups.map((group) => ({
    items: group.items,
    arrangement: arrangementOf(group.graph, whole, view),
  }));
  const everything = toGrams(total(sources.map(({ weight }) => weight))).toNumber();
  const pointsPerGram = Math.min(
    everything === 0 ? 1 : FULL_SCALE / everything,
    ...arranged.map(({ arrangement }) => widestScale(arrangement, everything)),
  );
  return {
    pointsPerGram,
    pictures: arranged.map(({ items, arrangement }) => ({
      items,
      layout: layOut(arrangement, pointsPerGram),
    })),
  };
}

/** The largest scale at which the picture is no taller than paper allows. */
function widestScale(arrangement: Arrangement, everything: number): number {
  let fits = 0;
  let tooLarge = everything === 0 ? 1 : FULL_SCALE / everything;
  if (layOut(arrangement, tooLarge).height <= TALLEST) return tooLarge;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (fits + tooLarge) / 2;
    if (layOut(arrangement, middle).height <= TALLEST) fits = middle;
    else tooLarge = middle;
  }
  return fits;
}

interface Group {
  readonly items: readonly string[];
  readonly graph: FlowGraph;
}

/** Items kept together while their labels fit on one sheet; those that share a blend are never parted. */
function grouped(whole: FlowGraph, view: View): Group[] {
  const families = itemFamilies(whole, view);
  const groups: Group[] = [];
  let names: string[] = [];
  for (const family of families) {
    const wider = [...names, ...family];
    const graph = graphOf(whole, wider, view);
    if (names.length > 0 && layOut(arrangementOf(graph, whole, view), 0).height > MOST_LABELS) {
      groups.push({ items: names, graph: graphOf(whole, names, view) });
      names = [...family];
    } else names = wider;
  }
  if (names.length > 0) groups.push({ items: names, graph: graphOf(whole, names, view) });
  return groups;
}

/** Sets of items whose parts run into a common part. */
function itemFamilies(whole: FlowGraph, view: View): string[][] {
  let families = view.scenario.items
    .map(({ name }) => name)
    .filter((name) => whole.bands.some(({ from }) => itemNames(from, whole, view).includes(name)))
    .map((name) => [name]);
  for (const { id, kind } of whole.nodes) {
    if (kind !== "part") continue;
    const joined = itemNames(id, whole, view);
    const apart = families.filter((family) => !family.some((name) => joined.includes(name)));
    const together = families.filter((family) => family.some((name) => joined.includes(name))).flat();
    families = together.length === 0 ? apart : [...apart, together];
  }
  const order = new Map(view.scenario.items.map(({ name }, index): [string, number] => [name, index]));
  const place = (name: string | undefined) => order.get(name ?? "") ?? 0;
  return families
    .map((family) => family.sort((a, b) => place(a) - place(b)))
    .sort((a, b) => place(a[0]) - place(b[0]));
}

/** Items that a source or part belongs to; what the house holds or water runs to is decided by where it goes. */
function itemNames(id: string, whole: FlowGraph, view: View): string[] {
  if (id.startsWith("item:")) return [id.slice("item:".length)];
  if (id.startsWith("part:")) return itemsOf(id.slice("part:".length), view.scenario).map(({ name }) => name);
  return whole.bands
    .filter(({ from }) => from === id)
    .flatMap(({ to }) => (to.startsWith("part:") ? itemNames(to, whole, view) : []));
}

function graphOf(whole: FlowGraph, items: readonly string[], view: View): FlowGraph {
  const belongs = ({ from, to }: FlowBand) => {
    const key = from.startsWith("item:") || from.startsWith("part:") ? from : to;
    return itemNames(key, whole, view).some((name) => items.includes(name));
  };
  const bands = whole.bands.filter(belongs);
  const shown = new Set(bands.flatMap(({ from, to }) => [from, to]));
  const nodes = whole.nodes
    .filter(({ id }) => shown.has(id))
    .map((node): FlowNode => (hasLargest(node.id, bands, whole.bands) ? node : { ...node, leaving: [] }));
  return { nodes, bands };
}

/** What leaves a dish is shown once, where the largest band into the dish is. */
function hasLargest(id: string, bands: readonly FlowBand[], all: readonly FlowBand[]): boolean {
  const into = all.filter(({ to }) => to === id);
  const largest = into.reduce<FlowBand | undefined>(
    (best, band) => (best === undefined || band.weight > best.weight ? band : best),
    undefined,
  );
  return largest !== undefined && bands.includes(largest);
}

function sum(bands: readonly FlowBand[]): Weight {
  return total(bands.map(({ weight }) => weight));
}

function arrangementOf(graph: FlowGraph, whole: FlowGraph, { writing }: View): Arrangement {
  const through = (bands: readonly FlowBand[], id: string) => {
    const into = sum(bands.filter(({ to }) => to === id));
    return into === 0n ? sum(bands.filter(({ from }) => from === id)) : into;
  };
  return arrange(graph, writing, ({ id, name }) => {
    const here = through(graph.bands, id);
    const all = through(whole.bands, id);
    return here === all
      ? `${name} ${writing.weight(here)}`
      : `${name} ${writing.weight(here)} of\u00a0${writing.weight(all)}`;
  });
}
