import {
  coinOf,
  Decimal,
  grams,
  type Money,
  money,
  roundTogether,
  tenThousandths,
  toCoins,
  toGrams,
  ZERO,
} from "../../quantity/index.js";
import { type CardTest, type CardUnit, type CookingCardTest, inCoins, type TestCard } from "./card.js";
import {
  apWeightFor,
  type ByProduct,
  butchersTest,
  cookingLossTest,
  portionsIn,
  repriced,
} from "./test-sums.js";

export type TestKind = "butchers" | "cooking";

/** Where some of the AP weight went. */
interface Row {
  readonly kind: "by-product" | "loss" | "product";
  readonly name: string;
  /** In grams; below zero where cooking took up water, or the weighings came out over. */
  readonly weight: Decimal;
  /** Market price of a by-product; null for a loss and the product. */
  readonly price: Decimal | null;
  /** What a by-product is credited with to the coin, or what the product bears; null for a loss. */
  readonly value: Decimal | null;
}

/** One test of a card worked out: the rows add up to the AP weight, to 100 % and to the AP cost. */
export type TestFigures = ReturnType<typeof figures>;

/** The butcher's test worked out. */
function butchersFigures(card: TestCard, test: CardTest): TestFigures {
  const result = butchersTest({
    apWeight: card.apWeight,
    apPrice: card.apPrice.div(card.unit.grams),
    byProducts: forGrams(test.byProducts, card.unit),
    cuttingLoss: test.cuttingLoss,
    cuttingDifference: test.cuttingDifference,
    usableWeight: test.productWeight,
    portionWeight: test.portionWeight,
  });
  const rows = cuttingRows(card, test);
  const fractions = Object.values(result.fractions).flat();
  return figures("butchers", card, test, rows, {
    ...result,
    price: result.usablePrice,
    fractions,
    cooking: null,
  });
}

/** The cooking-loss test worked out, from what was bought to what is served. */
function cookingFigures(card: TestCard, test: CookingCardTest): TestFigures {
  const { rawWeight, cookedWeight, carved, carvingLoss, carvingDifference } = test;
  const result = cookingLossTest({
    apWeight: card.apWeight,
    apPrice: card.apPrice.div(card.unit.grams),
    trimmed: forGrams(test.byProducts, card.unit),
    cuttingLoss: test.cuttingLoss,
    cuttingDifference: test.cuttingDifference,
    rawWeight,
    cookedWeight,
    carved: forGrams(carved, card.unit),
    carvingLoss,
    carvingDifference,
    servedWeight: test.productWeight,
    portionWeight: test.portionWeight,
  });
  const gained = cookedWeight.greaterThan(rawWeight);
  const rows = [
    ...cuttingRows(card, test),
    loss(gained ? "water taken up in cooking" : "cooking loss", rawWeight.minus(cookedWeight)),
    ...creditRows(card, carved),
    loss("carving loss", carvingLoss),
    loss("weighing difference in carving", carvingDifference),
  ];
  const cooking = { raw: rawWeight, cooked: cookedWeight, yield: result.cookingYield };
  const fractions = Object.values(result.fractions).flat();
  return figures("cooking", card, test, rows, { ...result, price: result.servedPrice, fractions, cooking });
}

interface Worked {
  readonly price: Decimal;
  /** Of the AP weight, of each row and last of the product. */
  readonly fractions: readonly Decimal[];
  readonly costFactor: Decimal;
  readonly portionCost: Decimal | null;
  readonly portionCostFactor: Decimal | null;
  /** Cooked weight over raw is the yield; null for a butcher's test. */
  readonly cooking: { readonly raw: Decimal; readonly cooked: Decimal; readonly yield: Decimal } | null;
}

/** Credits are rounded to the coin each, as they are checked by hand, and the product bears what they leave of the AP cost. */
function figures(kind: TestKind, card: TestCard, test: CardTest, before: readonly Row[], worked: Worked) {
  const { product, productWeight, portionWeight } = test;
  const coin = coinOf(card.currency);
  const apCost = inCoins(card.apWeight, card.apPrice, card.unit, card.currency);
  const productCost = apCost.minus(Decimal.sum(ZERO, ...before.map(({ value }) => value ?? ZERO)));
  const { portionCost, portionCostFactor, costFactor, fractions } = worked;
  const last: Row = {
    kind: "product",
    name: product,
    weight: productWeight,
    price: null,
    value: productCost,
  };
  const plain = [...before, last]
    .map((row, index) => ({ ...row, fraction: fractions[index] ?? ZERO }))
    .filter(({ kind: row, weight }) => row !== "loss" || !weight.isZero());
  const percents = percentsOf(plain.map(({ fraction }) => fraction));
  return {
    kind,
    apCost,
    /** With the share of the AP weight, to one decimal. */
    rows: plain.map(({ fraction: _, ...row }, index) => ({ ...row, percent: percents[index] ?? ZERO })),
    product,
    productWeight,
    productCost,
    /** Cost of one unit of the product, to the coin. */
    price: toCoins(worked.price.times(card.unit.grams), coin),
    costFactor,
    portion:
      portionWeight === null || portionCost === null || portionCostFactor === null
        ? null
        : {
            weight: portionWeight,
            cost: toCoins(portionCost, coin),
            costFactor: portionCostFactor.div(card.unit.grams),
            /** What is to be bought for one portion. */
            apWeight: apWeightFor(1, portionWeight, fractions.at(-1) ?? ZERO),
            ...portionsIn(productWeight, portionWeight),
          },
    cooking: worked.cooking,
    /** After a move of the AP price, by cost factor. */
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

function cuttingRows(card: TestCard, test: CardTest): Row[] {
  return [
    ...creditRows(card, test.byProducts),
    loss("cutting loss", test.cuttingLoss),
    loss("weighing difference in cutting", test.cuttingDifference),
  ];
}

function creditRows(card: TestCard, byProducts: readonly ByProduct[]): Row[] {
  return byProducts.map((product) => ({
    kind: "by-product",
    ...product,
    value: inCoins(product.weight, product.price, card.unit, card.currency),
  }));
}

function forGrams(byProducts: readonly ByProduct[], { grams }: CardUnit): ByProduct[] {
  return byProducts.map((each) => ({ ...each, price: each.price.div(grams) }));
}

function loss(name: string, weight: Decimal): Row {
  return { kind: "loss", name, weight, price: null, value: null };
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

const PLACES = 6;

/**
 * A test as plain data: decimal strings throughout, weights in grams, costs in whole coins, prices for one unit
 * (kg or lb), percents and factors as they are printed or finer.
 */
export function testCardJson(card: TestCard, figures: TestFigures) {
  const { portion, cooking, repriced } = figures;
  return {
    schema: "trim-to-use/test-card@1",
    test: figures.kind === "butchers" ? "butcher's test" : "cooking-loss test",
    item: card.item,
    grade: card.grade,
    supplier: card.supplier,
    date: card.date,
    currency: card.currency,
    unit: card.unit.name,
    apWeight: weight(card.apWeight),
    apPrice: fine(card.apPrice),
    apCost: fine(figures.apCost),
    rows: figures.rows.map((row) => ({
      kind: row.kind,
      name: row.name,
      weight: weight(row.weight),
      percent: row.percent.toFixed(1),
      price: row.price === null ? null : fine(row.price),
      value: row.value === null ? null : fine(row.value),
    })),
    cooking:
      cooking === null
        ? null
        : { raw: weight(cooking.raw), cooked: weight(cooking.cooked), yield: fine(cooking.yield) },
    product: {
      name: figures.product,
      weight: weight(figures.productWeight),
      cost: fine(figures.productCost),
      price: fine(figures.price),
      costFactor: fine(figures.costFactor),
    },
    portion:
      portion === null
        ? null
        : {
            weight: weight(portion.weight),
            cost: fine(portion.cost),
            costFactor: fine(portion.costFactor),
            apWeight: weight(portion.apWeight),
            count: portion.count,
            leftOver: weight(portion.leftOver),
          },
    repriced:
      repriced === null
        ? null
        : {
            apPrice: fine(repriced.apPrice),
            price: fine(repriced.price),
            portionCost: repriced.portionCost === null ? null : fine(repriced.portionCost),
          },
  };
}

/** To the milligram. */
function weight(value: Decimal): string {
  return toGrams(grams(value)).toFixed();
}

function fine(value: Decimal): string {
  return value.toDecimalPlaces(PLACES).toFixed();
}
