import { Decimal, grams, toGrams, total, type Weight } from "../../quantity/index.js";
import { isKind, shortName, type View } from "../view.js";
import { type Arrangement, arrange, LINE } from "./arrange.js";
import { gathered } from "./gather.js";
import { type FlowBand, type FlowGraph, flowGraph } from "./graph.js";
import { heightAt, type Layout, layOut } from "./layout.js";
import { sheetsOf } from "./sheets.js";

/** What fits under a heading on A4 and on Letter, whichever is shorter, at the printed width. */
export const TALLEST = 556;
/** Height of the shorter paper between its margins, and what a picture's caption and the space around it take. */
const PAPER = 656;
const CAPTION = 36;
/** What the heading above the first picture takes. */
const HEADING = 62;
/** What labels alone may take of it; the rest is for the bands' own widths. */
const MOST_LABELS = 0.8 * TALLEST;
/** Height that all the weight takes, where there is room for it, and the least it is given where there is not. */
const FULL_SCALE = 330;
const LEAST_SCALE = 60;
const HALVINGS = 12;

export interface Picture {
  /** Items shown, in the scenario's order. */
  readonly items: readonly string[];
  readonly layout: Layout;
}

/** Where every gram goes, in as many pictures as paper needs, all to one scale. */
export function flowPictures(view: View): { pictures: Picture[]; pointsPerGram: number } {
  const plain = flowGraph(view);
  const whole = gathered(plain, grams(new Decimal((LINE / 2 / fullScale([plain])).toFixed(3))));
  const arrangementOf = (graph: FlowGraph) => arrangementIn(graph, whole, view);
  const fits = (graph: FlowGraph) => heightAt(arrangementOf(graph), 0) <= MOST_LABELS;
  const sheets = sheetsOf(whole, view, fits);
  const full = fullScale(sheets.map(({ graph }) => graph));
  const arranged = sheets.map(({ items, graph }) => ({ items, arrangement: arrangementOf(graph) }));
  const pointsPerGram = Math.max(
    (full * LEAST_SCALE) / FULL_SCALE,
    Math.min(full, ...arranged.map(({ arrangement }) => widestScale(arrangement, full))),
  );
  const pictures = arranged.map(({ items, arrangement }) => ({
    items,
    layout: layOut(arrangement, pointsPerGram),
  }));
  return { pointsPerGram, pictures: packed(pictures) };
}

/** Points a gram that make the heaviest of the pictures as tall as weight may be. */
function fullScale(graphs: readonly FlowGraph[]): number {
  const weights = graphs.map(({ bands }) =>
    toGrams(sum(bands.filter(({ from }) => isKind(from, "item", "onHand", "water")))).toNumber(),
  );
  return FULL_SCALE / Math.max(1, ...weights);
}

/** The pictures in an order in which those that fit on one sheet of paper follow each other, first come first. */
function packed(pictures: readonly Picture[]): Picture[] {
  const papers: { room: number; pictures: Picture[] }[] = [];
  for (const picture of pictures) {
    const need = picture.layout.height + CAPTION;
    const paper = papers.find(({ room }) => room >= need);
    if (paper === undefined) {
      const room = PAPER - (papers.length === 0 ? HEADING : 0);
      papers.push({ room: room - need, pictures: [picture] });
    } else {
      paper.room -= need;
      paper.pictures.push(picture);
    }
  }
  return papers.flatMap((paper) => paper.pictures);
}

/** The largest scale up to `full` at which the picture is no taller than paper allows. */
function widestScale(arrangement: Arrangement, full: number): number {
  if (heightAt(arrangement, full) <= TALLEST) return full;
  let fits = 0;
  let tooLarge = full;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (fits + tooLarge) / 2;
    if (heightAt(arrangement, middle) <= TALLEST) fits = middle;
    else tooLarge = middle;
  }
  return fits;
}

function arrangementIn(graph: FlowGraph, whole: FlowGraph, { writing, scenario }: View): Arrangement {
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
    node: ({ id, kind, name }) => {
      const here = writing.weight(through(graph.bands, id));
      const all = writing.weight(through(whole.bands, id));
      if (here !== all) return `${name} ${here} of\u00a0${all}`;
      const alone = graph.bands.filter(({ to }) => to === id).length === 1;
      return alone && kind !== "source" ? name : `${name} ${here}`;
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

function sum(bands: readonly FlowBand[]): Weight {
  return total(bands.map(({ weight }) => weight));
}
