import type { PlanJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { Decimal } from "../../quantity/index.js";
import type { Lowered } from "./cautious.js";
import type { MoreUnits } from "./more-units.js";
import type { Risk } from "./risk.js";

/** What a plan's JSON says of its risk. */
export type RiskJson = NonNullable<PlanJson["risk"]>;

/** The risk as the contract writes it: chances to four decimals, portions to two. */
export function riskJson({ seed, draws, dishes }: Risk, scenario: Scenario): RiskJson {
  const orderUnitOf = ({ item, orderUnits }: MoreUnits) => ({
    item,
    units: orderUnits,
    orderUnit: scenario.items.find(({ name }) => name === item)?.orderUnit.name ?? "",
  });
  return {
    seed,
    draws,
    cautious: null,
    dishes: dishes.map(({ dish, service, portions, chanceShort, expectedShort, mostShort, more }) => ({
      dish,
      service: scenario.services[service]?.name ?? "",
      portions,
      chanceShort: decimalText(chanceShort, 4),
      expectedShort: decimalText(expectedShort, 2),
      mostShort: decimalText(mostShort, 2),
      more: more.map(({ level, units, chance }) => ({
        chance: decimalText(level, 2),
        reached: decimalText(chance, 4),
        units: units === null ? null : units.map(orderUnitOf),
      })),
    })),
  };
}

/** How a plan came to be so sure: what was asked, whether it was reached, and on which yields it was planned. */
export function cautiousJson(level: number, isReached: boolean, lowered: Lowered): RiskJson["cautious"] {
  return {
    asked: decimalText(level, 4),
    reached: isReached,
    lowered: [...lowered].map(([item, by]) => ({ item, by: by.toFixed(4) })),
  };
}

function decimalText(value: number, places: number): string {
  return new Decimal(value.toFixed(places)).toFixed(places);
}
