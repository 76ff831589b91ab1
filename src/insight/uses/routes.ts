import { buildLotGraph, type LotNode } from "../../allocation/index.js";
import type { Scenario, Step } from "../../kitchen/index.js";
import { Decimal, ONE, toGrams } from "../../quantity/index.js";

/** A part that an offcut is, or can be made into by allowed steps, with its own last day. */
export interface Route {
  readonly lot: LotNode;
  /** Grams of it from one gram of the offcut. */
  readonly yield: Decimal;
  /** The steps on the way, in order; none where it goes as it is. */
  readonly steps: readonly Step[];
  /** Most grams of the offcut that the steps can take before one service; null where no pot limits it. */
  readonly most: Decimal | null;
}

/** Everything one entry of the stock on hand can become, by the way that loses least of it. */
export function routesFrom(stock: number, scenario: Scenario): Route[] {
  const part = scenario.partsOnHand[stock]?.part ?? "";
  const routes = new Map<string, Route>();
  // In cutting order a step's source comes before what it gives, so one pass finds every best way.
  for (const lot of buildLotGraph(scenario).lots) {
    if (lot.origin.kind !== "onHand" || lot.origin.index !== stock) continue;
    if (lot.part === part) routes.set(part, { lot, yield: ONE, steps: [], most: null });
    for (const step of scenario.steps) {
      const given = step.yields.find((made) => made.part === lot.part);
      if (given === undefined || given.fraction.isZero()) continue;
      for (const source of step.from) {
        const before = routes.get(source);
        if (before === undefined) continue;
        const found = {
          lot,
          yield: before.yield.times(given.fraction),
          steps: [...before.steps, step],
          most: smaller(before.most, step.capacity && toGrams(step.capacity).div(before.yield)),
        };
        const known = routes.get(lot.part);
        if (known === undefined || found.yield.gt(known.yield)) routes.set(lot.part, found);
      }
    }
  }
  return [...routes.values()];
}

function smaller(one: Decimal | null, other: Decimal | null): Decimal | null {
  return one === null || other === null ? (one ?? other) : Decimal.min(one, other);
}
