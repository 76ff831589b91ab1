import { type Decimal, grams, toGrams } from "../../quantity/index.js";
import type { TestCard } from "./card.js";
import type { TestFigures } from "./figures.js";

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
