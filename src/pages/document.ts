import type { PageData } from "./page.js";
import type { Page, PageOptions } from "./render.js";
import { fill } from "./template.js";
import type { DrawnCurve } from "./tradeoff-picture.js";

/** What a page and its command print, said once: `pageOf` makes the page of it, the commands print it in lines. */
export interface Document {
  readonly slug: string;
  readonly title: string;
  /** What the head line says, the broadest first: the kitchen, an item, a day. */
  readonly head: readonly string[];
  readonly blocks: readonly Block[];
}

export type Block = Words | List | Table | Curves;

/** A paragraph; nothing where there is no text. */
interface Words {
  readonly kind: "words";
  readonly text: string;
  /** "answer" is the first thing to read, "quiet" the last. */
  readonly look?: "answer" | "quiet";
  /** What of it matters most, after the text. */
  readonly strong?: string;
}

/** Sentences under a head; nothing where there are none. */
interface List {
  readonly kind: "list";
  readonly head: string;
  readonly items: readonly string[];
}

/** A row for each thing; on a phone and on a terminal, an entry for each. Nothing where there are no rows. */
interface Table {
  readonly kind: "table";
  readonly caption: string;
  /** Beside the caption, in small. */
  readonly about?: string;
  /** Head of the column of names. */
  readonly of: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Whether columns of figures are as narrow as they can be. */
  readonly tight?: boolean;
}

/** One picture in several sizes, of figures that a table has too: a terminal goes without. */
interface Curves {
  readonly kind: "curves";
  readonly curves: readonly DrawnCurve[];
}

export interface Column {
  readonly head: string;
  readonly figures?: boolean;
  readonly strong?: boolean;
  /** How much of a card it takes on a phone; else a third. */
  readonly width?: "half" | "whole" | "rest";
  /** Whether a line of it may not be broken. */
  readonly unbroken?: boolean;
}

export interface Row {
  readonly name: string;
  readonly sub?: string;
  /** One a column. */
  readonly cells: readonly Cell[];
  /** Stands in place of the cells. */
  readonly none?: string;
  /** Stands below the cells; what has no text is left out. */
  readonly more?: readonly { readonly name: string; readonly text: string }[];
}

/** One text, or lines, with what is said of them below. */
export type Cell = string | { readonly lines: readonly string[]; readonly subs?: readonly string[] };

/** A row of more lines may go on on the next sheet. */
const LINES_TOGETHER = 6;

/** A document as a page: `templates/document.hbs`. */
export function pageOf({ slug, title, head, blocks }: Document, options: DocumentOptions = {}): Page {
  const page = documentPage("document", title, { blocks: blocks.map(printed) }, { head, ...options });
  return { ...page, slug };
}

/** With a text for all that a template asks for. */
function printed(block: Block) {
  if (block.kind === "curves") return { curves: block.curves };
  if (block.kind === "list") return { head: block.head, items: block.items };
  if (block.kind === "words") {
    const { text, look = "", strong = "" } = block;
    return { text, look, strong, said: `${text}${strong}` };
  }
  const { caption, about = "", of, tight, columns } = block;
  const looks = columns.map(({ head, figures, strong, width, unbroken }) => ({
    head,
    figures: figures === true ? "yes" : "",
    look: [...(figures === true ? ["num"] : []), ...(width === undefined ? [] : [width])].join(" "),
    strong: strong === true ? "yes" : "",
    unbroken: unbroken === true ? "yes" : "",
  }));
  const rows = block.rows.map(({ name, sub = "", cells, none = "", more = [] }) => ({
    name,
    sub,
    none,
    long: cells.some((cell) => typeof cell !== "string" && cell.lines.length > LINES_TOGETHER) ? "yes" : "",
    more: more.filter(({ text }) => text !== ""),
    cells: looks.map((look, index) => {
      const cell = cells[index] ?? "";
      return typeof cell === "string"
        ? { ...look, text: cell, lines: [], subs: [] }
        : { ...look, text: "", lines: cell.lines, subs: cell.subs ?? [] };
    }),
  }));
  const [span, wide] = [String(columns.length), String(columns.length + 1)];
  return { caption, about, of, tight: tight === true ? "yes" : "", columns: looks, rows, span, wide };
}

export interface DocumentOptions extends PageOptions {
  /** What the head line says, the broadest first: the kitchen, an item, a day. */
  readonly head?: readonly string[];
  /** Name of a script among the assets, which only a server has. */
  readonly script?: string;
  /** Other pages to go to. */
  readonly nav?: readonly { readonly href: string; readonly text: string }[];
}

/**
 * A page that belongs to no plan, such as an item's yields: `templates/SLUG.hbs` filled with `data`, in the same
 * layout as a plan's pages.
 */
export function documentPage(
  slug: string,
  title: string,
  data: PageData,
  { assets = "assets/", home, head = [], nav = [], script = "" }: DocumentOptions = {},
): Page {
  const frame = {
    assets,
    script,
    title,
    ...headOf(title, head),
    linked: home === undefined && nav.length === 0 ? "" : "yes",
    home: home === undefined ? [] : [home],
    nav: nav.map((link) => ({ ...link, current: "" })),
  };
  return { slug, title, html: fill(slug, { frame, ...data }) };
}

/** The head line as a list for the screen and as one text for the paper's margin, and the browser's own title. */
export function headOf(title: string, head: readonly string[]) {
  return { head, headLine: head.join(" · "), windowTitle: [title, ...head.slice(0, 1)].join(" · ") };
}
