import type { Breakdown, Item, PriceBreak, Step } from "../../../src/kitchen/index.js";
import { Decimal, money, ONE } from "../../../src/quantity/index.js";
import { breakdownOf, g, itemOf, partOf, stepOf } from "../small-scenario.js";
import { type Dice, STEP } from "./dice.js";
import { type Sketch, valueBelow } from "./sketch.js";

/** An item of a heart, leaves and peel, with its parts. */
export function addItem(sketch: Sketch, name: string, items: number): void {
  const { dice } = sketch;
  const pieces = sketch.awkwardChance(15);
  const first = dice.between(3, 8) * STEP;
  const loose = !pieces && sketch.services.length === 1 && items === 1 && sketch.awkwardChance(15);
  const weights = {
    [`${name} heart`]: first,
    [`${name} leaf`]: dice.between(1, 6) * STEP,
    [`${name} peel`]: dice.between(0, 3) * STEP,
  };
  const unit = Object.values(weights).reduce((sum, weight) => sum + weight, dice.between(0, 2) * STEP);
  const breakdowns: Breakdown[] = [breakdownOf("plain", unit, positive(weights), minutes(dice))];
  if (dice.chance(55) && !loose)
    breakdowns.push(otherCut(sketch, name, unit, weights, pieces, minutes(dice)));
  const most =
    items === 2
      ? dice.between(2, sketch.services.length === 2 ? 2 : 3)
      : dice.between(3, sketch.services.length === 2 ? 4 : 6);
  const price = new Decimal(dice.between(2, 30)).div(10).toString();
  sketch.items.push(
    loose
      ? looseItem(name, price, dice.between(1, 3), dice)
      : { ...itemOf(name, unit, price, most, breakdowns), ...wholeItem(sketch, unit, price, most) },
  );
  const keeps = () => dice.oneOf(null, null, 1, 2, 3);
  sketch.parts.push(
    partOf(`${name} heart`, name, "food", {
      keepsDays: keeps(),
      ...(pieces ? { pieceWeight: g(first) } : { carry: sketch.carry(price, unit) }),
    }),
    partOf(`${name} leaf`, name, "food", { keepsDays: keeps(), carry: sketch.carry(price, unit) }),
    partOf(`${name} peel`, name, dice.chance(10) ? "never" : "inedible", { keepsDays: keeps() }),
  );
}

/** Another form of an item already drawn: less leaf and peel about the same parts. */
export function addForm(sketch: Sketch, of: Item): void {
  const { dice } = sketch;
  const piece = sketch.parts.find(({ name }) => name === `${of.name} heart`)?.pieceWeight ?? null;
  const weights = {
    [`${of.name} heart`]: piece === null ? dice.between(3, 8) * STEP : Number(piece / 1000n),
    [`${of.name} leaf`]: dice.between(0, 3) * STEP,
    [`${of.name} peel`]: dice.between(0, 1) * STEP,
  };
  const unit = Object.values(weights).reduce((sum, weight) => sum + weight, dice.between(0, 1) * STEP);
  const breakdowns = [breakdownOf("plain", unit, positive(weights), minutes(dice))];
  if (dice.chance(30))
    breakdowns.push(otherCut(sketch, of.name, unit, weights, piece !== null, minutes(dice)));
  const name = `trimmed ${of.name}`;
  const price = new Decimal(dice.between(2, 30)).div(10).toString();
  const most = dice.between(2, sketch.services.length === 2 ? 2 : 3);
  sketch.items.push({
    ...itemOf(name, unit, price, most, breakdowns, { of: of.name }),
    ...wholeItem(sketch, unit, price, most),
  });
}

function minutes(dice: Dice): { minutes: Decimal | null } {
  return { minutes: dice.chance(50) ? new Decimal(dice.between(1, 4)) : null };
}

/** Another way of cutting the same unit: thicker or thinner peeling, more or less of the heart. */
function otherCut(
  sketch: Sketch,
  name: string,
  unit: number,
  weights: Readonly<Record<string, number>>,
  pieces: boolean,
  hands: { minutes: Decimal | null },
): Breakdown {
  const { dice } = sketch;
  const heart = weights[`${name} heart`] ?? 0;
  const room = unit - (pieces ? 0 : dice.between(0, 3) * STEP);
  const peel = Math.min(room, dice.between(0, 4) * STEP);
  const less = pieces || heart > room - peel ? 0 : dice.between(1, heart / STEP) * STEP;
  return breakdownOf(
    "other",
    unit,
    positive({ [`${name} heart`]: less, [`${name} leaf`]: room - peel - less, [`${name} peel`]: peel }),
    hands,
  );
}

function wholeItem(sketch: Sketch, unit: number, price: string, most: number): Partial<Item> {
  const { dice } = sketch;
  const size = dice.chance(20) ? 2 : 1;
  const last = sketch.services.length - 1;
  const deliveries = last === 0 ? [0] : dice.oneOf([0], [0, 1], [0, 1], [1]);
  const held = dice.chance(15) ? dice.between(1, 2) : 0;
  return {
    keepsDays: dice.oneOf(null, null, 1, 2, 3),
    orderUnit: { name: `${size}`, size: new Decimal(size), weight: g(size * unit) },
    buying:
      held > 0 && dice.chance(20)
        ? null
        : {
            price: money(new Decimal(price).times(size)),
            ...breaksBelow(new Decimal(price).times(size), Math.floor(most / size), dice),
            taxRate: null,
            least: dice.chance(8) ? 1 : 0,
            most: Math.max(1, Math.floor(most / size)),
            deliveries,
            orderBy: null,
          },
    onHand:
      held === 0
        ? []
        : [
            {
              units: new Decimal(held),
              weight: g(held * unit),
              value: money(dice.oneOf("0", "0.5")),
              lastDay: dice.oneOf(null, 0, 1),
            },
          ],
    carry: dice.chance(8)
      ? { use: "later", limit: g(unit), valuePerKilogram: valueBelow(price, unit, 4) }
      : null,
  };
}

/** Now and then a lower price from two order units on, or from three, and one lower still. */
function breaksBelow(price: Decimal, most: number, dice: Dice): { breaks?: PriceBreak[] } {
  if (most < 2 || !dice.chance(20)) return {};
  const from = dice.between(2, Math.min(3, most));
  const cents = price.times(10).toNumber();
  const tenths = dice.between(0, cents - 1);
  const lower = { from, price: money(new Decimal(tenths).div(10)) };
  if (tenths === 0 || !dice.chance(30)) return { breaks: [lower] };
  const still = { from: from + 1, price: money(new Decimal(dice.between(0, tenths - 1)).div(10)) };
  return { breaks: [lower, still] };
}

/** Now and then one supplier, or two, with a least order, a charge for each delivery, or both. */
export function addSuppliers(sketch: Sketch): void {
  const { dice } = sketch;
  if (!dice.chance(20)) return;
  sketch.items.forEach((item, index) => {
    sketch.items[index] = { ...item, supplier: dice.oneOf("farm", "farm", "market") };
  });
  for (const name of ["farm", "market"]) {
    if (!sketch.items.some(({ supplier }) => supplier === name)) continue;
    sketch.suppliers.push({
      name,
      minimum: money(dice.oneOf("0", "1.5", "4", "7")),
      delivery: money(dice.oneOf("0", "0.5", "2", "5")),
    });
  }
}

/** Dicing, peeling and a pot of stock for the first item's parts. */
export function addSteps(sketch: Sketch): void {
  const { dice } = sketch;
  const [{ name }] = sketch.items as [Item];
  if (dice.chance(25)) sketch.steps.push(stepOf("dice down", [`${name} heart`], { [`${name} leaf`]: "1" }));
  if (sketch.awkwardChance(15)) {
    sketch.parts.push(
      partOf(`${name} stem`, name, "food", { keepsDays: dice.oneOf(null, 1, 2) }),
      partOf(`${name} skin`, name, "inedible"),
    );
    sketch.steps.push(
      stepOf("peel", [`${name} leaf`], { [`${name} stem`]: "0.5", [`${name} skin`]: "0.25" }, work(sketch)),
    );
  }
  const isBone = sketch.parts.some((part) => part.name === `${name} peel` && part.class === "inedible");
  if (isBone && sketch.awkwardChance(12)) {
    sketch.parts.push(
      partOf("stock", null, "food", { carry: sketch.carry("1", 1000) }),
      partOf("solids", null, "inedible"),
    );
    sketch.steps.push(
      stepOf("pot", [`${name} peel`], { stock: "1", solids: "1" }, { water: ONE, ...work(sketch) }),
    );
  }
}

function work(sketch: Sketch): Partial<Step> {
  const { dice } = sketch;
  return {
    capacity: dice.chance(30) ? g(dice.between(2, 6) * STEP) : null,
    minutesPerKilogram: dice.chance(30) ? new Decimal(50) : null,
  };
}

function positive(weights: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(weights).filter(([, weight]) => weight > 0));
}

/** A loose item, half of it heart, bought in steps of 200 g. */
function looseItem(name: string, price: string, most: number, dice: Dice): Item {
  return itemOf(
    name,
    1000,
    price,
    most,
    [breakdownOf("plain", 1000, { [`${name} heart`]: 500, [`${name} leaf`]: 300, [`${name} peel`]: 100 })],
    {
      measure: "loose",
      unitName: "kg",
      orderUnit: { name: "200 g", size: new Decimal("0.2"), weight: g(200) },
      keepsDays: dice.oneOf(null, 1, 2),
    },
  );
}
