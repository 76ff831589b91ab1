/** What a plan costs at a price, and the order units it buys there; Infinity where there is no plan. */
export interface CostAt {
  readonly cost: number;
  readonly units: number;
  readonly proved: boolean;
}

/** The price, in hundredths, below which something is worth it; whether all that was asked was proved. */
export type Threshold =
  | { readonly kind: "below"; readonly hundredths: number; readonly proved: boolean }
  | { readonly kind: "never" | "any" | "unknown"; readonly proved: boolean };

/** Prices guessed from the last plan's purchases before the rest of the way is halved. */
const MOST_GUESSES = 6;
/** Costs nearer than this part of their size are the same: engines prove to a little less. */
const SAME = 2e-6;

/**
 * The lowest price, in whole hundredths up to `most`, at which the least cost is not below `limit`: bought below
 * it, the thing saves. `costAt` gives the least cost at a price, null where it is not known in the time.
 *
 * Halving is right where the least cost never falls as a price rises, which a supplier's terms can undo: every plan
 * costs as much or more, and none that was over a ceiling comes under it. So prices that save lie all below those that do not, and with the price
 * returned not saving, and one hundredth less saving, both planned, there is no other. The line through the last
 * plan, which costs as many hundredths more as it buys units, guesses where to look first.
 */
export async function lowestNotWorth(
  costAt: (hundredths: number) => Promise<CostAt | null>,
  limit: number,
  start: number,
  most: number,
): Promise<Threshold> {
  const saves = (cost: number): boolean => cost < limit - SAME * Math.max(1, Math.abs(limit));
  let worth = -1;
  let not = most + 1;
  let next = Math.min(most, Math.max(0, start));
  let proved = true;
  for (let asked = 0; not - worth > 1; asked++) {
    const known = await costAt(next);
    if (known === null) return { kind: "unknown", proved: false };
    proved &&= known.proved;
    if (saves(known.cost)) worth = next;
    else not = next;
    const middle = Math.floor((worth + not) / 2);
    const reach = ((limit - known.cost) * 100) / known.units;
    const guess = Math.ceil(next + reach - 1e-6) - 1;
    const guided = asked < MOST_GUESSES && Number.isFinite(reach);
    next = guided ? Math.min(not - 1, Math.max(worth + 1, guess)) : middle;
  }
  if (worth === most) return { kind: "any", proved };
  return worth < 0 ? { kind: "never", proved } : { kind: "below", hundredths: not, proved };
}
