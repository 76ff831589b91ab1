import { Decimal, ZERO } from "./decimal.js";
import type { Money, Weight } from "./exact.js";

/**
 * Splits `whole` in proportion to `shares` by the method of largest remainder, so that the pieces are whole
 * units and add up to `whole` exactly. Ties go to the earlier share. Shares are >= 0; when all are zero
 * nothing can be split and anything but a zero `whole` is refused.
 */
export function splitByShares<T extends Weight | Money>(
  whole: T,
  shares: readonly (Decimal | bigint)[],
): T[] {
  const exactShares = shares.map((share) => new Decimal(share.toString()));
  const sum = exactShares.reduce((acc, share) => acc.plus(share), ZERO);
  if (exactShares.some((share) => share.isNegative())) throw new RangeError("a share is below zero");
  if (sum.isZero()) {
    if (whole !== 0n) throw new RangeError(`nothing to split ${whole} over`);
    return exactShares.map(() => 0n as T);
  }
  const exact = exactShares.map((share) => new Decimal(whole.toString()).times(share).div(sum));
  const floors = exact.map((value) => BigInt(value.floor().toFixed(0)));
  const short = (whole as bigint) - floors.reduce((acc, value) => acc + value, 0n);
  const order = exact
    .map((value, index) => ({ index, remainder: value.minus(value.floor()) }))
    .filter(({ index }) => !(exactShares[index] as Decimal).isZero())
    .sort((a, b) => b.remainder.comparedTo(a.remainder) || a.index - b.index);
  for (let i = 0; i < Number(short); i++) {
    const { index } = order[i % order.length] as { index: number };
    floors[index] = (floors[index] as bigint) + 1n;
  }
  return floors as T[];
}

/**
 * Rounds `amounts` to multiples of `step` so that the printed figures add up to the rounded total: the total
 * is rounded half up, and the units it is short by go to the largest remainders.
 */
export function roundTogether<T extends Weight | Money>(amounts: readonly T[], step: T): T[] {
  const sum = amounts.reduce((acc, amount) => acc + (amount as bigint), 0n);
  const unit = step as bigint;
  const floors = amounts.map((amount) => floorDiv(amount, unit));
  const target = floorDiv(2n * sum + unit, 2n * unit);
  const short = Number(target - floors.reduce((acc, value) => acc + value, 0n));
  const order = amounts
    .map((amount, index) => ({ index, remainder: (amount as bigint) - (floors[index] as bigint) * unit }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder < b.remainder ? 1 : -1));
  for (const { index } of order.slice(0, short)) floors[index] = (floors[index] as bigint) + 1n;
  return floors.map((value) => (value * unit) as T);
}

function floorDiv(dividend: bigint, divisor: bigint): bigint {
  const quotient = dividend / divisor;
  return dividend % divisor < 0n ? quotient - 1n : quotient;
}
