import type { Decision, Scenario } from "../kitchen/index.js";
import {
  Decimal,
  type Money,
  minus,
  NO_MONEY,
  scale,
  smaller,
  toCurrency,
  toGrams,
  toKilograms,
  total,
  type Weight,
  ZERO,
} from "../quantity/index.js";
import type { Ledger } from "./ledger.js";

/** What a plan has of the two things that are made least. */
export interface AimValues {
  /** As `Waste` counts it. */
  readonly waste: Weight;
  /** What is spent less what is kept for a named use, up to its limit, at the value the scenario states for it. */
  readonly netSpend: Money;
}

/** Waste and net spend of a plan, from its ledger. */
export function aimValuesOf(scenario: Scenario, decision: Decision, { waste, money }: Ledger): AimValues {
  const keptOf = (name: string): Weight =>
    total([
      ...decision.kept.filter(({ lot }) => lot.part === name).map(({ weight }) => weight),
      ...decision.keptItems.filter(({ item }) => item === name).map(({ weight }) => weight),
    ]);
  const credits = [...scenario.parts, ...scenario.items].flatMap(({ name, carry }) =>
    carry === null ? [] : [scale(carry.valuePerKilogram, toKilograms(smaller(keptOf(name), carry.limit)))],
  );
  return { waste: waste.counted, netSpend: minus(money.spent, total<Money>(credits)) };
}

/** What is made least, of what a plan has: kilograms for the waste aim, else currency units, with hands at the wage. */
export function aimFigure(scenario: Scenario, decision: Decision, { waste, netSpend }: AimValues): Decimal {
  const kilograms = toKilograms(waste);
  if (scenario.aim === "waste") return kilograms;
  const cost = toCurrency(netSpend).plus(handsCost(scenario, decision));
  return scenario.aim === "cost" ? cost : cost.plus(kilograms.times(toCurrency(scenario.wastePrice)));
}

function handsCost({ wage, items, steps }: Scenario, { cuts, preps }: Decision): Decimal {
  if (wage === NO_MONEY) return ZERO;
  const minutes = [
    ...cuts.map(({ item: name, breakdown, weight }) => {
      const item = items.find((each) => each.name === name);
      const each = item?.breakdowns.find((way) => way.name === breakdown)?.minutes ?? ZERO;
      return item === undefined ? ZERO : each.times(toGrams(weight)).div(toGrams(item.unitWeight));
    }),
    ...preps.map(({ step, weight }) =>
      (steps.find(({ name }) => name === step)?.minutesPerKilogram ?? ZERO).times(toKilograms(weight)),
    ),
  ];
  return Decimal.sum(ZERO, ...minutes)
    .times(toCurrency(wage))
    .div(60);
}
