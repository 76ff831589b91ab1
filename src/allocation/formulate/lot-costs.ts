import {
  COSTING_METHODS,
  type Item,
  isMainPart,
  type Lot,
  lotKey,
  lotName,
  type Part,
} from "../../kitchen/index.js";
import { NO_MONEY } from "../../quantity/index.js";
import { bearingYieldOf, costWhenCut, partsByName, trimCreditOf } from "../costs.js";
import { currency, kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { Sum } from "../model.js";
import { type BuildContext, type CutHandle, weightInUnit } from "./context.js";
import { type OrderBands, orderBands, type UnitCost, unitCostsOf } from "./unit-costs.js";

/** What all cuts that give a lot cost, at most, for what bears that cost; and what a kilogram of it can cost. */
export interface LotCost {
  /** Currency units. */
  readonly total: Sum;
  /** The total is no farther than this from zero. */
  readonly farthest: number;
  /** Kilograms. */
  readonly weight: Sum;
  /** Each that a kilogram can cost by one way of cutting alone, at what a unit can cost. */
  readonly perKilogram: readonly number[];
  /** The cuts that give the lot, where the total is not of it alone, but of all that bears what credits leave. */
  readonly shared: readonly Giving[];
}

/** A cut with the kilograms in a unit of what bears the cost. */
export interface Giving extends CutHandle {
  readonly weight: number;
}

/** What cuts of an item cost at what a unit costs, in all and a kilogram of each. */
interface CostOfCuts {
  readonly weight: Sum;
  readonly at: (perUnit: number) => Sum;
  readonly perKilogram: (perUnit: number) => readonly number[];
}

type Parts = ReadonlyMap<string, Part>;

/**
 * Costs of lots, with the variables and rows that they need, added when a lot is first asked for. What a part costs
 * depends on how its item is cut and on what is bought; a lot from two ways of cutting costs their average.
 */
export class LotCosts {
  readonly #context: BuildContext;
  readonly #parts: Parts;
  readonly #bandsOf: OrderBands;
  readonly #unitCosts = new Map<Item, readonly UnitCost[]>();
  readonly #known = new Map<string, LotCost | null>();

  constructor(context: BuildContext) {
    this.#context = context;
    this.#parts = partsByName(context.scenario);
    this.#bandsOf = orderBands(context);
  }

  /** The cost of what is cut of a lot; null where no cut gives any. */
  ofCuts(lot: Lot): LotCost | null {
    const key = lotKey(lot);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const cost = this.#costOf(lot);
    this.#known.set(key, cost);
    return cost;
  }

  /** Holds the average cost of a lot, and of what it is made of. */
  hold(lot: Lot, most: number): void {
    const { scenario, builder } = this.#context;
    const cost = this.ofCuts(lot);
    if (cost !== null) {
      const sum = new Sum().addSum(cost.total).addSum(cost.weight, -most);
      const name = `${lotName(scenario, lot)} within ${most.toFixed(4)} a kilogram`;
      builder.row({ family: "average cost", part: lot.part }, name, sum, { upper: 0 });
    }
    for (const { part, bearing } of this.#sourcesOf(lot.part)) this.hold({ ...lot, part }, most * bearing);
  }

  /** What a kilogram of a lot can cost, cut and made in one way alone; what it is mixed of costs something between. */
  perKilogram(lot: Lot): readonly number[] {
    const made = this.#sourcesOf(lot.part).flatMap(({ part, bearing }) =>
      this.perKilogram({ ...lot, part }).map((cost) => cost / bearing),
    );
    const found = this.ofStock(lot);
    return [...(this.ofCuts(lot)?.perKilogram ?? []), ...(found === null ? [] : [found]), ...made];
  }

  /** What a kilogram of stock is valued at; null where a lot is not stock as it was found. */
  ofStock({ part, origin }: Lot): number | null {
    const stock = origin.kind === "onHand" ? this.#context.scenario.partsOnHand[origin.index] : undefined;
    return stock?.part === part ? currency(stock.value) / kg(stock.weight) : null;
  }

  /** What steps make a part of, with the part of a weight taken that bears its cost; what bears none costs nothing. */
  #sourcesOf(part: string): { readonly part: string; readonly bearing: number }[] {
    return this.#context.scenario.steps.flatMap((step) => {
      const isMade = step.yields.some((made) => made.part === part);
      const bearing = isMade ? bearingYieldOf(step, part, this.#parts) : 0;
      return bearing === 0 ? [] : step.from.map((from) => ({ part: from, bearing }));
    });
  }

  #costOf(lot: Lot): LotCost | null {
    const byItem = [...groupBy(this.#givingsOf(lot), ({ item }) => item).entries()];
    if (byItem.length === 0) return null;
    const [first] = byItem;
    const isRest = byItem.length === 1 && first !== undefined && this.#bearsTheRest(first[0], lot.part);
    const costs = byItem.map(([item, givings]) =>
      this.#atMost(lot, item, isRest ? this.#restOf(item) : this.#cutsOf(lot, givings)),
    );
    const all = { total: new Sum(), weight: new Sum() };
    for (const { total, weight } of costs) {
      all.total.addSum(total);
      all.weight.addSum(weight);
    }
    const farthest = costs.reduce((sum, cost) => sum + cost.farthest, 0);
    const shared = isRest ? [...first[1]] : [];
    return { ...all, farthest, perKilogram: costs.flatMap(({ perKilogram }) => perKilogram), shared };
  }

  /** A cost by cuts, whatever a unit costs: one variable that is no less than any of them where they are paid. */
  #atMost(lot: Lot, item: Item, { weight, at, perKilogram: costsAt }: CostOfCuts): Omit<LotCost, "shared"> {
    const { scenario, builder } = this.#context;
    const costs = this.#unitCostsOf(item);
    const perKilogram = costs.flatMap(({ perUnit }) => costsAt(perUnit)).map((cost) => Math.max(0, cost));
    const reach = (terms: Sum): number =>
      terms
        .terms()
        .reduce((all, term) => all + Math.abs(term.coefficient) * builder.upperOf(term.variable), 0);
    const farthest = Math.max(0, ...costs.map(({ perUnit }) => reach(at(perUnit))));
    const [only] = costs;
    if (costs.length < 2) return { total: at(only?.perUnit ?? 0), farthest, weight, perKilogram };
    const tag = { family: "average cost", item: item.name, part: lot.part };
    const name = `cost of ${lotName(scenario, lot)} of ${item.name}`;
    const cost = builder.variable(tag, name, farthest, { lower: -farthest });
    for (const { perUnit, where } of costs) {
      const over = new Sum().add(cost, 1).addSum(at(perUnit), -1);
      for (const isSo of where.flat()) over.add(isSo, -2 * farthest);
      builder.row(tag, `${name} at ${perUnit.toFixed(4)}`, over, { lower: -2 * farthest * where.length });
    }
    return { total: new Sum().add(cost, 1), farthest, weight, perKilogram };
  }

  #unitCostsOf(item: Item): readonly UnitCost[] {
    const costs = this.#unitCosts.get(item) ?? unitCostsOf(item, this.#bandsOf, this.#context);
    this.#unitCosts.set(item, costs);
    return costs;
  }

  #givingsOf({ part, origin }: Lot): Giving[] {
    if (origin.kind !== "cut") return [];
    return this.#context.handles.cuts.flatMap((cut) => {
      const weight = weightInUnit(cut, part);
      return cut.service !== origin.service || weight === null ? [] : [{ ...cut, weight }];
    });
  }

  #cutsOf({ part }: Lot, givings: readonly Giving[]): CostOfCuts {
    const { scenario } = this.#context;
    const cost = ({ item, breakdown }: Giving, perUnit: number): number =>
      costWhenCut(item, breakdown, part, { perUnit, scenario });
    const weight = new Sum();
    for (const giving of givings) weight.add(giving.variable, giving.weight);
    return {
      weight,
      at: (perUnit) =>
        givings.reduce((all, each) => all.add(each.variable, each.weight * cost(each, perUnit)), new Sum()),
      perKilogram: (perUnit) => givings.map((each) => cost(each, perUnit)),
    };
  }

  /** Whether a part bears, by credits, what is left of the item's cost when its by-products are credited. */
  #bearsTheRest({ breakdowns }: Item, part: string): boolean {
    return (
      COSTING_METHODS[this.#context.scenario.costing].credits &&
      this.#isMain(part) &&
      breakdowns.every(({ yields }) => yields.some((given) => this.#isMain(given.part)))
    );
  }

  #isMain(part: string): boolean {
    const kind = this.#parts.get(part);
    return kind !== undefined && isMainPart(kind);
  }

  /** By credits, all cuts of an item together bear what its by-products are not credited with. */
  #restOf(item: Item): CostOfCuts {
    const unit = kg(item.unitWeight);
    const ofItem = this.#context.handles.cuts.filter((cut) => cut.item === item);
    const givings = ofItem.map(({ breakdown, variable }) => {
      const main = breakdown.yields.filter(({ part }) => this.#isMain(part));
      const weight = main.reduce((sum, { fraction }) => sum + rate(fraction) * unit, 0);
      return { variable, weight, credit: trimCreditOf(breakdown, this.#parts) * unit };
    });
    const weight = new Sum();
    for (const giving of givings) weight.add(giving.variable, giving.weight);
    const lost = this.#creditsLost(item);
    return {
      weight,
      at: (perUnit) =>
        givings
          .reduce((all, { variable, credit }) => all.add(variable, perUnit - credit), new Sum())
          .addSum(lost),
      perKilogram: (perUnit) =>
        givings.flatMap(({ weight: main, credit }) => [(perUnit - credit) / main, perUnit / main]),
    };
  }

  /**
   * Credits that an item's by-products do not earn, as they are wasted. One that comes some other way too is taken to
   * be used: which of it was wasted, no row can say.
   */
  #creditsLost(item: Item): Sum {
    const { scenario, handles } = this.#context;
    const given = (each: Item): string[] =>
      each.breakdowns.flatMap(({ yields }) => yields.map(({ part }) => part));
    const own = new Set(given(item));
    for (const made of scenario.steps.flatMap(({ yields }) => yields)) own.delete(made.part);
    for (const part of scenario.items.filter((other) => other !== item).flatMap(given)) own.delete(part);
    const credit = ({ part, origin }: Lot): number =>
      origin.kind === "cut" && own.has(part) ? currency(this.#parts.get(part)?.marketValue ?? NO_MONEY) : 0;
    const lost = new Sum();
    for (const { lot, variable } of handles.wastes) lost.add(variable, credit(lot));
    for (const { lot, sum } of handles.thrown) lost.addSum(sum, credit(lot));
    return lost;
  }
}
