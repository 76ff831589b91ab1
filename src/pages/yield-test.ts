import type { TableBreakdown, TableItem, TypedTest } from "../yields/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { capital, cutWords, plural } from "./writing.js";

type YieldTestData = {
  readonly what: string;
  readonly how: string;
  readonly action: string;
  readonly problems: readonly string[];
  readonly wrong: string;
  readonly fields: readonly Field[];
  readonly parts: readonly (Field & { readonly kind: string; readonly never: string })[];
};

type Field = {
  readonly name: string;
  readonly label: string;
  readonly help: string;
  readonly value: string;
  readonly error: string;
  /** "decimal" and "numeric" bring up the figures on a phone. */
  readonly mode: string;
};

export interface YieldTestOptions extends DocumentOptions {
  /** Where the form is sent to; without it there is nothing to press. */
  readonly action?: string;
  readonly typed?: TypedTest;
  /** What is wrong with what was typed. */
  readonly errors?: YieldTestErrors;
}

export interface YieldTestErrors {
  readonly fields: Readonly<Partial<Record<Exclude<keyof TypedTest, "weights">, string>>>;
  /** By the number of the part. */
  readonly weights: ReadonlyMap<number, string>;
  /** What no field can mend. */
  readonly others: readonly string[];
}

const NOTHING_TYPED: TypedTest = {
  supplier: "",
  date: "",
  units: "",
  apWeight: "",
  scaleStep: "1",
  weights: [],
  loss: "",
};
const NO_ERRORS: YieldTestErrors = { fields: {}, weights: new Map(), others: [] };

/** A yield test to fill in, on the screen or printed: the weight as bought, every part, and what is missing. */
export function yieldTestPage(item: TableItem, breakdown: TableBreakdown, options: YieldTestOptions): Page {
  const { action = "", typed = NOTHING_TYPED, errors = NO_ERRORS, ...layout } = options;
  const field = (
    name: Exclude<keyof TypedTest, "weights">,
    label: string,
    help: string,
    mode: string,
  ): Field => ({
    name,
    label,
    help,
    mode,
    value: typed[name],
    error: errors.fields[name] ?? "",
  });
  const count = errors.weights.size + Object.keys(errors.fields).length + errors.others.length;
  const isLoose = item.measure === "loose";
  const data: YieldTestData = {
    what: `${capital(item.name)}, ${item.form}, ${cutWords(breakdown.name)}`,
    how: breakdown.how ?? "",
    action,
    problems: errors.others,
    wrong: count === 0 ? "" : `Not recorded: ${count === 1 ? "one thing" : `${count} things`} to put right.`,
    fields: [
      field("supplier", "Supplier", "", "text"),
      field("date", "Date", "The day it was cut: year-month-day", "text"),
      ...(isLoose
        ? []
        : [field("units", `Number of ${plural(item.unitName)}`, "Weighed together", "numeric")]),
      field("apWeight", "Weight as bought, g", isLoose ? "" : "Of all of them together, uncut", "decimal"),
      field("scaleStep", "Scale shows steps of, g", "The smallest weight it shows", "decimal"),
    ],
    parts: [
      ...breakdown.parts.map(({ part, class: partClass }, index) => ({
        name: `weight-${index}`,
        label: part.slice(item.name.length + 1),
        kind: KINDS[partClass],
        never: partClass === "never" ? "yes" : "",
        help: "",
        mode: "decimal",
        value: typed.weights[index] ?? "",
        error: errors.weights.get(index) ?? "",
      })),
      {
        ...field("loss", "cutting loss", "", "decimal"),
        kind: "juice, drip, crumbs as far as found",
        never: "",
      },
    ],
  };
  const head = [item.name, item.form, breakdown.name];
  return documentPage("yield-test", "Yield test", data, { head, ...layout });
}

const KINDS = { food: "", inedible: "inedible", never: "" } as const;
