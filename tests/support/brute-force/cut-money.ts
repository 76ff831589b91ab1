import type { Part, Scenario } from "../../../src/kitchen/index.js";
import type { ItemPlan } from "./item-plans.js";
import { sum } from "./item-plans.js";
import type { Lot } from "./lots.js";
import { borneBy } from "./orders.js";
import type { Question } from "./question.js";
import { perGram, Ratio, tenMillionths, wholeGrams, wholePart } from "./whole.js";

export const NOTHING = new Ratio(0n, 1n);

interface Given {
  readonly part: string;
  readonly service: number;
  readonly grams: number;
}

/** What a gram of a lot, used, takes off of each gram of another. */
interface Credit {
  readonly lot: Lot;
  readonly perGram: number;
}

/**
 * What the parts of the cuts cost, by edible weight, by trim credit or by sales value: an item's cost goes by weight
 * over all that becomes of it, and what its cuts bear is shared among what they give.
 */
export class CutMoney {
  constructor(private readonly question: Question) {}

  /** Ten-millionths of the currency unit borne by all of a lot that was cut, before credits take off of it. */
  of(lot: Lot): Ratio {
    return this.question.plans.reduce((money, plan) => money.plus(this.borne(plan, lot)), NOTHING);
  }

  /** By trim credit: what is credited where it is used, and so not borne by a main part's lot. */
  creditsBehind(lot: Lot): Credit[] {
    const { plans, scenario, lots, draws } = this.question;
    if (scenario.costing !== "trim credit" || !lot.origin.startsWith("cut")) return [];
    const behind = plans.filter((plan) => givenBy(plan).some((given) => isOf(given, lot)));
    return behind.flatMap((plan) => {
      const given = givenBy(plan);
      const mains = given.filter(({ part }) => isMain(part, scenario));
      if (!mains.some((each) => isOf(each, lot))) return [];
      const credited = lots.filter(
        (other) => isCredited(other.part) && given.some((each) => isOf(each, other)),
      );
      const mixed = (other: Lot): boolean =>
        behind.length > 1 ||
        plans.some((rival) => rival !== plan && givenBy(rival).some((each) => isOf(each, other))) ||
        draws.some(({ outputs }) => outputs.some((output) => output.lot === other));
      if ([lot, ...credited].some(mixed))
        throw new RangeError("the referee credits the trim of one item only");
      const all = sum(mains.map(({ grams }) => grams));
      return credited.map((other) => ({
        lot: other,
        perGram: creditOf(other.part) / all,
      }));
    });
  }

  private borne(plan: ItemPlan, lot: Lot): Ratio {
    const { scenario } = this.question;
    const given = givenBy(plan);
    const all = given.filter(({ part }) => isMain(part, scenario));
    if (scenario.costing === "trim credit" && all.length > 0) {
      if (isCredited(lot.part) && given.some((each) => isOf(each, lot)))
        return new Ratio(BigInt(creditOf(lot.part) * gramsOf(given, lot)), 1n);
      const cut = sum(plan.cuts.map(({ grams }) => grams));
      return this.costOf(plan, cut).times(share(all, lot));
    }
    const bySales = scenario.costing !== "edible weight";
    return plan.cuts.reduce((money, cut) => {
      const outputs = cut.breakdown.yields.map(({ part, fraction }) => ({
        part,
        service: cut.service,
        grams: wholePart(cut.grams, fraction),
      }));
      const valued = bySales ? outputs.map((each) => ({ ...each, grams: worthOf(each, scenario) })) : [];
      const bearing = valued.some(({ grams }) => grams > 0) ? valued : bearers(outputs, scenario);
      return bearing.length === 0
        ? money
        : money.plus(this.costOf(plan, cut.grams).times(share(bearing, lot)));
    }, NOTHING);
  }

  /** What so many grams of an item cost, of all that was bought and on hand, its share of charges included. */
  private costOf(plan: ItemPlan, grams: number): Ratio {
    const { plans, scenario } = this.question;
    const { item, orders } = plan;
    const held = sum(item.onHand.map(({ value }) => tenMillionths(value)));
    const weight =
      orders * wholeGrams(item.orderUnit.weight) + sum(item.onHand.map((stock) => wholeGrams(stock.weight)));
    const paid = plan.spend + Math.round(borneBy(plan, plans, scenario)) + held;
    return weight === 0 ? NOTHING : new Ratio(BigInt(paid) * BigInt(grams), BigInt(weight));
  }
}

/** What bears a cost: the food; where there is none, what is inedible; where there is neither, what is never eaten. */
export function bearers<T extends { readonly part: string; readonly grams: number }>(
  outputs: readonly T[],
  { parts }: Scenario,
): T[] {
  const ofClass = (wanted: string): T[] =>
    outputs.filter(
      ({ part, grams }) => grams > 0 && parts.find(({ name }) => name === part)?.class === wanted,
    );
  return [ofClass("food"), ofClass("inedible"), ofClass("never")].find((some) => some.length > 0) ?? [];
}

function share(bearing: readonly Given[], lot: Lot): Ratio {
  const all = sum(bearing.map(({ grams }) => grams));
  return all === 0 ? NOTHING : new Ratio(BigInt(gramsOf(bearing, lot)), BigInt(all));
}

function gramsOf(given: readonly Given[], lot: Lot): number {
  return sum(given.filter((each) => isOf(each, lot)).map(({ grams }) => grams));
}

function givenBy({ cuts }: ItemPlan): Given[] {
  return cuts
    .flatMap(({ breakdown, service, grams }) =>
      breakdown.yields.map(({ part, fraction }) => ({ part, service, grams: wholePart(grams, fraction) })),
    )
    .filter(({ grams }) => grams > 0);
}

function isOf({ part, service }: Given, lot: Lot): boolean {
  return lot.part.name === part && lot.origin === `cut ${service}`;
}

function partNamed(name: string, { parts }: Scenario): Part | undefined {
  return parts.find((part) => part.name === name);
}

function isMain(name: string, scenario: Scenario): boolean {
  const part = partNamed(name, scenario);
  return part?.class === "food" && part.marketValue === null;
}

/** Ten-millionths that a gram used is credited with. */
function creditOf({ marketValue }: Part): number {
  return marketValue === null ? 0 : perGram(marketValue);
}

function isCredited({ class: kind, marketValue }: Part): boolean {
  return kind !== "never" && marketValue !== null;
}

function worthOf({ part: name, grams }: Given, scenario: Scenario): number {
  const part = partNamed(name, scenario);
  return part === undefined || part.class === "never" || part.marketValue === null
    ? 0
    : grams * perGram(part.marketValue);
}
