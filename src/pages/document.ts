import type { PageData } from "./page.js";
import type { Page, PageOptions } from "./render.js";
import { fill } from "./template.js";

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
