import { itemsOf, type View } from "../view.js";
import type { FlowBand, FlowGraph, FlowNode } from "./graph.js";

/** What one picture shows. */
export interface Sheet {
  /** Items, in the scenario's order. */
  readonly items: readonly string[];
  readonly graph: FlowGraph;
}

/** Bands that cannot be parted: those of parts which become each other, and of the item's own ends. */
interface Branch {
  readonly items: readonly string[];
  readonly bands: readonly FlowBand[];
}

/**
 * Parts the whole graph into sheets: items stay together, and with each other, as long as `fits` says so; an item
 * that does not fit alone is parted between its branches.
 */
export function sheetsOf(whole: FlowGraph, view: View, fits: (graph: FlowGraph) => boolean): Sheet[] {
  const sheets: Branch[][] = [];
  let open: Branch[] = [];
  const tryAll = (more: readonly Branch[]) => fits(graphOf(whole, [...open, ...more]));
  const close = () => {
    if (open.length > 0) sheets.push(open);
    open = [];
  };
  for (const family of families(branchesOf(whole, view), view)) {
    if (!tryAll(family)) close();
    if (tryAll(family)) {
      open.push(...family);
      continue;
    }
    for (const branch of family) {
      if (!tryAll([branch])) close();
      open.push(branch);
    }
  }
  close();
  const order = view.scenario.items.map(({ name }) => name);
  return sheets.map((branches) => ({
    items: order.filter((name) => branches.some(({ items }) => items.includes(name))),
    graph: graphOf(whole, branches),
  }));
}

function graphOf(whole: FlowGraph, branches: readonly Branch[]): FlowGraph {
  const shown = new Set(branches.flatMap(({ bands }) => bands));
  const bands = whole.bands.filter((band) => shown.has(band));
  const ids = new Set(bands.flatMap(({ from, to }) => [from, to]));
  const nodes = whole.nodes
    .filter(({ id }) => ids.has(id))
    .map((node): FlowNode => {
      const main = heaviest(whole.bands.filter(({ to }) => to === node.id));
      return main === undefined || shown.has(main) ? node : { ...node, leaving: [] };
    });
  return { nodes, bands };
}

/** Branches of one item after another; those of several items come with the first of them. */
function families(branches: readonly Branch[], { scenario }: View): Branch[][] {
  const order = scenario.items.map(({ name }) => name);
  const place = ({ items }: Branch) => (items[0] === undefined ? order.length : order.indexOf(items[0]));
  return [...order.keys(), order.length]
    .map((index) => branches.filter((branch) => place(branch) === index))
    .filter((family) => family.length > 0);
}

function branchesOf({ nodes, bands }: FlowGraph, view: View): Branch[] {
  const groupOf = joinedParts(nodes, bands);
  const groups = new Map<string, FlowBand[]>();
  const rest: FlowBand[] = [];
  for (const band of bands) {
    const key = groupOf.get(band.from) ?? groupOf.get(band.to);
    if (key === undefined) rest.push(band);
    else groups.set(key, [...(groups.get(key) ?? []), band]);
  }
  const branches: Branch[] = [...groups].map(([, own]) => ({ items: itemsBehind(own, view), bands: own }));
  for (const band of rest) {
    const near = branchFor(band, branches);
    const index = near === undefined ? -1 : branches.indexOf(near);
    if (near === undefined) branches.push({ items: itemsBehind([band], view), bands: [band] });
    else branches[index] = { ...near, bands: [...near.bands, band] };
  }
  return branches;
}

/** An own end of an item, or of water, goes with its first branch; water into a dish with what fills the dish. */
function branchFor(band: FlowBand, branches: readonly Branch[]): Branch | undefined {
  const same = branches.find(({ bands }) => bands.some(({ from }) => from === band.from));
  if (!band.to.startsWith("dish:")) return same;
  const main = heaviest(branches.flatMap(({ bands }) => bands.filter(({ to }) => to === band.to)));
  return branches.find(({ bands }) => main !== undefined && bands.includes(main));
}

/** For every part, the part that stands for all that it is joined with by further breakdowns. */
function joinedParts(nodes: readonly FlowNode[], bands: readonly FlowBand[]): Map<string, string> {
  const group = new Map<string, string>();
  for (const { id, kind } of nodes) if (kind === "part") group.set(id, id);
  for (const { from, to } of bands) {
    const [one, other] = [group.get(from), group.get(to)];
    if (one === undefined || other === undefined || one === other) continue;
    for (const [id, representative] of group) if (representative === other) group.set(id, one);
  }
  return group;
}

function itemsBehind(bands: readonly FlowBand[], { scenario }: View): string[] {
  const found = new Set(
    bands
      .flatMap(({ from, to }) => [from, to])
      .flatMap((id) => {
        if (id.startsWith("item:")) return [id.slice("item:".length)];
        return id.startsWith("part:")
          ? itemsOf(id.slice("part:".length), scenario).map(({ name }) => name)
          : [];
      }),
  );
  return scenario.items.map(({ name }) => name).filter((name) => found.has(name));
}

/** The heaviest band: what leaves a dish is shown once, where the heaviest band into it is. */
function heaviest(bands: readonly FlowBand[]): FlowBand | undefined {
  return bands.reduce<FlowBand | undefined>(
    (best, band) => (best === undefined || band.weight > best.weight ? band : best),
    undefined,
  );
}
