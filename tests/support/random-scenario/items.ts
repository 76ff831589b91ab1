import type { Breakdown, Item, PriceBreak, Step } from "../../../src/kitchen/index.js";
import { Decimal, money, ONE } from "../../../src/quantity/index.js";
import { breakdownOf, g, itemOf, partOf, stepOf } from "../small-scenario.js";
import { type Dice, STEP } from "./dice.js";
import { type Sketch, valueBelow } from "./sketch.js";

/** An item of a heart, leaves, peel and now and then bone, with its parts. */
export function addItem(sketch: Sketch, name: string, items: number): void {
  const { dice } = sketch;
  const pieces = dice.chance(15);
  const first = dice.between(3, 8) * STEP;
  const loose = !pieces && sketch.services.length === 1 && items === 1 && dice.chance(10);
  const weights = {
    [`${name} heart`]: first,
    [`${name} leaf`]: dice.between(1, 6) * STEP,
    [`${name} peel`]: dice.between(0, 3) * STEP,
    [`${name} bone`]: dice.chance(25) ? dice.between(1, 3) * STEP : 0,
  };
  const unit = Object.values(weights).reduce((sum, weight) => sum + weight, dice.between(0, 2) * STEP);
  const breakdowns: Breakdown[] = [breakdownOf("plain", unit, positive(weights), minutes(dice))];
  if (!loose) addOtherCuts(breakdowns, sketch, name, unit, weights, pieces);
  const most =
    items === 2
      ? dice.between(2, sketch.services.length === 2 ? 2 : 4)
      : dice.between(4, sketch.services.length === 2 || breakdowns.length > 2 ? 4 : 6);
  const price = new Decimal(dice.between(2, 30)).div(10).toString();
  sketch.items.push(
    loose
      ? looseItem(name, price, dice.between(1, 3))
      : { ...itemOf(name, unit, price, most, breakdowns), ...wholeItem(sketch, unit, price, most) },
  );
  const keeps = () => dice.oneOf(null, null, 1, 2, 3);
  const worth = (times: number) => ({ marketValue: valueBelow(price, loose ? 1000 : unit, times) });
  sketch.parts.push(
    partOf(`${name} heart`, name, "food", {
      keepsDays: keeps(),
      ...(pieces ? { pieceWeight: g(first) } : { carry: sketch.carry(price, unit) }),
      ...(sketch.costing === "sales value" ? worth(1) : {}),
    }),
    partOf(`${name} leaf`, name, "food", {
      keepsDays: keeps(),
      carry: sketch.carry(price, unit),
      ...(sketch.costing === "edible weight" ? {} : worth(dice.between(2, 4))),
    }),
    partOf(`${name} peel`, name, dice.chance(10) ? "never" : "inedible", { keepsDays: keeps() }),
    partOf(`${name} bone`, name, "inedible", { keepsDays: keeps(), isPeel: false }),
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
  if (dice.chance(30)) breakdowns.push(otherCut(sketch, of.name, "other", unit, weights, piece !== null));
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

function addOtherCuts(
  breakdowns: Breakdown[],
  sketch: Sketch,
  name: string,
  unit: number,
  weights: Readonly<Record<string, number>>,
  pieces: boolean,
): void {
  const { dice } = sketch;
  if (dice.chance(55)) breakdowns.push(otherCut(sketch, name, "other", unit, weights, pieces));
  const third = breakdowns.length > 1 && sketch.services.length === 1 && dice.chance(25);
  if (third) breakdowns.push(otherCut(sketch, name, "third", unit, weights, pieces));
}

/** Another way of cutting the same unit: thicker or thinner peeling, more or less of the heart, bone or juice. */
function otherCut(
  { dice }: Sketch,
  name: string,
  way: string,
  unit: number,
  weights: Readonly<Record<string, number>>,
  pieces: boolean,
): Breakdown {
  const heart = weights[`${name} heart`] ?? 0;
  const all = unit - (pieces ? 0 : dice.between(0, 3) * STEP);
  const bone = Math.min(all, weights[`${name} bone`] ?? 0);
  const room = all - bone;
  const peel = Math.min(room, dice.between(0, 4) * STEP);
  const less = pieces || heart > room - peel ? 0 : dice.between(1, heart / STEP) * STEP;
  return breakdownOf(
    way,
    unit,
    positive({
      [`${name} heart`]: less,
      [`${name} leaf`]: room - peel - less,
      [`${name} peel`]: peel,
      [`${name} bone`]: bone,
    }),
    minutes(dice),
  );
}

function wholeItem(sketch: Sketch, unit: number, price: string, most: number): Partial<Item> {
  const { dice } = sketch;
  const size = dice.chance(20) ? 2 : 1;
  const last = sketch.services.length - 1;
  const deliveries = last === 0 ? [0] : dice.oneOf([0], [0, 1], [0, 1], [1]);
  // What by-products are credited must not be more than all of it cost.
  const held = sketch.costing !== "trim credit" && dice.chance(20) ? dice.between(1, 2) : 0;
  return {
    keepsDays: dice.oneOf(null, null, 1, 2, 3),
    orderUnit: { name: `${size}`, size: new Decimal(size), weight: g(size * unit) },
    buying:
      held > 0 && dice.chance(20)
        ? null
        : {
            price: money(new Decimal(price).times(size)),
            ...(sketch.costing === "trim credit"
              ? {}
              : breaksBelow(new Decimal(price).times(size), Math.floor(most / size), dice)),
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
              lastDay: dice.oneOf(null, null, 0, 1, 3),
              ...(dice.chance(10) ? { destination: "refuse" } : {}),
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
      minimum: money(dice.oneOf("0", "1.5", "4", "6")),
      delivery: money(dice.oneOf("0", "0.5", "2", "5")),
    });
  }
}

/** Steps for the first item's parts: dicing, peeling, splitting, candying and a pot of stock. */
export function addSteps(sketch: Sketch): void {
  const { dice, parts, steps } = sketch;
  const [{ name }] = sketch.items as [Item];
  const keepsDays = () => dice.oneOf(null, 1, 2);
  if (dice.chance(20)) steps.push(stepOf("dice down", [`${name} heart`], { [`${name} leaf`]: "1" }));
  if (dice.chance(20)) {
    parts.push(
      partOf(`${name} stem`, name, "food", { keepsDays: keepsDays(), carry: sketch.carry("1", 1000) }),
      partOf(`${name} skin`, name, "inedible"),
    );
    const gives = { [`${name} stem`]: "0.5", [`${name} skin`]: "0.25" };
    steps.push(stepOf("peel", [`${name} leaf`], gives, work(sketch)));
    if (dice.chance(40)) {
      const less = { [`${name} stem`]: dice.oneOf("0.8", "0.4") };
      steps.push(stepOf("peel by machine", [`${name} leaf`], less, work(sketch)));
    }
  }
  if (dice.chance(15)) {
    parts.push(
      partOf(`${name} core`, name, "food", { keepsDays: keepsDays() }),
      partOf(`${name} fringe`, name, "food", { keepsDays: keepsDays() }),
    );
    const from = dice.oneOf([`${name} leaf`], [`${name} leaf`, `${name} heart`]);
    steps.push(stepOf("split", from, { [`${name} core`]: "0.5", [`${name} fringe`]: "0.25" }, work(sketch)));
  }
  if (dice.chance(8)) {
    parts.push(partOf(`${name} frozen leaf`, name, "food", { keepsDays: 60, state: "frozen" }));
    steps.push(stepOf("freeze", [`${name} leaf`], { [`${name} frozen leaf`]: dice.oneOf("1", "0.9") }));
  }
  const peel = parts.find((part) => part.name === `${name} peel`);
  if (peel?.class === "inedible" && dice.chance(15)) {
    parts.push(partOf(`${name} candy`, name, "food", { carry: sketch.carry("1", 1000) }));
    steps.push(stepOf("candy", [peel.name], { [`${name} candy`]: dice.oneOf("1", "0.5") }, work(sketch)));
  }
  if (dice.chance(15)) {
    parts.push(
      partOf("stock", null, "food", { carry: sketch.carry("1", 1000) }),
      partOf("solids", null, "inedible"),
    );
    const from = peel?.class === "inedible" ? dice.oneOf("bone", "peel") : "bone";
    steps.push(
      stepOf("pot", [`${name} ${from}`], { stock: "1", solids: "1" }, { water: ONE, ...work(sketch) }),
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

/** A loose item, half of it heart, bought in steps of 200 g; it keeps a day, so that how much is cut decides nothing. */
/** What dishes ask for, in multiples of half a step, takes whole steps of it: the amounts that the referee tries. */
function looseItem(name: string, price: string, most: number): Item {
  return itemOf(
    name,
    1000,
    price,
    most,
    [breakdownOf("plain", 1000, { [`${name} heart`]: 250, [`${name} leaf`]: 250, [`${name} peel`]: 250 })],
    {
      measure: "loose",
      unitName: "kg",
      orderUnit: { name: "400 g", size: new Decimal("0.4"), weight: g(400) },
      keepsDays: 1,
    },
  );
}
