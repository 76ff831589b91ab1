import type {
  Carry,
  CostingName,
  Dish,
  Item,
  Part,
  Service,
  Step,
  Supplier,
} from "../../../src/kitchen/index.js";
import { Decimal, money } from "../../../src/quantity/index.js";
import { g } from "../small-scenario.js";
import { type Dice, STEP } from "./dice.js";

/** Everything drawn so far, on the way to one scenario. */
export class Sketch {
  readonly services: Service[] = [];
  readonly items: Item[] = [];
  readonly suppliers: Supplier[] = [];
  readonly parts: Part[] = [];
  readonly steps: Step[] = [];
  readonly dishes: Dish[] = [];
  costing: CostingName = "edible weight";

  constructor(readonly dice: Dice) {}

  carry(price: string, unit: number): Carry | null {
    if (!this.dice.chance(12)) return null;
    const limit = g(this.dice.between(1, 4) * STEP);
    return { use: "later", limit, valuePerKilogram: valueBelow(price, unit, 2) };
  }
}

/** A value for a kilogram, so many times below what a kilogram cost. */
export function valueBelow(price: string, unit: number, times: number): Carry["valuePerKilogram"] {
  return money(new Decimal(price).div(unit).times(1000).div(times).toDecimalPlaces(2));
}
