import type { Dish, RecipeLine, Scenario, Step } from "../kitchen/index.js";
import { ZERO } from "../quantity/index.js";
import { lastOfferDay } from "../safety/index.js";
import { kg, rate } from "./floats.js";
import {
  type LotGraph,
  type LotNode,
  outlastsPlan,
  servicesToWorkBefore,
  stepsFrom,
  usableAt,
} from "./lot-graph.js";

/** One dish cooked for one service. */
export interface CookingSite {
  readonly dish: Dish;
  readonly service: number;
  /** Services at which what is cooked here may be eaten, this one first. */
  readonly eatenAt: readonly number[];
  /** Most portions worth cooking: all that may be eaten and the overage, up to the next whole batch. */
  readonly mostPortions: number;
  /** Smallest number of portions cooked at a time. */
  readonly unitPortions: number;
}

export function cookingSites(scenario: Scenario): CookingSite[] {
  return scenario.dishes.flatMap((dish) =>
    dish.services.map((service) => {
      const eatenAt = servicesToEatAt(dish, service, scenario);
      const eaten = eatenAt.reduce((sum, at) => sum + mostEaten(dish, at, scenario), 0);
      const unitPortions = cookedAtATime(dish);
      const most = eaten + overagePortions(dish, service, scenario);
      return {
        dish,
        service,
        eatenAt,
        unitPortions,
        mostPortions: Math.floor(most / unitPortions) * unitPortions,
      };
    }),
  );
}

/** Portions made at one go: a batch, half of one where halves are allowed, else a single portion. */
export function cookedAtATime({ batch }: Dish): number {
  if (batch === null) return 1;
  return batch.halves ? batch.portions / 2 : batch.portions;
}

function servicesToEatAt(dish: Dish, service: number, scenario: Scenario): number[] {
  const day = scenario.services[service]?.day ?? 0;
  const last = lastOfferDay(dish.keepsDays, day, [], scenario.rules);
  return dish.services.filter((at) => {
    if (at === service) return true;
    return dish.keepsDays !== null && at > service && (scenario.services[at]?.day ?? 0) <= last;
  });
}

/** Most portions of the dish that covers may eat at the service. */
export function mostEaten(dish: Dish, service: number, scenario: Scenario): number {
  const course = courseOf(dish, service, scenario);
  return Math.min(
    dish.portions?.most ?? Number.POSITIVE_INFINITY,
    course?.portions ?? Number.POSITIVE_INFINITY,
  );
}

export function courseOf(dish: Dish, service: number, scenario: Scenario) {
  return scenario.services[service]?.courses.find(({ name }) => name === dish.course);
}

/** Portions that may be cooked over those eaten: of the course where there is one, else of the dish. */
export function overagePortions(dish: Dish, service: number, scenario: Scenario): number {
  const base = courseOf(dish, service, scenario)?.portions ?? dish.portions?.most ?? 0;
  return Math.floor(rate(scenario.services[service]?.overage.times(base) ?? ZERO));
}

/** Kilograms of a part that one portion's line may take at most. */
export function mostPerPortion(line: RecipeLine, part: string): number {
  const source = line.from.find((from) => from.part === part);
  if (source === undefined) return 0;
  return (rate(source.mostShare) * kg(line.most)) / (rate(source.rate) * rate(line.cookingYield));
}

/** Most kilograms of each lot that any plan has a use for: dishes, further steps and permitted stock. */
export interface Demand {
  of(lot: LotNode): number;
  /** Of it, what a step takes for the sake of what it gives. */
  through(step: Step, lot: LotNode): number;
}

export function reachableDemand(
  scenario: Scenario,
  lotGraph: LotGraph,
  sites: readonly CookingSite[],
): Demand {
  const known = new Map<LotNode, number>();
  const demand: Demand = {
    of: (lot) => known.get(lot) ?? 0,
    through: (step, lot) => {
      const { yields, capacity } = step;
      const times = servicesToWorkBefore(step, lot, scenario).length;
      const wanted = yields.map(({ part, fraction }) => {
        const output = lotGraph.lot(part, lot.origin);
        return output === undefined || fraction.isZero() ? 0 : demand.of(output) / rate(fraction);
      });
      return Math.min(
        capacity === null ? Number.POSITIVE_INFINITY : times * kg(capacity),
        Math.max(0, ...wanted),
      );
    },
  };
  for (const lot of [...lotGraph.lots].reverse()) {
    const further = stepsFrom(lot.part, scenario).reduce(
      (sum, step) => sum + inPieces(lot, demand.through(step, lot)),
      0,
    );
    known.set(lot, dishDemand(lot, scenario, sites) + carryDemand(lot, scenario) + further);
  }
  return demand;
}

function dishDemand(lot: LotNode, scenario: Scenario, sites: readonly CookingSite[]): number {
  let sum = 0;
  for (const site of sites) {
    if (!usableAt(lot, site.service, scenario)) continue;
    for (const line of site.dish.lines) {
      sum += inPieces(lot, mostPerPortion(line, lot.part) * site.mostPortions);
    }
  }
  return sum;
}

/** What moves whole is wanted in whole pieces. */
function inPieces({ kind }: LotNode, amount: number): number {
  if (kind.pieceWeight === null) return amount;
  const piece = kg(kind.pieceWeight);
  return Math.ceil(amount / piece - 1e-9) * piece;
}

function carryDemand(lot: LotNode, scenario: Scenario): number {
  const { carry } = lot.kind;
  return carry !== null && outlastsPlan(lot, scenario) ? kg(carry.limit) : 0;
}
