import type { Decision, Scenario } from "../kitchen/index.js";
import { type Money, minus, plus, scale, toKilograms, total, type Weight } from "../quantity/index.js";
import type { Ledger } from "./ledger.js";

/** What a plan has of the two things that are made least. */
export interface AimValues {
  /** Food nobody is given, and peel beyond the thriftiest breakdown's where the scenario counts it. */
  readonly waste: Weight;
  /** What is spent less what is kept, at the value the scenario states for it. */
  readonly netSpend: Money;
}

/** Waste and net spend of a plan, from its ledger. */
export function aimValuesOf(scenario: Scenario, decision: Decision, { weights, money }: Ledger): AimValues {
  const creditOf = new Map(
    [...scenario.parts, ...scenario.items].map(({ name, carry }) => [name, carry?.valuePerKilogram]),
  );
  const kept = [
    ...decision.kept.map(({ lot, weight }) => ({ name: lot.part, weight })),
    ...decision.keptItems.map(({ item, weight }) => ({ name: item, weight })),
  ].flatMap(({ name, weight }) => {
    const value = creditOf.get(name);
    return value === undefined ? [] : [scale(value, toKilograms(weight))];
  });
  return {
    waste: plus(weights.wastedFood, weights.avoidablePeel),
    netSpend: minus(money.spent, total<Money>(kept)),
  };
}
