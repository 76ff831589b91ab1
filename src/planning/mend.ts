import { leastLotCosts, mendCookings, verifyDecision } from "../allocation/index.js";
import { type Decision, type Lot, lotKey, type Scenario } from "../kitchen/index.js";
import { type CostsShown, costsShown, keepLedger, type Ledger } from "../ledger/index.js";
import { Decimal, milligrams, type Weight } from "../quantity/index.js";

/** A decision with its ledger, and the cookings that are over their ceilings by it. */
export interface Judged {
  readonly decision: Decision;
  readonly ledger: Ledger;
  readonly over: readonly CostsShown[];
}

/** What a lot costs may change a little with what is taken of it: so often is it looked at again. */
const MOST_ROUNDS = 4;
/** Ten-thousandths of the currency unit that sharing costs out whole, and staples, may add to a cooking. */
const WHOLE_MONEY = 2n;

export function judged(scenario: Scenario, decision: Decision): Judged {
  const ledger = keepLedger(scenario, decision);
  return { decision, ledger, over: costsShown(scenario, decision, ledger) };
}

/** Whether rounding alone may have put every one of these over: each of its goings up by half a step of the scale. */
export function isByRounding({ over, decision, ledger }: Judged, scenario: Scenario): boolean {
  const costOf = costsOfLots(scenario, decision, ledger);
  return over.every(({ excess, goings }) => {
    const most = goings.reduce(
      (sum, { lot }) =>
        sum.plus(costOf(lot).times(scenario.scaleStep.toString()).div(2)).plus(WHOLE_MONEY.toString()),
      new Decimal(WHOLE_MONEY.toString()),
    );
    return most.gte(excess.toString());
  });
}

/**
 * The same plan with every cooking within its ceiling, by moving what rounding leaves open; null where it does not
 * leave enough. In steps of the scale, or in milligrams where no step will do.
 */
export function mendRounding(start: Judged, scenario: Scenario, unit: Weight): Judged | null {
  let at = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const costOf = costsOfLots(scenario, at.decision, at.ledger);
    const decision = mendCookings(at.decision, scenario, at.over, costOf, unit);
    if (decision === null || verifyDecision(decision, scenario).length > 0) return null;
    at = judged(scenario, decision);
    if (at.over.length === 0) return at;
  }
  return null;
}

export const MILLIGRAM = milligrams(1n);

/** Ten-thousandths for a milligram of each lot: what the ledger charged, or the least it can where nothing went on. */
function costsOfLots(scenario: Scenario, { goings }: Decision, ledger: Ledger): (lot: Lot) => Decimal {
  const known = new Map<string, Decimal>();
  goings.forEach(({ lot, weight }, index) => {
    const key = lotKey(lot);
    const money = ledger.goingCosts[index];
    if (money === undefined || weight === 0n) return;
    const cost = new Decimal(money.toString()).div(weight.toString());
    // Shares are whole ten-thousandths, so those of one lot differ by a hair: the dearest is on the safe side.
    known.set(key, Decimal.max(known.get(key) ?? cost, cost));
  });
  const least = leastLotCosts(scenario);
  return (lot) => known.get(lotKey(lot)) ?? new Decimal(least(lot)).div(100);
}
