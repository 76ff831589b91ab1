import type { Printable } from "./template.js";
import type { View } from "./view.js";

/** A page: its template is `templates/SLUG.hbs`. */
export interface PageMaker {
  readonly slug: string;
  readonly title: string;
  /** What the template is filled with. */
  data(view: View): PageData;
}

/** Text, lists and plain objects of them by name; each page's own type says which. */
export type PageData = { readonly [name: string]: Printable };
