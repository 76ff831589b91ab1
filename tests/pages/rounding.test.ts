import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodePlan } from "../../src/contract/index.js";
import { flowTotal, movementsOf } from "../../src/pages/movements.js";
import { type Flow, roundedFlows } from "../../src/pages/rounding.js";
import { isKind } from "../../src/pages/view.js";
import { grams, milligrams, roundTogether, total, type Weight } from "../../src/quantity/index.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";

const SEED = 1847;
console.info(`rounding properties: seed ${SEED}`);

/** A ledger of a few items cut into parts that go into dishes and bins, with weights to the milligram. */
const ledger: fc.Arbitrary<Flow[]> = fc
  .array(
    fc.array(fc.array(fc.bigInt({ min: 0n, max: 99_999n }), { minLength: 1, maxLength: 4 }), {
      minLength: 1,
      maxLength: 5,
    }),
    {
      minLength: 1,
      maxLength: 4,
    },
  )
  .map((items) => {
    const flows: Flow[] = [];
    const ends = ["dish:soup @ lunch", "wastedFood:bin", "inedible:bin", "givenAway:staff", "loss:cooking"];
    items.forEach((parts, item) => {
      parts.forEach((goings, part) => {
        const sum = goings.reduce((acc, weight) => acc + weight, 0n);
        flows.push({ from: `item:${item}`, to: `part:${item} ${part}`, weight: milligrams(sum) });
        goings.forEach((weight, index) => {
          const to = ends[(item + part + index) % ends.length] ?? "closingStock";
          flows.push({ from: `part:${item} ${part}`, to, weight: milligrams(weight) });
        });
      });
      const whole = parts.flat().reduce((acc, weight) => acc + weight, 0n);
      flows.push({ from: "supplier", to: `item:${item}`, weight: milligrams(whole + 7n) });
      flows.push({ from: `item:${item}`, to: "loss:cutting", weight: milligrams(7n) });
    });
    return flows;
  });

const net = (flows: readonly Flow[], account: string) =>
  total(flows.filter(({ to }) => to === account).map(({ weight }) => weight)) -
  total(flows.filter(({ from }) => from === account).map(({ weight }) => weight));

describe("weights rounded for print", () => {
  it.each([1000n, 500n, 5000n, 7087n])("close in every item and part, in steps of %s mg", (step) => {
    fc.assert(
      fc.property(ledger, (exact) => {
        const rounded = roundedFlows(exact, milligrams(step));
        rounded.forEach(({ weight }, index) => {
          expect(weight % step).toBe(0n);
          expect(weight >= 0n).toBe(true);
          const off = weight - (exact[index]?.weight ?? 0n);
          expect(off < step && off > -step).toBe(true);
        });
        const accounts = new Set(exact.flatMap(({ from, to }) => [from, to]));
        for (const account of accounts) {
          const off = net(rounded, account) - net(exact, account);
          expect(off < step && off > -step).toBe(true);
          if (isKind(account, "item", "part")) expect(net(rounded, account)).toBe(0n);
        }
        for (const kind of ["wastedFood", "inedible", "givenAway", "loss", "dish"]) {
          const sum = (flows: readonly Flow[]) => flowTotal({ flows }, ({ to }) => isKind(to, kind));
          const off = sum(rounded) - sum(exact);
          expect(off < step && off > -step).toBe(true);
          if (kind === "wastedFood")
            expect(sum(rounded)).toBe(roundTogether([sum(exact)], milligrams(step))[0]);
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it("leave whole steps as they are", () => {
    const whole = [
      { from: "supplier", to: "item:a", weight: grams("3") },
      { from: "item:a", to: "part:a b", weight: grams("2") },
      { from: "item:a", to: "loss:cutting", weight: grams("1") },
      { from: "part:a b", to: "wastedFood:bin", weight: grams("2") },
    ];
    expect(roundedFlows(whole, grams("1"))).toEqual(whole);
  });

  it("refuse items and parts that do not close", () => {
    const open = [
      { from: "supplier", to: "item:a", weight: grams("3.5") },
      { from: "item:a", to: "wastedFood:bin", weight: grams("3.2") },
    ];
    expect(() => roundedFlows(open, grams("1"))).toThrow(RangeError);
  });
});

describe("the movements of a plan", () => {
  const step = grams("1");
  const movements = movementsOf(decodePlan(hallPlan), step);
  const sumOf = (kind: "from" | "to", ...kinds: string[]) =>
    flowTotal(movements, (flow) => isKind(flow[kind], ...kinds));

  it("hold both sides of the weight identity and each of its totals", () => {
    const near = (weight: Weight, text: string) => {
      const off = weight - grams(text);
      expect(off < step && off > -step).toBe(true);
    };
    const { weights } = hallPlan;
    near(sumOf("from", "supplier"), weights.purchased);
    near(sumOf("from", "water"), weights.absorbed);
    near(sumOf("to", "wastedFood"), weights.wastedFood);
    near(sumOf("to", "inedible"), weights.inedible);
    near(sumOf("to", "loss"), weights.losses);
    const onPlates = (sumOf("to", "dish") - sumOf("from", "dish")) as Weight;
    near(onPlates, weights.inDishes);
    expect(sumOf("from", "supplier", "onHand", "water")).toBe(
      onPlates + sumOf("to", "givenAway", "closingStock", "wastedFood", "inedible", "loss"),
    );
  });

  it("put raw weight into dishes, and what cooks away leaves from there", () => {
    const dish = "dish:Roast chicken breast @ Friday dinner";
    expect(flowTotal(movements, ({ to }) => to === dish)).toBe(grams("4800"));
    expect(flowTotal(movements, ({ from, to }) => from === dish && to === "loss:cooking")).toBe(
      grams("1200"),
    );
    expect(flowTotal(movements, ({ from, to }) => isKind(from, "part") && to === "loss:cooking")).toBe(0n);
  });

  it("give each cut and going its own printed weight", () => {
    hallPlan.cuts.forEach(({ weight }, index) => {
      const cut = movements.cuts[index];
      const sum = total([...(cut?.parts ?? []), cut?.loss ?? grams("0")]);
      expect(sum - grams(weight) < step && grams(weight) - sum < step).toBe(true);
    });
    expect(total(movements.goings)).toBe(
      flowTotal(movements, ({ from, to }) => isKind(from, "part") && isKind(to, "dish")),
    );
  });

  it("refuse a plan whose transfers do not hold its cuts", () => {
    const transfers = hallPlan.transfers.filter(({ to }) => to !== "part:squash ring");
    expect(() => movementsOf(decodePlan({ ...hallPlan, transfers }), step)).toThrow(/squash ring/);
  });
});
