import { Decimal as Base } from "decimal.js";

/** The one Decimal of this project: 60 significant digits, half-up, so that no step of a costing rounds early. */
export const Decimal = Base.clone({
  precision: 60,
  rounding: Base.ROUND_HALF_UP,
  toExpNeg: -30,
  toExpPos: 40,
});
export type Decimal = Base;

export const ZERO = new Decimal(0);
export const ONE = new Decimal(1);
