import type { PlanJson } from "../../contract/index.js";
import type { Decision, Scenario } from "../../kitchen/index.js";
import { Decimal } from "../../quantity/index.js";
import { type MoreUnits, moreUnits, type Step } from "./more-units.js";
import { recut } from "./recutting.js";
import { Serving, tally } from "./serving.js";
import { layOut } from "./simulation.js";

/** How sure a plan is: what its dishes may lack when yields and unit weights are not as planned. */
export interface Risk {
  readonly seed: number;
  readonly draws: number;
  /** One a dish and service, in the order of the services and the dishes. */
  readonly dishes: readonly DishRisk[];
}

export interface DishRisk {
  readonly dish: string;
  readonly service: number;
  /** Portions that covers eat. */
  readonly portions: number;
  /** The part of the draws in which less than these could be given in full. */
  readonly chanceShort: number;
  /** Portions missing in the mean of all draws. */
  readonly expectedShort: number;
  /** In nineteen of twenty draws no more portions are missing than this. */
  readonly mostShort: number;
  /** What buys each of the chances asked; empty units where the plan has it already. None for very large plans. */
  readonly more: readonly Step[];
}

export interface RiskOptions {
  readonly seed?: number;
  readonly draws?: number;
  /** Seconds allowed for the whole plan: with few, fewer draws are made unless their number is stated. */
  readonly seconds?: number;
}

/** The chances that more units are sought for. */
const LEVELS = [0.9, 0.95, 0.99];
const SEED = 1;
const DRAWS = 10_000;
/** Where little time is allowed, so many for each second of it. */
const DRAWS_A_SECOND = 1_250;
/** More units are sought on so many of the draws, and on fewer for a plan of many dishes and lots. */
const DRAWS_FOR_MORE = 4_000;
/** Dishes times lots and goings times draws, in that search. */
const MOST_SEARCHED = 12_000_000;
/** On fewer draws than this it says nothing, and more units are not sought. */
const LEAST_DRAWS_FOR_MORE = 400;
/** Numbers kept at once; a plan with more cuts is drawn less often. */
const MOST_NUMBERS = 12_000_000;
const NINETEEN_IN_TWENTY = 0.95;

/**
 * Re-cuts and serves a plan as often as asked, each time with other unit weights and yields: the chance of falling
 * short by dish, how far, and what more to buy. The same seed gives the same figures. Cooking losses are taken as
 * stated, and what is on hand is taken as weighed.
 */
export function riskOf(decision: Decision, scenario: Scenario, options: RiskOptions = {}): Risk {
  const { seed = SEED, seconds = Number.POSITIVE_INFINITY } = options;
  const asked = options.draws ?? Math.min(DRAWS, Math.floor(DRAWS_A_SECOND * seconds));
  const layout = layOut(decision, scenario);
  const draws = Math.max(100, Math.min(asked, Math.floor(MOST_NUMBERS / Math.max(1, layout.columns))));
  const serving = new Serving(layout, recut(layout, scenario, seed, draws));
  const all = layout.cookings.map((_, index) => index);
  const every = Array.from({ length: draws }, (_, draw) => draw);
  const size = layout.cookings.length * (layout.lots.length + decision.goings.length);
  const tried = Math.min(draws, DRAWS_FOR_MORE, Math.floor(MOST_SEARCHED / Math.max(1, size)));
  const isSearched = tried >= Math.min(draws, LEAST_DRAWS_FOR_MORE);
  const trial = { serving, layout, scenario, draws: tried };
  const dishes = tally(serving, layout, every, all, []).map((first, index): DishRisk => {
    const { dish, service, eaten } = layout.cookings[index] ?? { dish: "", service: 0, eaten: 0 };
    const { short, portions } = first;
    return {
      dish,
      service,
      portions: eaten,
      chanceShort: short.length / draws,
      expectedShort: portions.reduce((sum, missing) => sum + missing, 0) / draws,
      mostShort: quantile(portions, draws, NINETEEN_IN_TWENTY),
      more: isSearched
        ? moreUnits(index, { ...first, short: short.filter((draw) => draw < tried) }, LEVELS, trial)
        : [],
    };
  });
  return { seed, draws, dishes: dishes.sort((a, b) => a.service - b.service) };
}

/** The least number that so many of the draws do not exceed, those not listed being 0. */
function quantile(above: readonly number[], draws: number, part: number): number {
  const rank = Math.ceil(part * draws) - 1 - (draws - above.length);
  return rank < 0 ? 0 : ([...above].sort((a, b) => a - b)[rank] ?? 0);
}

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

export function decimalText(value: number, places: number): string {
  return new Decimal(value.toFixed(places)).toFixed(places);
}
