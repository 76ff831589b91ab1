import {
  Decimal,
  grams,
  milligrams,
  roundTogether,
  splitByShares,
  toGrams,
} from "../../src/quantity/index.js";
import type { TableBreakdown, TableItem, YieldTest } from "../../src/yields/index.js";
import { aYieldTest } from "../support/own-tests.js";

/** A normal deviate by Box and Muller. */
export function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

/** Shares of a whole moved about by `factor` x sqrt(p (1 - p)) each, made to add up to one again. */
function movedShares(shares: readonly number[], factor: number, next: () => number): number[] {
  const moved = shares.map((share) =>
    share === 0 ? 0 : Math.max(0.001, share + factor * Math.sqrt(share * (1 - share)) * normal(next)),
  );
  const sum = moved.reduce((total, share) => total + share, 0);
  return moved.map((share) => share / sum);
}

export interface Kitchen {
  readonly item: TableItem;
  readonly breakdown: TableBreakdown;
  /** What this kitchen's hands and deliveries really yield: the parts, then the loss. */
  readonly truth: readonly number[];
}

/** A kitchen that lies as far from the published figures as `factor` says. */
export function aKitchen(
  item: TableItem,
  breakdown: TableBreakdown,
  factor: number,
  next: () => number,
): Kitchen {
  const published = [
    ...breakdown.parts.map(({ fraction }) => fraction.toNumber()),
    breakdown.loss.toNumber(),
  ];
  return { item, breakdown, truth: movedShares(published, factor, next) };
}

/** One weighing of one to six units, to one gram; `spread` says how far it lies from the kitchen's truth. */
export function weighed(
  { item, breakdown, truth }: Kitchen,
  number: number,
  spread: number,
  next: () => number,
): YieldTest {
  const units = 1 + Math.floor(6 * next());
  const heavy = 1 + 0.1 * normal(next);
  const whole = toGrams(item.unitWeight).times(units).times(Math.max(0.6, heavy).toFixed(6));
  const shares = movedShares(truth, spread, next).map((share) => new Decimal(share.toFixed(12)));
  const step = grams("1");
  const shown = roundTogether(splitByShares(grams(whole), shares), step);
  const loss = shown.at(-1) ?? milligrams(0n);
  return aYieldTest({
    item: item.name,
    form: item.form,
    breakdown: breakdown.name,
    date: "2026-10-05",
    number,
    units,
    apWeight: milligrams(shown.reduce((total, weight) => total + weight, 0n)),
    parts: breakdown.parts.map(({ part, class: partClass }, index) => ({
      part,
      weight: shown[index] ?? milligrams(0n),
      class: partClass,
    })),
    loss,
    scaleStep: step,
  });
}
