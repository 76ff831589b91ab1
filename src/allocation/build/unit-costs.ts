import { type Item, priceAt } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { heldUnitCosts } from "../costs.js";
import { currency, rate } from "../floats.js";
import type { BuildContext, BuyHandle } from "./context.js";

/** What a unit of an item costs where a variable is 1; whatever is bought, where there is no variable. */
export interface UnitCost {
  readonly perUnit: number;
  readonly isPaid: number | null;
}

/** What a unit of an item can cost, by what is bought of it. */
export function unitCostsOf(item: Item, context: BuildContext): UnitCost[] {
  const buys = context.handles.buys.filter((buy) => buy.item === item);
  // Of several deliveries with price breaks, the number bought in all does not say what was paid.
  const isByNumber = buys.length < 2 || buys.every(({ byPrice }) => byPrice.length === 1);
  return isByNumber ? costsByNumber(item, buys, context) : costsByPrice(item, buys, context);
}

/** Order units bought in all, from least to most, of which a unit of the item costs no more than so much. */
interface NumberBought {
  readonly least: number;
  most: number;
  readonly perUnit: number;
}

/** Numbers up to this are told apart; beyond, ranges of numbers that grow by a quarter. */
const TOLD_APART = 24;
/** Costs of a unit that differ by less are one. */
const SAME_COST = 1e-9;

/** All of an item costs the average of what is bought, at the price for that number, and of what is on hand. */
function costsByNumber(item: Item, buys: readonly BuyHandle[], { builder }: BuildContext): UnitCost[] {
  const upper = buys.reduce((sum, { variable }) => sum + builder.upperOf(variable), 0);
  const numbers = numbersBought(item, upper, buys.length);
  if (numbers.length < 2) return numbers.map(({ perUnit }) => ({ perUnit, isPaid: null }));
  const tag = { family: "average cost", item: item.name };
  const one = new Sum();
  const fewest = new Sum();
  const most = new Sum();
  for (const { variable } of buys) {
    fewest.add(variable, 1);
    most.add(variable, 1);
  }
  const costs = numbers.map((number) => {
    const name = `${number.least} to ${number.most} of ${item.name} bought`;
    const isPaid = builder.variable(tag, name, 1, { integer: true });
    one.add(isPaid, 1);
    fewest.add(isPaid, -number.least);
    most.add(isPaid, -number.most);
    return { perUnit: number.perUnit, isPaid };
  });
  builder.row(tag, `a number of ${item.name} bought`, one, { lower: 1, upper: 1 });
  builder.row(tag, `at least that number of ${item.name}`, fewest, { lower: 0 });
  builder.row(tag, `at most that number of ${item.name}`, most, { upper: 0 });
  return costs;
}

function numbersBought(item: Item, upper: number, deliveries: number): NumberBought[] {
  const { buying, onHand, orderUnit } = item;
  const heldUnits = onHand.reduce((sum, { units }) => sum + rate(units), 0);
  const heldValue = onHand.reduce((sum, { value }) => sum + currency(value), 0);
  const costOf = (bought: number): number => {
    const price = buying === null ? 0 : currency(priceAt(buying, bought));
    return (heldValue + price * bought) / (heldUnits + rate(orderUnit.size) * bought);
  };
  const breaks = deliveries > 1 ? [] : (buying?.breaks ?? []);
  const numbers: NumberBought[] = [];
  for (let least = heldUnits > 0 ? 0 : 1; least <= upper; ) {
    const next = breaks.find(({ from }) => from > least)?.from ?? upper + 1;
    const far = least < TOLD_APART ? least : Math.floor(1.25 * least);
    const most = Math.min(upper, next - 1, far);
    // At one price, the average only rises or only falls with the number.
    const perUnit = Math.max(costOf(least), costOf(most));
    const before = numbers.at(-1);
    if (before !== undefined && Math.abs(before.perUnit - perUnit) < SAME_COST) before.most = most;
    else numbers.push({ least, most, perUnit });
    least = most + 1;
  }
  const [first, ...more] = numbers;
  // Where nothing is on hand, nothing bought is nothing cut, at any cost.
  return first === undefined ? [] : [{ ...first, least: 0 }, ...more];
}

/** The dearest of the prices that are paid and of what is on hand, and no less than the least of all. */
function costsByPrice(item: Item, buys: readonly BuyHandle[], { builder }: BuildContext): UnitCost[] {
  const tag = { family: "average cost", item: item.name };
  const paid = (variable: number, index: number): number => {
    const name = `any ${item.name} below a price break, delivery ${index + 1}`;
    const isPaid = builder.variable(tag, name, 1, { integer: true });
    const only = new Sum().add(variable, 1).add(isPaid, -builder.upperOf(variable));
    builder.row(tag, name, only, { upper: 0 });
    return isPaid;
  };
  const size = rate(item.orderUnit.size);
  const bought = buys.flatMap(({ byPrice }, index) =>
    byPrice.map(({ variable, price, isReached }) => ({
      perUnit: price / size,
      isPaid: isReached ?? paid(variable, index),
    })),
  );
  const held = heldUnitCosts(item).map((perUnit) => ({ perUnit, isPaid: null }));
  const least = Math.min(...[...bought, ...held].map(({ perUnit }) => perUnit));
  return [{ perUnit: least, isPaid: null }, ...bought, ...held];
}
