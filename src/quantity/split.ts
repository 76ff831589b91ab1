import { Decimal } from "./decimal.js";
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
  const parts = wholeShares(shares);
  if (parts.some((share) => share < 0n)) throw new RangeError("a share is below zero");
  const sum = parts.reduce((total, share) => total + share, 0n);
  if (sum === 0n) {
    if (whole !== 0n) throw new RangeError(`nothing to split ${whole} over`);
    return parts.map(() => 0n as T);
  }
  const pieces = parts.map((share) => floorDiv(whole * share, sum));
  const remainders = parts.map((share, index) => ({
    index,
    share,
    over: whole * share - (pieces[index] ?? 0n) * sum,
  }));
  const order = remainders
    .filter(({ share }) => share !== 0n)
    .sort((a, b) => (a.over === b.over ? a.index - b.index : a.over < b.over ? 1 : -1));
  const short = whole - pieces.reduce((total, piece) => total + piece, 0n);
  for (const { index } of order.slice(0, Number(short))) pieces[index] = (pieces[index] ?? 0n) + 1n;
  return pieces as T[];
}

/** The shares as whole numbers in the same proportion, so that no remainder is decided by rounding. */
function wholeShares(shares: readonly (Decimal | bigint)[]): bigint[] {
  const places = shares.map((share) => (typeof share === "bigint" ? 0 : share.decimalPlaces()));
  const unit = Math.max(0, ...places);
  return shares.map((share) =>
    typeof share === "bigint"
      ? share * 10n ** BigInt(unit)
      : BigInt(share.times(new Decimal(10).pow(unit)).toFixed(0)),
  );
}

/**
 * Rounds `amounts` to multiples of `step` so that the printed figures add up to the rounded total: the total
 * is rounded half up, and the units it is short by go to the largest remainders.
 */
export function roundTogether<T extends Weight | Money>(amounts: readonly T[], step: T): T[] {
  return roundedTo(nearestCount(amounts, step), amounts, step);
}

/**
 * Rounds as `roundTogether` does those amounts that come first, and around them the others, each by less than a step,
 * so that all add up to the rounded total as well.
 */
export function roundAround<T extends Weight | Money>(
  amounts: readonly T[],
  step: T,
  comesFirst: (index: number) => boolean,
): T[] {
  const first = amounts.filter((_, index) => comesFirst(index));
  const others = amounts.filter((_, index) => !comesFirst(index));
  const count = nearestCount(first, step);
  const ordered = [
    roundedTo(count, first, step),
    roundedTo(nearestCount(amounts, step) - count, others, step),
  ].map((rounded) => rounded.values());
  return amounts.map((amount, index) => ordered[comesFirst(index) ? 0 : 1]?.next().value ?? amount);
}

/** How many steps the sum of amounts comes to, half up. */
function nearestCount(amounts: readonly bigint[], step: bigint): bigint {
  const sum = amounts.reduce((acc, amount) => acc + amount, 0n);
  return floorDiv(2n * sum + step, 2n * step);
}

/** Amounts rounded down, and up by largest remainder until they are so many steps in all. */
function roundedTo<T extends Weight | Money>(target: bigint, amounts: readonly T[], step: T): T[] {
  const unit = step as bigint;
  const floors = amounts.map((amount) => floorDiv(amount, unit));
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
