import {
  coinOf,
  Decimal,
  inCoins,
  type Money,
  money,
  roundTogether,
  tenThousandths,
  toCoins,
  ZERO,
} from "../../quantity/index.js";
import { butchersTest } from "../butchers-test.js";
import type { ByProduct } from "../card-figures.js";
import { cookingLossTest } from "../cooking-loss-test.js";
import { portionsIn, repriced } from "../portions.js";
import type { CardTest, CardUnit, CookingCardTest, TestCard } from "./card.js";

export type TestKind = "butchers" | "cooking";

/** One test of a card worked out, costs in whole coins: the rows add up to the AP weight, to 100 % and to the AP cost. */
export interface TestFigures {
  readonly kind: TestKind;
  readonly apCost: Decimal;
  readonly rows: readonly CardRow[];
  /** What the test is about, with the last row's weight and cost. */
  readonly product: string;
  readonly productWeight: Decimal;
  readonly productCost: Decimal;
  /** Cost of one unit of the product, to the coin. */
  readonly price: Decimal;
  readonly costFactor: Decimal;
  readonly portion: PortionFigures | null;
  readonly cooking: { readonly raw: Decimal; readonly cooked: Decimal; readonly yield: Decimal } | null;
  readonly repriced: Repriced | null;
}

/** Where some of the AP weight went. */
export interface CardRow {
  readonly kind: "by-product" | "loss" | "product";
  readonly name: string;
  /** In grams; below zero where cooking took up water. */
  readonly weight: Decimal;
  /** Of the AP weight, to one decimal. */
  readonly percent: Decimal;
  /** Market price of a by-product; null for a loss and the product. */
  readonly price: Decimal | null;
  /** What it is credited with, or what the product bears; null for a loss. */
  readonly value: Decimal | null;
}

export interface PortionFigures {
  readonly weight: Decimal;
  readonly cost: Decimal;
  readonly costFactor: Decimal;
  /** Whole portions, and the weight left over from them. */
  readonly count: number;
  readonly leftOver: Decimal;
}

/** After a move of the AP price, by cost factor. */
export interface Repriced {
  readonly apPrice: Decimal;
  readonly price: Decimal;
  readonly portionCost: Decimal | null;
}

type Plain = Omit<CardRow, "percent" | "value"> & {
  readonly exact: Decimal | null;
  readonly fraction: Decimal;
};

/** The butcher's test worked out. */
function butchersFigures(card: TestCard, test: CardTest): TestFigures {
  const result = butchersTest({
    apWeight: card.apWeight,
    apPrice: card.apPrice.div(card.unit.grams),
    byProducts: forGrams(test.byProducts, card.unit),
    cuttingLoss: test.cuttingLoss,
    usableWeight: test.productWeight,
    portionWeight: test.portionWeight,
  });
  const { fractions, credits, usableCost, usablePrice } = result;
  const rows: Plain[] = [
    ...creditRows(test.byProducts, fractions.byProducts, credits),
    loss("cutting loss", test.cuttingLoss, fractions.cuttingLoss),
    productRow(test, fractions.usable, usableCost),
  ];
  return figures("butchers", card, test, rows, { ...result, price: usablePrice, cooking: null });
}

/** The cooking-loss test worked out, from what was bought to what is served. */
function cookingFigures(card: TestCard, test: CookingCardTest): TestFigures {
  const { rawWeight, cookedWeight, carved, carvingLoss } = test;
  const result = cookingLossTest({
    apWeight: card.apWeight,
    apPrice: card.apPrice.div(card.unit.grams),
    trimmed: forGrams(test.byProducts, card.unit),
    cuttingLoss: test.cuttingLoss,
    rawWeight,
    cookedWeight,
    carved: forGrams(carved, card.unit),
    carvingLoss,
    servedWeight: test.productWeight,
    portionWeight: test.portionWeight,
  });
  const { fractions, credits, servedCost, servedPrice, cookingYield } = result;
  const gained = cookedWeight.greaterThan(rawWeight);
  const rows: Plain[] = [
    ...creditRows(test.byProducts, fractions.trimmed, credits.trimmed),
    loss("cutting loss", test.cuttingLoss, fractions.cuttingLoss),
    loss(
      gained ? "water taken up in cooking" : "cooking loss",
      rawWeight.minus(cookedWeight),
      fractions.cookingLoss,
    ),
    ...creditRows(carved, fractions.carved, credits.carved),
    loss("carving loss", carvingLoss, fractions.carvingLoss),
    productRow(test, fractions.served, servedCost),
  ];
  const cooking = { raw: rawWeight, cooked: cookedWeight, yield: cookingYield };
  return figures("cooking", card, test, rows, { ...result, price: servedPrice, cooking });
}

interface Worked {
  readonly apCost: Decimal;
  readonly price: Decimal;
  readonly costFactor: Decimal;
  readonly portionCost: Decimal | null;
  readonly portionCostFactor: Decimal | null;
  readonly cooking: TestFigures["cooking"];
}

function figures(
  kind: TestKind,
  card: TestCard,
  test: CardTest,
  plain: readonly Plain[],
  worked: Worked,
): TestFigures {
  const coin = coinOf(card.currency);
  const shown = plain.filter(({ kind: row, weight }) => row !== "loss" || !weight.isZero());
  const percents = percentsOf(shown.map(({ fraction }) => fraction));
  const values = inCoins(
    shown.map(({ exact }) => exact ?? ZERO),
    coin,
  );
  const rows = shown.map(({ exact, fraction: _, ...row }, index) => ({
    ...row,
    percent: percents[index] ?? ZERO,
    value: exact === null ? null : (values[index] ?? ZERO),
  }));
  const { portionWeight, productWeight } = test;
  const { portionCost, portionCostFactor, costFactor } = worked;
  return {
    kind,
    apCost: toCoins(worked.apCost, coin),
    rows,
    product: test.product,
    productWeight,
    productCost: rows.at(-1)?.value ?? ZERO,
    price: toCoins(worked.price.times(card.unit.grams), coin),
    costFactor,
    portion:
      portionWeight === null || portionCost === null || portionCostFactor === null
        ? null
        : {
            weight: portionWeight,
            cost: toCoins(portionCost, coin),
            costFactor: portionCostFactor.div(card.unit.grams),
            ...portionsIn(productWeight, portionWeight),
          },
    cooking: worked.cooking,
    repriced:
      card.newPrice === null
        ? null
        : {
            apPrice: card.newPrice,
            price: toCoins(repriced(costFactor, card.newPrice), coin),
            portionCost:
              portionCostFactor === null
                ? null
                : toCoins(repriced(portionCostFactor, card.newPrice.div(card.unit.grams)), coin),
          },
  };
}

function creditRows(
  byProducts: readonly ByProduct[],
  fractions: readonly Decimal[],
  credits: readonly Decimal[],
): Plain[] {
  return byProducts.map(({ name, weight, price }, index) => ({
    kind: "by-product",
    name,
    weight,
    price,
    fraction: fractions[index] ?? ZERO,
    exact: credits[index] ?? ZERO,
  }));
}

function forGrams(byProducts: readonly ByProduct[], { grams }: CardUnit): ByProduct[] {
  return byProducts.map((each) => ({ ...each, price: each.price.div(grams) }));
}

function loss(name: string, weight: Decimal, fraction: Decimal): Plain {
  return { kind: "loss", name, weight, fraction, price: null, exact: null };
}

function productRow({ product, productWeight }: CardTest, fraction: Decimal, cost: Decimal): Plain {
  return { kind: "product", name: product, weight: productWeight, fraction, price: null, exact: cost };
}

/** Percents to one decimal that add up to 100.0; a share below zero stays so. */
function percentsOf(fractions: readonly Decimal[]): Decimal[] {
  const fine = fractions.map((fraction): Money => money(fraction.times(100_000)));
  return roundTogether(fine, tenThousandths(1_000_000n)).map((share) =>
    new Decimal(share.toString()).div(10_000_000),
  );
}

/** Every test that the card holds, worked out: the butcher's test first. */
export function testFigures(card: TestCard): TestFigures[] {
  return [
    ...(card.butchers === null ? [] : [butchersFigures(card, card.butchers)]),
    ...(card.cooking === null ? [] : [cookingFigures(card, card.cooking)]),
  ];
}
