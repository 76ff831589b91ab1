import type { Scenario } from "../../kitchen/index.js";
import { type Decimal, type Money, money, toCurrency } from "../../quantity/index.js";

/** One figure of a scenario that could be a little different, with everything else as it is. */
export interface Lever {
  /** What it is, for the list: "ceiling of aubergine bake". */
  readonly subject: string;
  /** What it touches, so that what is asked too much of is tried first. */
  readonly about: {
    readonly dish?: string;
    readonly item?: string;
    readonly service?: number;
    readonly step?: string;
    readonly vessel?: string;
    readonly supplier?: string;
  };
  /** How large one step is, in words. */
  readonly step: string;
  /** Number of steps there are. */
  readonly steps: number;
  /**
   * Whether a further step can only make planning easier: always; nearly always, but for whole pieces and batches;
   * or not at all.
   */
  readonly eases: "always" | "nearly" | "not";
  change(steps: number): Change;
}

export interface Change {
  readonly scenario: Scenario;
  /** The new figure with its unit: "0.88". */
  readonly value: string;
  /** The change as something to do: "Raise the ceiling of aubergine bake from 0.85 to 0.88". */
  readonly text: string;
}

/** Steps by which money and unit prices move. */
export const CENT = money("0.01");
export const THOUSANDTH = money("0.001");

export function moneyText(amount: Money): string {
  return decimalText(toCurrency(amount));
}

export function decimalText(value: Decimal): string {
  return value.toFixed(Math.max(2, value.decimalPlaces()));
}

/** "38 %". */
export function percentText(share: Decimal): string {
  return `${share.times(100).toFixed()} %`;
}
