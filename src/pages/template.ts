import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type HandlebarsModule from "handlebars";

/** What a template may be given: text, lists and plain objects of them. No numbers, no class instances. */
export type Printable = string | readonly Printable[] | { readonly [name: string]: Printable };

const FOLDER = new URL("../../templates/", import.meta.url);
/** Pieces that several templates share. */
const PARTIALS = [
  "layout",
  "screen",
  "warnings",
  "flow",
  "field",
  "named",
  "table",
  "balances",
  "waste-figures",
];
/** The styles of all pages, in the order in which the later take precedence. */
const STYLE_SHEETS = ["tokens.css", "table.css", "form.css", "card.css", "print.css"];
const OPTIONS: CompileOptions = { strict: true, knownHelpersOnly: true };

const ready = new Map<string, HandlebarsTemplateDelegate>();
let environment: typeof HandlebarsModule | null = null;

/** Loaded for the first page: most commands print none, and would wait for it. */
function templates(): typeof HandlebarsModule {
  if (environment !== null) return environment;
  const Handlebars: typeof HandlebarsModule = createRequire(import.meta.url)("handlebars");
  environment = Handlebars.create();
  for (const name of PARTIALS)
    environment.registerPartial(name, environment.compile(read(`${name}.hbs`), OPTIONS));
  return environment;
}

/** Fills the template of that name. A name the data does not hold is an error, never an empty place. */
export function fill(name: string, data: Printable): string {
  const template = ready.get(name) ?? templates().compile(read(`${name}.hbs`), OPTIONS);
  ready.set(name, template);
  return template(data);
}

/** The style sheets of all pages, as one. */
export function styleSheets(): string {
  return STYLE_SHEETS.map(read).join("\n");
}

function read(file: string): string {
  return readFileSync(new URL(file, FOLDER), "utf8");
}
