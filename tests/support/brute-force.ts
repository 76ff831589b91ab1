import type { Aim, Scenario } from "../../src/kitchen/index.js";
import { Decimal } from "../../src/quantity/index.js";
import { candidates, type Scales } from "./brute-force/candidates.js";
import type { Ceilings } from "./brute-force/ceilings.js";
import type { ItemPlan } from "./brute-force/item-plans.js";
import type { Menu } from "./brute-force/menus.js";
import { leastPartCost } from "./brute-force/part-cost.js";
import type { Rules } from "./brute-force/question.js";
import { perGram } from "./brute-force/whole.js";

/** The best plan there is. */
export interface Best {
  /** Grams of waste, or currency units. */
  readonly value: Decimal;
  /** Purchases, cuts and portions of one plan that has it. */
  readonly plan: string;
}

export interface Options {
  readonly ceilings?: Ceilings;
  /** Step in grams of the amounts that must be tried one by one. */
  readonly grain?: number;
}

/**
 * The best value of an aim over every plan of a small scenario, by trying out all menus, purchases and cuts, and for
 * each the best way of the parts as a linear program that GLPK solves. It reads the scenario alone and shares nothing
 * with the planner. What is waste, `brute-force/waste.ts` says. Cost: order units and staples, less what is kept for
 * a named use at its stated value.
 */
export function bruteForce(scenario: Scenario, aim: Aim, options: Options = {}): Best | "no plan" {
  const scale = scalesOf(aim, scenario);
  const rules: Rules = {
    scenario,
    prices: scale.parts,
    ceilings: options.ceilings ?? "real cost",
    grain: options.grain ?? 1,
  };
  let best: { value: number; menu: Menu; plans: readonly ItemPlan[] } | null = null;
  for (const { menu, plans, fixed, least } of candidates(scale, rules)) {
    if (best !== null && least >= best.value) break;
    const parts = leastPartCost(menu, plans, rules);
    if (parts === null) continue;
    const value = fixed + parts;
    if (best === null || value < best.value) best = { value, menu, plans };
  }
  if (best === null) return "no plan";
  return { value: new Decimal(best.value).div(scale.unit), plan: describe(best.menu, best.plans, scenario) };
}

function scalesOf(aim: Aim, scenario: Scenario): Scales {
  switch (aim) {
    case "waste":
      return { unit: 1, money: 0, parts: { waste: 1, credit: 0 } };
    case "cost":
      return { unit: 1e7, money: 1, parts: { waste: 0, credit: 1 } };
    case "balanced":
      return { unit: 1e7, money: 1, parts: { waste: perGram(scenario.wastePrice), credit: 1 } };
  }
}

function describe({ cookings }: Menu, plans: readonly ItemPlan[], { services }: Scenario): string {
  const at = (service: number): string => services[service]?.name ?? `service ${service}`;
  return [
    ...plans.map(
      ({ item, orders, cuts, binned, kept }) =>
        `${item.name}: ${orders} bought; ${cuts.map(({ breakdown, service, grams }) => `${grams} g ${breakdown.name} for ${at(service)}`).join(", ") || "none cut"}; ${binned} binned; ${kept} kept`,
    ),
    ...cookings.map(
      ({ dish, service, portions, wasted }) =>
        `${dish.name}: ${portions} for ${at(service)}, ${wasted} wasted`,
    ),
  ].join("\n");
}
