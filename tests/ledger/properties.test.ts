import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CostingName, Decision, Scenario } from "../../src/kitchen/index.js";
import { CostingError, keepLedger, type Ledger, LedgerError } from "../../src/ledger/index.js";
import { milligrams, NO_MONEY, plus, tenThousandths, total } from "../../src/quantity/index.js";
import { type RandomPlan, randomPlan } from "../support/random-decision.js";

const SEED = 20261002;
const RUNS = 500;
console.info(`ledger properties: seed ${SEED}, ${RUNS} runs each`);

function holds(property: fc.IPropertyWithHooks<[RandomPlan]>): void {
  fc.assert(property, { seed: SEED, numRuns: RUNS });
}

const METHODS: readonly CostingName[] = ["edible weight", "trim credit", "sales value"];

/** The ledger by a method; sales value is given the market values it asks for. Null: credits were refused. */
function keptBy(costing: CostingName, scenario: Scenario, decision: Decision): Ledger | null {
  const parts = scenario.parts.map((part) =>
    costing === "sales value" ? { ...part, marketValue: part.marketValue ?? tenThousandths(7_000n) } : part,
  );
  try {
    return keepLedger({ ...scenario, costing, parts }, decision);
  } catch (error) {
    if (error instanceof CostingError && costing === "trim credit") {
      for (const problem of error.problems)
        expect(problem.code === "costing/credits-above-cost" && problem.credits > problem.jointCost).toBe(
          true,
        );
      return null;
    }
    throw error;
  }
}

/** A random plan whose purchases bear odd shares of delivery charges. */
const deliveredPlan = () =>
  randomPlan().map(({ decision, ...plan }) => ({
    ...plan,
    decision: {
      ...decision,
      purchases: decision.purchases.map((purchase, index) =>
        index % 2 === 0 ? { ...purchase, delivery: tenThousandths(3_333n + BigInt(index)) } : purchase,
      ),
    },
  }));

/** Totals rebuilt from account names alone. */
function rebuilt(ledger: Ledger, measure: "weight" | "money") {
  const moved = (side: "from" | "to", ...prefixes: string[]) =>
    ledger.transfers
      .filter((transfer) => prefixes.some((prefix) => transfer[side].startsWith(prefix)))
      .reduce((sum, transfer) => sum + transfer[measure], 0n);
  return {
    into: (...names: string[]) => moved("to", ...names),
    outOf: (...names: string[]) => moved("from", ...names),
  };
}

describe("whatever is decided, by every costing method", () => {
  it("the weight identity holds to the milligram, and every total is the sum of its own transfers", () => {
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        for (const method of METHODS) {
          const ledger = keptBy(method, scenario, decision);
          if (ledger === null) continue;
          const { into, outOf } = rebuilt(ledger, "weight");
          const { avoidablePeel, ...weights } = ledger.weights;
          expect(weights).toEqual({
            purchased: outOf("supplier"),
            onHand: outOf("onHand"),
            absorbed: outOf("water"),
            inDishes: into("dish:") - outOf("dish:"),
            givenAway: into("givenAway:"),
            closingStock: into("closingStock"),
            wastedFood: into("wastedFood:"),
            inedible: into("inedible:"),
            losses: into("loss:"),
          });
          expect(weights.purchased + weights.onHand + weights.absorbed).toBe(
            weights.inDishes +
              weights.givenAway +
              weights.closingStock +
              weights.wastedFood +
              weights.inedible +
              weights.losses,
          );
          expect(avoidablePeel >= 0n && avoidablePeel <= weights.inedible).toBe(true);
        }
      }),
    );
  });

  it("the money identity holds to the ten-thousandth, and every total is the sum of its own transfers", () => {
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        for (const method of METHODS) {
          const ledger = keptBy(method, scenario, decision);
          if (ledger === null) continue;
          const { into, outOf } = rebuilt(ledger, "money");
          const { money } = ledger;
          expect(money).toEqual({
            spent: outOf("supplier") + outOf("staples"),
            stockValue: outOf("onHand"),
            inDishes: into("dish:") - outOf("dish:"),
            givenAway: into("givenAway:"),
            closingStock: into("closingStock"),
            wasted: into("wastedFood:", "inedible:", "loss:"),
          });
          expect(money.spent + money.stockValue).toBe(
            money.inDishes + money.givenAway + money.closingStock + money.wasted,
          );
        }
      }),
    );
  });

  it("items and parts end empty, nothing moves backwards and water brings no money", () => {
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        for (const method of METHODS) {
          const standing = new Map<string, [bigint, bigint]>();
          for (const { from, to, weight, money } of keptBy(method, scenario, decision)?.transfers ?? []) {
            expect(weight >= 0n && money >= 0n && weight + money > 0n).toBe(true);
            if (from === "water") expect(money).toBe(0n);
            if (from === "staples") expect(weight).toBe(0n);
            const [out, paid] = standing.get(from) ?? [0n, 0n];
            standing.set(from, [out - weight, paid - money]);
            const [come, got] = standing.get(to) ?? [0n, 0n];
            standing.set(to, [come + weight, got + money]);
          }
          for (const [account, balance] of standing)
            if (/^(item|part):/.test(account)) expect([account, balance]).toEqual([account, [0n, 0n]]);
        }
      }),
    );
  });

  it("all methods move the same weights and the same money in all", () => {
    let compared = 0;
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        const [edible, ...others] = METHODS.map((method) => keptBy(method, scenario, decision));
        for (const other of others) {
          if (edible === undefined || edible === null || other === null) continue;
          compared++;
          expect(other.weights).toEqual(edible.weights);
          expect(other.money.spent).toBe(edible.money.spent);
          expect(other.money.stockValue).toBe(edible.money.stockValue);
        }
      }),
    );
    expect(compared).toBeGreaterThan(1.5 * RUNS);
  });

  it("totals agree with the decision itself", () => {
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        const { weights, money, transfers } = keepLedger(scenario, decision);
        const kind = (name: string) => scenario.parts.find((part) => part.name === name)?.class;
        const sum = (entries: readonly { weight: bigint }[]) =>
          entries.reduce((acc, { weight }) => acc + weight, 0n);
        const fromBins = transfers.filter(
          ({ cause, to }) => cause.startsWith("binned") && !to.startsWith("part:"),
        );
        expect(sum(fromBins)).toBe(sum(decision.binned));
        expect(weights.purchased).toBe(sum(decision.purchases));
        expect(weights.closingStock).toBe(sum(decision.kept) + sum(decision.keptItems));
        expect(weights.inedible).toBe(
          sum(decision.sends.filter(({ lot }) => kind(lot.part) !== "food")) +
            sum(fromBins.filter(({ to }) => to.startsWith("inedible:"))),
        );
        const bought = total(
          decision.purchases.flatMap(({ cost, delivery }) => [cost, delivery ?? NO_MONEY]),
        );
        expect(money.spent >= bought).toBe(true);
        const staples = transfers.filter(({ from }) => from === "staples");
        expect(money.spent).toBe(plus(bought, total(staples.map((transfer) => transfer.money))));
      }),
    );
  });

  it("dishes cost what went into them: eaten, eaten later or spare", () => {
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        for (const method of METHODS) {
          const ledger = keptBy(method, scenario, decision);
          if (ledger === null) continue;
          const spare = ledger.transfers.filter(({ cause }) => cause === "spare portions");
          const cooked = ledger.dishCosts;
          expect(cooked.map(({ dish, service, portions }) => [dish, service, portions])).toEqual(
            decision.cookings.map(({ dish, service, portions }) => [dish, service, portions]),
          );
          expect(total(cooked.map(({ cost }) => cost))).toBe(
            plus(ledger.money.inDishes, total(spare.map(({ money }) => money))),
          );
          expect(total(cooked.map(({ weight }) => weight))).toBe(
            plus(ledger.weights.inDishes, total(spare.map(({ weight }) => weight))),
          );
        }
      }),
    );
  });
});

describe("a decision that does not close", () => {
  type Break = (decision: Decision) => Decision | null;
  const heavier = <T extends { readonly weight: bigint }>(entries: readonly T[]): readonly T[] | null => {
    const [first, ...rest] = entries;
    return first === undefined ? null : [{ ...first, weight: milligrams(first.weight + 1n) }, ...rest];
  };
  const breaking =
    (list: "purchases" | "cuts" | "binned" | "keptItems" | "preps" | "goings" | "sends" | "kept"): Break =>
    (decision) => {
      const broken = heavier<{ readonly weight: bigint }>(decision[list]);
      return broken === null ? null : { ...decision, [list]: broken };
    };
  const breaks: readonly [string, Break][] = [
    ...(["purchases", "cuts", "binned", "keptItems", "preps", "goings", "sends", "kept"] as const).map(
      (list): [string, Break] => [list, breaking(list)],
    ),
    [
      "cookings",
      (decision) => {
        const [first, ...rest] = decision.cookings;
        if (first === undefined) return null;
        return { ...decision, cookings: [{ ...first, portions: first.portions + 1 }, ...rest] };
      },
    ],
  ];

  it("is refused when any entry of any list is a milligram or a portion too much", () => {
    const tried = new Map(breaks.map(([list]) => [list, 0]));
    holds(
      fc.property(deliveredPlan(), ({ scenario, decision }) => {
        for (const [list, broken] of breaks) {
          const wrong = broken(decision);
          if (wrong === null) continue;
          tried.set(list, (tried.get(list) ?? 0) + 1);
          expect(() => keepLedger(scenario, wrong), list).toThrow(LedgerError);
        }
      }),
    );
    for (const [list, times] of tried) expect(times, list).toBeGreaterThan(RUNS / 5);
  });
});
