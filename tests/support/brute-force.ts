import type { Aim, Scenario } from "../../src/kitchen/index.js";
import { Decimal } from "../../src/quantity/index.js";
import type { Ceilings } from "./brute-force/ceilings.js";
import type { Prices, Rules } from "./brute-force/choices.js";
import { everyItemPlan, type ItemPlan, sum } from "./brute-force/item-plans.js";
import { lotsOf, outlastsPlan } from "./brute-force/lots.js";
import { everyMenu, type Menu, portionGrams, stapleCost } from "./brute-force/menus.js";
import { leastPartCost } from "./brute-force/part-flow.js";
import { lineNeeds } from "./brute-force/recipe.js";
import { perGram, wholeGrams } from "./brute-force/whole.js";

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
 * The best value of an aim over every plan of a small scenario, by trying out all menus, purchases, cuts and
 * awkward amounts, and the best flow of parts for each. It reads the scenario alone and shares nothing with the
 * planner. Waste: food sent where no one eats it, food in binned items, spare portions nobody is given, and
 * avoidable peel. Cost: order units and staples, less what is kept at its stated value.
 */
export function bruteForce(scenario: Scenario, aim: Aim, options: Options = {}): Best | "no plan" {
  const scale = scalesOf(aim, scenario);
  const rules: Rules = {
    scenario,
    prices: scale.parts,
    ceilings: options.ceilings ?? "edible weight",
    grain: options.grain ?? 1,
  };
  let best: { value: number; menu: Menu; plans: readonly ItemPlan[] } | null = null;
  for (const { menu, plans, known } of candidates(scenario, scale, rules)) {
    if (best !== null && known.least >= best.value) break;
    const parts = leastPartCost(menu, plans, rules);
    if (parts === null) continue;
    const value = known.fixed + parts;
    if (best === null || value < best.value) best = { value, menu, plans };
  }
  if (best === null) return "no plan";
  return { value: new Decimal(best.value).div(scale.unit), plan: describe(best.menu, best.plans, scenario) };
}

interface Scales {
  /** What one of the value's units counts for. */
  readonly unit: number;
  readonly money: number;
  readonly parts: Prices;
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

interface Candidate {
  readonly menu: Menu;
  readonly plans: readonly ItemPlan[];
  readonly known: { readonly fixed: number; readonly least: number };
}

/** Menus with ways of cutting that might feed them, those that might be best first. */
function candidates(scenario: Scenario, scale: Scales, rules: Rules): Candidate[] {
  const ways = combinations(scenario.items.map((item) => everyItemPlan(item, scenario, rules.grain))).map(
    (plans) => ({ plans, cost: costOfItems(plans, scale), ...suppliesOf(plans, scenario) }),
  );
  const found: Candidate[] = [];
  for (const menu of everyMenu(scenario)) {
    const needs = lineNeeds(menu, [], scenario);
    const ofMenu = costOfMenu(menu, scale);
    const used = mostUsed(menu, scenario);
    for (const { plans, cost, reach, food, shrinks, credit } of ways) {
      const fed = needs.every(({ cooking, line, least }) => {
        const there = sum(
          line.from.map(({ part, rate }) => (reach.get(`${part} ${cooking.service}`) ?? 0) * rate.toNumber()),
        );
        return there >= least - 1e-6;
      });
      if (!fed) continue;
      const fixed = cost + ofMenu;
      const wasted = shrinks ? 0 : Math.max(0, food - used);
      const least = fixed + wasted * scale.parts.waste - credit * scale.parts.credit;
      found.push({ menu, plans, known: { fixed, least } });
    }
  }
  return found.sort((a, b) => a.known.least - b.known.least);
}

function combinations(lists: readonly (readonly ItemPlan[])[]): ItemPlan[][] {
  return lists.reduce<ItemPlan[][]>(
    (all, list) => all.flatMap((plans) => list.map((plan) => [...plans, plan])),
    [[]],
  );
}

function costOfItems(plans: readonly ItemPlan[], { money, parts }: Scales): number {
  return sum(
    plans.map(({ spend, credit, waste }) => money * spend - parts.credit * credit + parts.waste * waste),
  );
}

function costOfMenu({ cookings }: Menu, { money, parts }: Scales): number {
  return sum(
    cookings.map(
      ({ dish, portions, wasted }) =>
        money * stapleCost(dish, portions) + (wasted === 0 ? 0 : parts.waste * wasted * portionGrams(dish)),
    ),
  );
}

/** At most what each part can come to by each service, all food there is, and the most that keeping can be credited. */
function suppliesOf(plans: readonly ItemPlan[], scenario: Scenario) {
  const { lots, draws } = lotsOf(plans, scenario);
  const reach = new Map<string, number>();
  const most = lots.map(({ supply }) => supply);
  // Sources may stand after what is made of them: as many rounds as there are lots reach everything.
  const flows = new Map(
    draws.map(({ step, from, outputs }) => [`${step.name} ${from.index}`, { from, outputs }]),
  );
  for (const _ of lots) {
    const next = lots.map(({ supply }) => supply);
    for (const { from, outputs } of flows.values()) {
      for (const { lot, fraction } of outputs)
        next[lot.index] = (next[lot.index] ?? 0) + (most[from.index] ?? 0) * fraction.toNumber();
    }
    next.forEach((amount, index) => {
      most[index] = amount;
    });
  }
  scenario.services.forEach((service, index) => {
    for (const lot of lots) {
      if (lot.first > index || (lot.lastDay !== null && lot.lastDay < service.day)) continue;
      const key = `${lot.part.name} ${index}`;
      reach.set(key, (reach.get(key) ?? 0) + (most[lot.index] ?? 0));
    }
  });
  return {
    reach,
    food: sum(lots.filter(({ part }) => part.class === "food").map(({ supply }) => supply)),
    // A step that sheds inedible parts or weight makes less food of it, and so less waste.
    shrinks: draws.some(({ step, outputs }) => {
      const made = outputs.filter(({ lot }) => lot.part.class === "food");
      return made.reduce((all, { fraction }) => all.plus(fraction), step.loss.times(0)).lessThan(1);
    }),
    credit: sum(
      scenario.parts.map(({ name, carry }) =>
        carry === null
          ? 0
          : perGram(carry.valuePerKilogram) *
            Math.min(
              wholeGrams(carry.limit),
              sum(
                lots
                  .filter((lot) => lot.part.name === name && outlastsPlan(lot, scenario))
                  .map((lot) => most[lot.index] ?? 0),
              ),
            ),
      ),
    ),
  };
}

/** At most what food can go where it is no waste: into recipe lines, to those it is given, and into keeping. */
function mostUsed(menu: Menu, scenario: Scenario): number {
  const lines = sum(
    lineNeeds(menu, [], scenario).map(
      ({ line, most }) => most / Math.min(...line.from.map(({ rate }) => rate.toNumber())),
    ),
  );
  const kept = sum(scenario.parts.map(({ carry }) => (carry === null ? 0 : wholeGrams(carry.limit))));
  const given = sum(
    scenario.destinations
      .filter(({ end, takes }) => end === "given away" && takes.food)
      .map(({ limit }) => (limit === null ? Infinity : wholeGrams(limit))),
  );
  return lines + kept + given;
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
