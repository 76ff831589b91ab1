import { Decimal, type Money, type Weight } from "./exact.js";

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
  return byLargestRemainder(
    parts.map((share) => whole * share),
    sum,
    whole,
  ) as T[];
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

/** Amounts rounded to so many steps in all. */
function roundedTo<T extends Weight | Money>(target: bigint, amounts: readonly T[], step: T): T[] {
  return byLargestRemainder(amounts, step, target).map((count) => (count * step) as T);
}

/**
 * Each dividend by the divisor, rounded down, and up where the remainder is largest, until they add up to `target`.
 * The earlier comes first where two remainders are the same.
 */
function byLargestRemainder(dividends: readonly bigint[], divisor: bigint, target: bigint): bigint[] {
  const quotients = dividends.map((dividend) => floorDiv(dividend, divisor));
  const short = target - quotients.reduce((sum, quotient) => sum + quotient, 0n);
  const order = dividends
    .map((dividend, index) => ({ index, remainder: dividend - floorDiv(dividend, divisor) * divisor }))
    .sort((a, b) => Number(b.remainder - a.remainder));
  for (const { index } of order.slice(0, Number(short))) quotients[index] = (quotients[index] ?? 0n) + 1n;
  return quotients;
}

function floorDiv(dividend: bigint, divisor: bigint): bigint {
  const quotient = dividend / divisor;
  return dividend % divisor < 0n ? quotient - 1n : quotient;
}
