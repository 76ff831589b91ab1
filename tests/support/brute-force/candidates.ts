import type { Part, Scenario, Step } from "../../../src/kitchen/index.js";
import { everyItemPlan, type ItemPlan, sum } from "./item-plans.js";
import { lotsOf, outlastsPlan, ownStock } from "./lots.js";
import { everyMenu, leastPortionGrams, type Menu, stapleCost } from "./menus.js";
import { chargesOf } from "./orders.js";
import type { Prices, Rules } from "./question.js";
import { type LineNeed, lineNeeds } from "./recipe.js";
import { takenOffBy } from "./waste.js";
import { perGram, wholeGrams } from "./whole.js";

/** What counts in an aim. */
export interface Scales {
  /** What one of the value's units counts for. */
  readonly unit: number;
  readonly money: number;
  readonly parts: Prices;
}

/** A menu with a way of cutting that might feed it. */
export interface Candidate {
  readonly menu: Menu;
  readonly plans: readonly ItemPlan[];
  /** Value of what is decided so far. */
  readonly fixed: number;
  /** No flow of parts makes the whole value less than this. */
  readonly least: number;
}

/** Every candidate, those that might be best first. */
export function* candidates(scale: Scales, rules: Rules): Generator<Candidate> {
  const { scenario, grain } = rules;
  const menus = everyMenu(scenario);
  if (menus.length === 0) return;
  const ways = scenario.items.map((item) =>
    cheapestByCuts(everyItemPlan(item, scenario, grain), scale, scenario).map((plan) => ({
      plan,
      cost: costOfItem(plan, scale),
      supply: supplyOf([plan], { ...scenario, partsOnHand: [] }),
    })),
  );
  const charged = (choice: readonly number[]): number | null =>
    chargesOf(
      ways.flatMap((column, item) => column[choice[item] ?? 0]?.plan ?? []),
      scenario,
    );
  const held = { cost: 0, supply: supplyOf([], scenario) };
  const found: { least: number; fixed: number; menu: Menu; choice: number[] }[] = [];
  for (const menu of menus) {
    const needs = lineNeeds(menu, [], scenario);
    const wanted = wantedOf(needs);
    const used = mostUsed(needs, scenario);
    const staples = scale.money * sum(menu.cookings.map(({ dish, portions }) => stapleCost(dish, portions)));
    const spare = leastSpare(menu, scenario);
    const known = ({ cost, supply }: { cost: number; supply: Supply }) => ({
      cost,
      fed: needs.map((need) => mostFed(need, supply)),
      food: supply.food - supply.shrinkage(wanted),
      credit: supply.credit,
    });
    const columns = ways.map((column) => column.map(known));
    const start = known(held);
    const visit = (item: number, sofar: typeof start, choice: number[]): void => {
      const column = columns[item];
      if (column === undefined) {
        if (needs.some(({ least }, index) => (sofar.fed[index] ?? 0) < least - 1e-6)) return;
        const charges = charged(choice);
        if (charges === null) return;
        const fixed = sofar.cost + staples + scale.money * charges;
        const wasted = (Math.max(0, sofar.food - used) + spare) * scale.parts.waste;
        found.push({ least: fixed + wasted - sofar.credit * scale.parts.credit, fixed, menu, choice });
        return;
      }
      column.forEach((way, index) => {
        const next = {
          cost: sofar.cost + way.cost,
          fed: sofar.fed.map((fed, need) => fed + (way.fed[need] ?? 0)),
          food: sofar.food + way.food,
          credit: sofar.credit + way.credit,
        };
        visit(item + 1, next, [...choice, index]);
      });
    };
    visit(0, start, []);
  }
  found.sort((a, b) => a.least - b.least);
  for (const { menu, choice, fixed, least } of found) {
    const plans = ways.flatMap((column, item) => column[choice[item] ?? 0]?.plan ?? []);
    yield { menu, plans, fixed, least };
  }
}

/**
 * Of ways that cut alike, the cheapest: what is bought, binned and kept beside matters only to the cold room, to what
 * the parts cost, and to what suppliers ask.
 */
function cheapestByCuts(plans: readonly ItemPlan[], scale: Scales, scenario: Scenario): ItemPlan[] {
  if (scenario.limits.chilled !== null || scenario.dishes.some(({ ceiling }) => ceiling !== null))
    return [...plans];
  const cheapest = new Map<string, ItemPlan>();
  for (const plan of plans) {
    const ways = plan.cuts.map(({ breakdown, service, grams }) => `${breakdown.name} ${service} ${grams}`);
    const hasTerms = scenario.suppliers?.some(({ name }) => name === plan.item.supplier) ?? false;
    const cuts = [...ways, ...(hasTerms ? plan.bought : [])].join(", ");
    const rival = cheapest.get(cuts);
    if (rival === undefined || costOfItem(plan, scale) < costOfItem(rival, scale)) cheapest.set(cuts, plan);
  }
  return [...cheapest.values()];
}

function costOfItem({ spend, credit, waste }: ItemPlan, { money, parts }: Scales): number {
  return money * spend - parts.credit * credit + parts.waste * waste;
}

/** Grams that spare portions count for, at least. */
function leastSpare({ cookings }: Menu, scenario: Scenario): number {
  const gift = scenario.wasteCounts.givenAway.toNumber();
  return sum(
    cookings.map(
      ({ dish, wasted, given }) =>
        (wasted + gift * sum(given.map(({ portions }) => portions))) * leastPortionGrams(dish),
    ),
  );
}

/** What lots can come to, at most. */
interface Supply {
  /** Grams of a part by the service at which they are to be used. */
  readonly reach: ReadonlyMap<string, number>;
  /** Grams of food cut, or on hand and not lasting. */
  readonly food: number;
  /** Grams of food that steps can take off of it without its being waste. */
  readonly shrinkage: (wanted: (part: string) => number) => number;
  /** Most that keeping can be credited. */
  readonly credit: number;
}

function supplyOf(plans: readonly ItemPlan[], scenario: Scenario): Supply {
  const { lots, draws } = lotsOf(plans, scenario);
  const flows = new Map(draws.map((draw) => [`${draw.step.name} ${draw.from.index}`, draw]));
  const most = lots.map(({ supply }) => supply);
  // Sources may stand after what is made of them: as many rounds as there are lots reach everything.
  for (let round = 0; flows.size > 0 && round < lots.length; round++) {
    const next = lots.map(({ supply }) => supply);
    for (const { from, outputs } of flows.values()) {
      for (const { lot, fraction } of outputs)
        next[lot.index] = (next[lot.index] ?? 0) + (most[from.index] ?? 0) * fraction.toNumber();
    }
    next.forEach((amount, index) => {
      most[index] = amount;
    });
  }
  const reach = new Map<string, number>();
  scenario.services.forEach((service, index) => {
    for (const lot of lots) {
      if (lot.first > index || (lot.lastDay !== null && lot.lastDay < service.day)) continue;
      const key = `${lot.part.name} ${index}`;
      reach.set(key, (reach.get(key) ?? 0) + (most[lot.index] ?? 0));
    }
  });
  // What is worked beyond this counts in full.
  const needed = ({ yields }: Step, wanted: (part: string) => number): number =>
    sum(
      yields.map(({ part, fraction }) => {
        if (fraction.isZero()) return 0;
        if (scenario.steps.some(({ from }) => from.includes(part))) return Infinity;
        const carry = scenario.parts.find(({ name }) => name === part)?.carry ?? null;
        return (wanted(part) + (carry === null ? 0 : wholeGrams(carry.limit))) / fraction.toNumber();
      }),
    );
  const credit = ({ name, carry }: Part): number => {
    if (carry === null) return 0;
    const lasting = lots.filter((lot) => lot.part.name === name && outlastsPlan(lot, scenario));
    const there = sum(lasting.map((lot) => most[lot.index] ?? 0));
    return perGram(carry.valuePerKilogram) * Math.min(wholeGrams(carry.limit), there);
  };
  return {
    reach,
    food: sum(
      lots
        .filter(
          (lot) => lot.part.class === "food" && !(ownStock(lot, scenario) && outlastsPlan(lot, scenario)),
        )
        .map(({ supply }) => supply),
    ),
    shrinkage: (wanted) =>
      sum(
        [...flows.values()].map(({ step, from }) => {
          const off = takenOffBy(step, scenario);
          return off === null ? 0 : off.all * Math.min(most[from.index] ?? 0, needed(step, wanted));
        }),
      ),
    credit: sum(scenario.parts.map(credit)),
  };
}

/** At most what a line can be given, in raw grams at their rates. */
function mostFed({ cooking, line }: LineNeed, { reach }: Supply): number {
  return sum(
    line.from.map(({ part, rate }) => (reach.get(`${part} ${cooking.service}`) ?? 0) * rate.toNumber()),
  );
}

/** At most what recipe lines can take of a part. */
function wantedOf(needs: readonly LineNeed[]): (part: string) => number {
  const wanted = new Map<string, number>();
  for (const { line, most } of needs) {
    for (const { part, rate } of line.from)
      wanted.set(part, (wanted.get(part) ?? 0) + most / rate.toNumber());
  }
  return (part) => wanted.get(part) ?? 0;
}

/** At most what food can go where it is no waste: into recipe lines, to those it is given, and into keeping. */
function mostUsed(needs: readonly LineNeed[], { parts, destinations }: Scenario): number {
  const lines = needs.map(
    ({ line, most }) => most / Math.min(...line.from.map(({ rate }) => rate.toNumber())),
  );
  const kept = parts.map(({ carry }) => (carry === null ? 0 : wholeGrams(carry.limit)));
  const given = destinations
    .filter(({ end, takes }) => end === "given away" && takes.food)
    .map(({ limit }) => (limit === null ? Infinity : wholeGrams(limit)));
  return sum([...lines, ...kept, ...given]);
}
