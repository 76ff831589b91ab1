import {
  type Decimal,
  grams,
  money,
  roundTogether,
  roundUpToStep,
  total,
  type Weight,
} from "../quantity/index.js";
import type { TestCard, TestFigures, TestKind } from "../yields/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { capital, type Writing, writingFor } from "./writing.js";

/** What each test is called, and what its pages and its blank form are. */
export const TESTS: Readonly<Record<TestKind, { readonly title: string; readonly slug: string }>> = {
  butchers: { title: "Butcher's test", slug: "butchers-test" },
  cooking: { title: "Cooking-loss test", slug: "cooking-loss" },
};

/** A test as printed, on its page and on the terminal alike. */
export type TestCardData = {
  readonly facts: readonly Fact[];
  /** "Weight, g", or "Weight" where every weight says pounds and ounces. */
  readonly weightHead: string;
  readonly unit: string;
  readonly rows: readonly Row[];
  readonly whole: Omit<Row, "kind">;
  /** What the usable or the served weight comes to. */
  readonly sums: readonly Fact[];
  readonly repriced: readonly {
    readonly title: string;
    readonly sums: readonly Fact[];
    readonly note: string;
  }[];
};

type Fact = { readonly name: string; readonly value: string; readonly note: string };
type Row = {
  readonly kind: string;
  readonly name: string;
  readonly weight: string;
  readonly percent: string;
  readonly price: string;
  readonly value: string;
};

const FACTOR_PLACES = 3;

/** The result card of one test: `templates/test-card.hbs`. */
export function testCardPage(card: TestCard, figures: TestFigures, options: DocumentOptions = {}): Page {
  const { title, slug } = TESTS[figures.kind];
  const head = [capital(card.item), ...(card.date === null ? [] : [writingFor(card).date(card.date)])];
  return { ...documentPage("test-card", title, testCardData(card, figures), { head, ...options }), slug };
}

export function testCardData(card: TestCard, figures: TestFigures): TestCardData {
  const writing = writingFor(card);
  const unit = card.unit.name;
  const cell = (weight: Weight) => (writing.unit === "g" ? writing.shown(weight) : writing.weight(weight));
  const coins = (amount: Decimal) => writing.money(money(amount));
  const rounded = roundTogether(
    figures.rows.map(({ weight }) => grams(weight)),
    card.scaleStep,
  );
  return {
    facts: factsOf(card, figures.kind, writing),
    weightHead: writing.unit === "g" ? "Weight, g" : "Weight",
    unit,
    rows: figures.rows.map(({ kind, name, percent, price, value }, index) => ({
      kind: kind === "product" ? "product" : "",
      name: capital(name),
      weight: cell(rounded[index] ?? grams("0")),
      percent: writing.percentShown(percent),
      price: price === null || price.isZero() ? "" : writing.price(money(price)),
      value: value === null ? "" : coins(value),
    })),
    whole: {
      name: "As purchased",
      weight: cell(total(rounded)),
      percent: writing.wholePercent,
      price: writing.price(money(card.apPrice)),
      value: coins(figures.apCost),
    },
    sums: sumsOf(card, figures, writing),
    repriced: repricedOf(card, figures, writing),
  };
}

function factsOf(card: TestCard, kind: TestKind, writing: Writing): Fact[] {
  return [
    fact("Item", capital(card.item)),
    fact("Grade", card.grade ?? ""),
    fact("Supplier", card.supplier ?? ""),
    fact("Date", card.date === null ? "" : writing.date(card.date)),
    fact("Weighed by", card.testedBy ?? ""),
    fact("Cooked", kind === "cooking" ? (card.cooking?.method ?? "") : ""),
  ].filter(({ value }) => value !== "");
}

function sumsOf(card: TestCard, figures: TestFigures, writing: Writing): Fact[] {
  const { product, cooking, portion } = figures;
  const unit = card.unit.name;
  const coins = (amount: Decimal) => writing.money(money(amount));
  const weight = (value: Decimal) => writing.weight(grams(value));
  const factor = (value: Decimal) => writing.decimal(value, FACTOR_PLACES, FACTOR_PLACES);
  const credits = figures.apCost.minus(figures.productCost);
  return [
    ...(cooking === null
      ? []
      : [
          fact(
            "Cooking yield",
            writing.rate(cooking.yield),
            `${weight(cooking.raw)} raw, ${weight(cooking.cooked)} cooked`,
          ),
        ]),
    fact(
      `Cost of ${product}`,
      coins(figures.productCost),
      credits.isZero() ? "" : `${coins(figures.apCost)} less ${coins(credits)} for by-products`,
    ),
    fact(`Cost per ${unit} ${product}`, coins(figures.price), `for ${weight(figures.productWeight)}`),
    fact(`Cost factor per ${unit}`, factor(figures.costFactor), "times an AP price"),
    ...(portion === null
      ? []
      : [
          fact("Cost per portion", coins(portion.cost), `of ${weight(portion.weight)}`),
          fact("Cost factor per portion", factor(portion.costFactor), `times an AP price per ${unit}`),
          fact(
            "To buy per portion",
            writing.weight(roundUpToStep(grams(portion.apWeight), card.scaleStep)),
            "as purchased",
          ),
          fact(
            "Portions",
            writing.count(portion.count),
            portion.leftOver.isZero() ? "" : `${weight(portion.leftOver)} left over`,
          ),
        ]),
  ];
}

function repricedOf(
  card: TestCard,
  { repriced, product }: TestFigures,
  writing: Writing,
): TestCardData["repriced"] {
  if (repriced === null) return [];
  const unit = card.unit.name;
  const { apPrice, price, portionCost } = repriced;
  return [
    {
      title: `At a new price of ${writing.price(money(apPrice))} per ${unit}`,
      sums: [
        fact(`Cost per ${unit} ${product}`, writing.money(money(price))),
        ...(portionCost === null ? [] : [fact("Cost per portion", writing.money(money(portionCost)))]),
      ],
      note: "By cost factor: right as long as by-product prices move with the AP price. Where they do not, write the new prices and do the sums again.",
    },
  ];
}

function fact(name: string, value: string, note = ""): Fact {
  return { name: capital(name), value, note };
}
