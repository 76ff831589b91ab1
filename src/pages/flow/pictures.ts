import { Decimal, grams, toGrams, total, type Weight } from "../../quantity/index.js";
import { isKind, itemsOf, shortName, type View } from "../view.js";
import { type Arrangement, arrange, LINE } from "./arrange.js";
import { gathered } from "./gather.js";
import { type FlowBand, type FlowGraph, type FlowNode, flowGraph } from "./graph.js";
import { type Layout, layOut } from "./layout.js";

/** What fits under a heading on A4 and on Letter, whichever is shorter, at the printed width. */
export const TALLEST = 620;
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
  const plain = flowGraph(view);
  const sources = plain.bands.filter(({ from }) => isKind(from, "item", "onHand", "water"));
  const everything = toGrams(sum(sources)).toNumber();
  const fullScale = everything === 0 ? 1 : FULL_SCALE / everything;
  const whole = gathered(plain, grams(new Decimal((LINE / 2 / fullScale).toFixed(3))));
  const arranged = grouped(whole, view).map(({ items, graph }) => ({
    items,
    arrangement: arrangementOf(graph, whole, view),
  }));
  const pointsPerGram = Math.min(
    ...arranged.map(({ arrangement }) => widestScale(arrangement, fullScale)),
    fullScale,
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
function widestScale(arrangement: Arrangement, fullScale: number): number {
  let fits = 0;
  let tooLarge = fullScale;
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
  const bands = whole.bands.filter((band) =>
    itemsBehind(band, whole, view).some((name) => items.includes(name)),
  );
  const shown = new Set(bands.flatMap(({ from, to }) => [from, to]));
  const nodes = whole.nodes
    .filter(({ id }) => shown.has(id))
    .map((node): FlowNode => (isIn(bands, largestInto(node.id, whole)) ? node : { ...node, leaving: [] }));
  return { nodes, bands };
}

/** Whose picture a band is in: its part's, or where water runs straight into a dish, that of the dish's main part. */
function itemsBehind(band: FlowBand, whole: FlowGraph, view: View): string[] {
  const owned = (id: string) => id.startsWith("item:") || id.startsWith("part:");
  if (owned(band.from)) return itemNames(band.from, whole, view);
  if (owned(band.to)) return itemNames(band.to, whole, view);
  const main = largestInto(band.to, whole, ({ from }) => owned(from));
  return main === undefined ? [] : itemNames(main.from, whole, view);
}

/** The heaviest band into a node: what leaves a dish is shown once, where that band is. */
function largestInto(
  id: string,
  { bands }: FlowGraph,
  counts: (band: FlowBand) => boolean = () => true,
): FlowBand | undefined {
  return bands
    .filter((band) => band.to === id && counts(band))
    .reduce<FlowBand | undefined>(
      (best, band) => (best === undefined || band.weight > best.weight ? band : best),
      undefined,
    );
}

function isIn(bands: readonly FlowBand[], band: FlowBand | undefined): boolean {
  return band !== undefined && bands.includes(band);
}

function sum(bands: readonly FlowBand[]): Weight {
  return total(bands.map(({ weight }) => weight));
}

function arrangementOf(graph: FlowGraph, whole: FlowGraph, { writing, scenario }: View): Arrangement {
  const through = (bands: readonly FlowBand[], id: string) => {
    const into = sum(bands.filter(({ to }) => to === id));
    return into === 0n ? sum(bands.filter(({ from }) => from === id)) : into;
  };
  const shortNames = shortNamesIn(
    graph,
    scenario.items.map(({ name }) => name),
  );
  return arrange(graph, {
    writing,
    shortName: (name) => shortNames.get(name) ?? name,
    node: ({ id, name }) => {
      const here = writing.weight(through(graph.bands, id));
      const all = writing.weight(through(whole.bands, id));
      return here === all ? `${name} ${here}` : `${name} ${here} of\u00a0${all}`;
    },
  });
}

/** Names of parts without their item's, where no two parts of the picture would be called the same. */
function shortNamesIn({ bands }: FlowGraph, items: readonly string[]): Map<string, string> {
  const names = [...new Set(bands.flatMap(({ contents }) => contents.flatMap((each) => each.names)))];
  const short = (name: string) => shortName(name, items.find((item) => name.startsWith(`${item} `)) ?? null);
  const uses = new Map<string, number>();
  for (const name of names) uses.set(short(name), (uses.get(short(name)) ?? 0) + 1);
  return new Map(
    names.map((name): [string, string] => [name, uses.get(short(name)) === 1 ? short(name) : name]),
  );
}
