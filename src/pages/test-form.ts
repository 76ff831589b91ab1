import type { TestCard, TestKind } from "../yields/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { TESTS } from "./test-card.js";
import { capital } from "./writing.js";

/** A blank form of a test: what is written on it before, and the lines to fill in. */
type TestForm = {
  readonly facts: readonly { readonly name: string; readonly value: string }[];
  readonly unit: string;
  readonly stages: readonly Stage[];
  readonly sums: readonly { readonly name: string; readonly how: string }[];
};

type Stage = {
  readonly title: string;
  readonly rows: readonly { readonly name: string; readonly valued: string; readonly total: string }[];
};

/** Lines to write by-products on, the ones already named among them. */
const LINES = { butchers: 7, trimmed: 3, carved: 3 } as const;

/**
 * The blank form of a test, to print and fill in at the scale: `templates/test-form.hbs`. Of a card it takes over
 * what was bought and the names of the by-products, for the same test again.
 */
export function testFormPage(kind: TestKind, card: TestCard | null, options: DocumentOptions = {}): Page {
  const { title, slug } = TESTS[kind];
  const unit = card?.unit.name ?? "kg/lb";
  const form: TestForm = {
    unit,
    facts: [
      { name: "Item", value: card === null ? "" : capital(card.item) },
      { name: "Grade", value: card?.grade ?? "" },
      { name: "Supplier", value: card?.supplier ?? "" },
      ...["Date", `AP price per ${unit}`].map((name) => ({ name, value: "" })),
      ...(kind === "cooking"
        ? ["Cooked how", "In at, out at", "Core temperature"].map((name) => ({ name, value: "" }))
        : []),
    ],
    stages: kind === "butchers" ? butchersStages(card) : cookingStages(card),
    sums: sumsOf(kind, unit),
  };
  const head = card === null ? [] : [capital(card.item)];
  return {
    ...documentPage("test-form", `${title}, blank`, form, { head, ...options }),
    slug: `${slug}-form`,
  };
}

function butchersStages(card: TestCard | null): Stage[] {
  const names = card?.butchers?.byProducts.map(({ name }) => name) ?? [];
  return [
    {
      title: "Cutting",
      rows: [
        ...valued(names, LINES.butchers),
        weighed("Cutting loss"),
        weighed(usableName(card)),
        totalled("As purchased: AP weight"),
      ],
    },
  ];
}

function cookingStages(card: TestCard | null): Stage[] {
  const before = card?.cooking?.byProducts.map(({ name }) => name) ?? [];
  const after = card?.cooking?.carved.map(({ name }) => name) ?? [];
  return [
    {
      title: "Before cooking",
      rows: [
        ...valued(before, LINES.trimmed),
        weighed("Cutting loss"),
        weighed("Raw, into the oven or pot"),
        totalled("As purchased: AP weight"),
      ],
    },
    {
      title: "After cooking",
      rows: [
        weighed("Cooking loss: raw less cooked"),
        ...valued(after, LINES.carved),
        weighed("Carving loss"),
        weighed(card?.cooking === null || card === null ? "Served" : capital(card.cooking.product)),
        totalled("Cooked weight"),
      ],
    },
  ];
}

function usableName(card: TestCard | null): string {
  return card?.butchers === null || card === null ? "Usable" : capital(card.butchers.product);
}

function valued(names: readonly string[], least: number): Stage["rows"] {
  const blank = Array.from({ length: Math.max(0, least - names.length) }, () => "");
  return [...names, ...blank].map((name) => ({ name: capital(name), valued: "yes", total: "" }));
}

function weighed(name: string): Stage["rows"][number] {
  return { name, valued: "", total: "" };
}

function totalled(name: string): Stage["rows"][number] {
  return { name, valued: "", total: "yes" };
}

function sumsOf(kind: TestKind, unit: string): TestForm["sums"] {
  const product = kind === "butchers" ? "usable" : "served";
  return [
    ["AP cost", "AP weight × AP price"],
    ["Value of by-products", "all total values"],
    [`Cost of ${product}`, "1 less 2"],
    [`Cost per ${unit} ${product}`, `3 ÷ weight ${product}`],
    ["Cost factor", "4 ÷ AP price"],
    ["Portion weight", kind === "butchers" ? "one as it is cut" : "one as it is served"],
    ["Cost per portion", "4 × 6"],
    ["Cost factor per portion", "7 ÷ AP price"],
  ].map(([name = "", how = ""]) => ({ name, how }));
}
