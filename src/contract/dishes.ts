import { addDays, type Cooking, type Decision, type Dish, type Scenario } from "../kitchen/index.js";
import type { Ledger } from "../ledger/index.js";
import { Decimal, NO_MONEY, NO_WEIGHT, toCurrency } from "../quantity/index.js";
import { lastOfferDayOf } from "../safety/index.js";
import { gramsText, moneyText } from "./figures.js";
import type { PlanJson } from "./plan.js";

/** Every cooking with who eats it, what it weighs and costs, and until when the rest may be offered. */
export function dishesOf(scenario: Scenario, decision: Decision, ledger: Ledger): PlanJson["dishes"] {
  const dishes = new Map(scenario.dishes.map((dish) => [dish.name, dish]));
  const serviceName = (index: number): string => scenario.services[index]?.name ?? "";
  return decision.cookings.map((cooking) => {
    const { dish, service, portions, served, spare } = cooking;
    const cost = ledger.dishCosts.find((entry) => entry.dish === dish && entry.service === service);
    const exact = toCurrency(cost?.cost ?? NO_MONEY).div(portions);
    const known = dishes.get(dish);
    const ceiling = known?.ceiling ?? null;
    return {
      dish,
      service: serviceName(service),
      course: known?.course ?? null,
      portions,
      eaten: served.reduce((sum, entry) => sum + entry.portions, 0),
      spare: spare.reduce((sum, entry) => sum + entry.portions, 0),
      served: served.map((entry) => ({ service: serviceName(entry.service), portions: entry.portions })),
      useBy: known === undefined ? null : useBy(known, cooking, decision, scenario),
      spareTo: spare.map(({ destination, portions: over }) => ({ destination, portions: over })),
      weight: gramsText(cost?.weight ?? NO_WEIGHT),
      cost: moneyText(cost?.cost ?? NO_MONEY),
      costPerPortion: exact.toDecimalPlaces(4, Decimal.ROUND_HALF_UP).toFixed(4),
      ceiling: ceiling === null ? null : moneyText(ceiling),
    };
  });
}

/** Last day on which what is left may be offered, by the oldest part that really went in and bears a legal date. */
function useBy(
  dish: Dish,
  { service }: Pick<Cooking, "service">,
  { goings }: Decision,
  scenario: Scenario,
): string | null {
  if (dish.keepsDays === null) return null;
  const lots = goings
    .filter((going) => going.dish === dish.name && going.service === service && going.weight > 0n)
    .map(({ lot }) => lot);
  return addDays(scenario.firstDate, lastOfferDayOf(dish, service, lots, scenario));
}
