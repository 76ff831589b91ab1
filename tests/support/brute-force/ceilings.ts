import type { Scenario } from "../../../src/kitchen/index.js";
import type { Chosen, Question, Rules } from "./choices.js";
import { type ItemPlan, sum } from "./item-plans.js";
import type { Draw, Lot } from "./lots.js";
import { stapleCost } from "./menus.js";
import { borneBy } from "./orders.js";
import { isExact, type LineNeed } from "./recipe.js";
import { Ratio, tenMillionths, wholeGrams, wholeNumber, wholePart } from "./whole.js";

/**
 * How a dish is held to its ceiling: by what its parts really cost, each item's cost shared by weight among its
 * cuts and by edible weight within each; or by the least each part could cost, whatever is bought.
 */
export type Ceilings = "edible weight" | "least cost";

const NOTHING = new Ratio(0n, 1n);

interface Known {
  /** Lines whose every going must be known, lot by lot. */
  readonly uses: ReadonlySet<LineNeed>;
  /** Lines of which it must be known how much of each part goes in. */
  readonly groups: ReadonlySet<LineNeed>;
  /** Whether it must be known what every step takes. */
  readonly draws: boolean;
}

/** What must be tried out amount by amount before the cost of dishes with a ceiling is known. */
export function mustKnowGoings(draws: readonly Draw[], needs: readonly LineNeed[], rules: Rules): Known {
  const judged = needs.filter(({ cooking }) => cooking.dish.ceiling !== null);
  const byLot = rules.ceilings === "edible weight";
  // Exact lines of one lot, or of one part at its least cost, cost the same whatever flows.
  const open = judged.filter((need) => !isExact(need) || choicesIn(need, byLot) > 1);
  return {
    uses: new Set(byLot ? open : []),
    groups: new Set(byLot ? [] : open),
    draws: byLot && draws.length > 0 && judged.length > 0,
  };
}

function choicesIn({ groups }: LineNeed, byLot: boolean): number {
  return byLot ? sum(groups.map(({ lots }) => lots.length)) : groups.length;
}

/** Whether every dish costs at most its ceiling for each portion cooked. */
export function ceilingsKept(chosen: readonly Chosen[], question: Question): boolean {
  const { menu, needs } = question;
  if (menu.cookings.every(({ dish }) => dish.ceiling === null)) return true;
  const costOfGram =
    question.ceilings === "edible weight" ? realCosts(chosen, question) : leastCosts(question.scenario);
  return menu.cookings.every((cooking) => {
    const { dish, portions } = cooking;
    if (dish.ceiling === null) return true;
    let cost = new Ratio(BigInt(stapleCost(dish, portions)), 1n);
    for (const need of needs.filter((other) => other.cooking === cooking)) {
      for (const { part, lot, grams } of goingsInto(need, chosen)) {
        cost = cost.plus(costOfGram(part, lot).times(new Ratio(BigInt(grams), 1n)));
      }
    }
    return cost.atMost(new Ratio(BigInt(tenMillionths(dish.ceiling) * portions), 1n));
  });
}

function goingsInto(
  need: LineNeed,
  chosen: readonly Chosen[],
): { part: string; lot: Lot | undefined; grams: number }[] {
  const tried = chosen.flatMap(({ choice, grams }) =>
    (choice.kind === "use" || choice.kind === "group") && need.groups.includes(choice.group)
      ? [{ part: choice.group.source.part, lot: choice.kind === "use" ? choice.lot : undefined, grams }]
      : [],
  );
  if (tried.length > 0) return tried;
  const only = need.groups.find(({ lots }) => lots.length > 0);
  if (only === undefined) return [];
  return [{ part: only.source.part, lot: only.lots[0], grams: Math.round(need.least / only.rate) }];
}

type CostOfGram = (part: string, lot: Lot | undefined) => Ratio;

/** Ten-millionths of the currency unit for a gram of each lot. */
function realCosts(chosen: readonly Chosen[], { plans, scenario }: Question): CostOfGram {
  const known = new Map<Lot, Ratio>();
  const costOf = (lot: Lot): Ratio => {
    const found = known.get(lot);
    if (found !== undefined) return found;
    let money = lot.origin.startsWith("cut") ? cutMoney(lot, plans, scenario) : heldMoney(lot, scenario);
    let weight = lot.supply;
    for (const { choice, grams } of chosen) {
      if (choice.kind !== "draw" || grams === 0) continue;
      const outputs = choice.draw.outputs.map((output) => ({
        part: output.lot.part.name,
        lot: output.lot,
        grams: wholePart(grams, output.fraction),
      }));
      const own = outputs.filter((output) => output.lot === lot);
      if (own.length === 0) continue;
      weight += sum(own.map((output) => output.grams));
      const bearing = sum(bearers(outputs, scenario).map((output) => output.grams));
      const borne = sum(
        bearers(outputs, scenario)
          .filter((output) => output.lot === lot)
          .map((output) => output.grams),
      );
      if (bearing > 0)
        money = money.plus(costOf(choice.draw.from).times(new Ratio(BigInt(grams * borne), BigInt(bearing))));
    }
    const cost = weight === 0 ? NOTHING : money.times(new Ratio(1n, BigInt(weight)));
    known.set(lot, cost);
    return cost;
  };
  return (_, lot) => (lot === undefined ? NOTHING : costOf(lot));
}

/** What bears a cost: the food; where there is none, what is inedible; where there is neither, what is never eaten. */
function bearers<T extends { readonly part: string; readonly grams: number }>(
  outputs: readonly T[],
  { parts }: Scenario,
): T[] {
  const ofClass = (wanted: string): T[] =>
    outputs.filter(
      ({ part, grams }) => grams > 0 && parts.find(({ name }) => name === part)?.class === wanted,
    );
  return [ofClass("food"), ofClass("inedible"), ofClass("never")].find((some) => some.length > 0) ?? [];
}

function cutMoney(lot: Lot, plans: readonly ItemPlan[], scenario: Scenario): Ratio {
  let money = NOTHING;
  for (const plan of plans) {
    const { item, orders, cuts } = plan;
    const spend = plan.spend + Math.round(borneBy(plan, plans, scenario));
    const held = sum(item.onHand.map(({ value }) => tenMillionths(value)));
    const weight =
      orders * wholeGrams(item.orderUnit.weight) + sum(item.onHand.map((stock) => wholeGrams(stock.weight)));
    for (const { breakdown, service, grams } of cuts) {
      if (lot.origin !== `cut ${service}`) continue;
      const outputs = breakdown.yields.map(({ part, fraction }) => ({
        part,
        grams: wholePart(grams, fraction),
      }));
      const bearing = bearers(outputs, scenario);
      const borne = sum(bearing.filter(({ part }) => part === lot.part.name).map((output) => output.grams));
      const all = sum(bearing.map((output) => output.grams));
      if (borne > 0)
        money = money.plus(
          new Ratio(BigInt(spend + held) * BigInt(grams) * BigInt(borne), BigInt(weight) * BigInt(all)),
        );
    }
  }
  return money;
}

function heldMoney(lot: Lot, scenario: Scenario): Ratio {
  const stock = scenario.partsOnHand.find(
    (entry, index) => lot.origin === `on hand ${index}` && entry.part === lot.part.name,
  );
  return new Ratio(BigInt(stock === undefined ? 0 : tenMillionths(stock.value)), 1n);
}

/** Ten-millionths for a gram of each part at the least it can cost, whatever is bought, cut and worked. */
function leastCosts(scenario: Scenario): CostOfGram {
  const least = new Map<string, Ratio>();
  const offer = (part: string, cost: Ratio): boolean => {
    const found = least.get(part);
    if (found?.atMost(cost)) return false;
    least.set(part, cost);
    return true;
  };
  for (const item of scenario.items) {
    const unit = wholeGrams(item.unitWeight);
    const prices = item.onHand.map(
      ({ value, weight }) => new Ratio(BigInt(tenMillionths(value)), BigInt(wholeGrams(weight))),
    );
    if (item.buying !== null) {
      const most = item.buying.most ?? Number.POSITIVE_INFINITY;
      const reached = (item.buying.breaks ?? []).filter(({ from }) => from <= most);
      const price = reached.at(-1)?.price ?? item.buying.price;
      prices.push(new Ratio(BigInt(tenMillionths(price)), BigInt(wholeGrams(item.orderUnit.weight))));
    }
    const gram = prices.reduce((best, price) => (price.atMost(best) ? price : best), prices[0] ?? NOTHING);
    for (const { yields } of item.breakdowns) {
      const outputs = yields.map(({ part, fraction }) => ({ part, grams: wholePart(unit, fraction) }));
      const bearing = bearers(outputs, scenario);
      const all = sum(bearing.map(({ grams }) => grams));
      for (const output of outputs)
        offer(
          output.part,
          bearing.includes(output) ? gram.times(new Ratio(BigInt(unit), BigInt(all))) : NOTHING,
        );
    }
  }
  for (const { part, value, weight } of scenario.partsOnHand)
    offer(part, new Ratio(BigInt(tenMillionths(value)), BigInt(wholeGrams(weight))));
  for (let changed = true; changed; ) {
    changed = false;
    for (const { from, yields } of scenario.steps) {
      for (const source of from) {
        const cost = least.get(source);
        if (cost === undefined) continue;
        const outputs = yields.map(({ part, fraction }) => ({
          part,
          grams: wholeNumber(fraction.times(10_000), part),
        }));
        const bearing = bearers(outputs, scenario);
        const all = sum(bearing.map(({ grams }) => grams));
        for (const output of outputs) {
          const made = bearing.includes(output) ? cost.times(new Ratio(10_000n, BigInt(all))) : NOTHING;
          changed = offer(output.part, made) || changed;
        }
      }
    }
  }
  return (part) => least.get(part) ?? NOTHING;
}
