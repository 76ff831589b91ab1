import type { Decision, Scenario } from "../kitchen/index.js";
import { type Money, NO_MONEY, NO_WEIGHT, plus, type Weight } from "../quantity/index.js";
import { dishesOverCeiling, type OverCeiling } from "./ceiling.js";
import type { Ledger } from "./ledger.js";

/** A cooking over its ceiling, with what the ledger charged it for each of its parts. */
export interface CostsShown extends OverCeiling {
  /** Raw weight and money, by part. */
  readonly parts: readonly { readonly part: string; readonly weight: Weight; readonly money: Money }[];
}

/** For every cooking over its ceiling, what its parts cost it. */
export function costsShown(scenario: Scenario, decision: Decision, ledger: Ledger): CostsShown[] {
  return dishesOverCeiling(scenario, ledger).map((over) => {
    const { dish, service } = over;
    const account = `dish:${dish} @ ${scenario.services[service]?.name}`;
    const paid = new Map<string, { weight: Weight; money: Money }>();
    const add = (part: string, weight: Weight, money: Money): void => {
      const before = paid.get(part) ?? { weight: NO_WEIGHT, money: NO_MONEY };
      paid.set(part, { weight: plus(before.weight, weight), money: plus(before.money, money) });
    };
    for (const going of decision.goings) {
      if (going.dish === dish && going.service === service) add(going.lot.part, going.weight, NO_MONEY);
    }
    for (const { from, to, money } of ledger.transfers) {
      if (to === account && from.startsWith("part:")) add(from.slice("part:".length), NO_WEIGHT, money);
    }
    return { ...over, parts: [...paid].map(([part, amounts]) => ({ part, ...amounts })) };
  });
}
