import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  Decimal,
  type Money,
  milligrams,
  roundAround,
  roundTogether,
  splitByShares,
  tenThousandths,
  total,
  type Weight,
} from "../../src/quantity/index.js";

const SEED = 811;
const RUNS = 1000;
console.info(`splitting properties: seed ${SEED}, ${RUNS} runs each`);

const weights = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }).map(milligrams);
const someMoney = fc.bigInt({ min: 0n, max: 10n ** 12n }).map(tenThousandths);
const shares = fc.array(
  fc.bigInt({ min: 0n, max: 10n ** 9n }).map((share) => new Decimal(share.toString()).div(1000)),
  { minLength: 1, maxLength: 12 },
);

function holds<T extends [unknown, ...unknown[]]>(property: fc.IPropertyWithHooks<T>): void {
  fc.assert(property, { seed: SEED, numRuns: RUNS });
}

describe("splitByShares", () => {
  it("loses nothing, and gives each share its exact part to less than one unit", () => {
    holds(
      fc.property(someMoney, shares, (whole, parts) => {
        const sum = parts.reduce((acc, share) => acc.plus(share), new Decimal(0));
        fc.pre(!sum.isZero());
        const pieces = splitByShares(whole, parts);
        expect(total(pieces)).toBe(whole);
        pieces.forEach((piece, index) => {
          const exact = new Decimal(whole.toString()).times(parts[index] ?? 0).div(sum);
          expect(exact.minus(piece.toString()).abs().lessThan(1)).toBe(true);
          if (parts[index]?.isZero()) expect(piece).toBe(0n);
        });
      }),
    );
  });

  it("gives a greater share no less", () => {
    holds(
      fc.property(someMoney, shares, (whole, parts) => {
        fc.pre(parts.some((share) => !share.isZero()));
        const pieces = splitByShares(whole, parts);
        for (const [i, left] of parts.entries()) {
          for (const [j, right] of parts.entries()) {
            if (left.greaterThan(right)) expect(pieces[i] ?? 0n).toBeGreaterThanOrEqual(pieces[j] ?? 0n);
          }
        }
      }),
    );
  });

  it("depends on the proportion of the shares alone", () => {
    holds(
      fc.property(someMoney, shares, fc.integer({ min: 1, max: 1000 }), (whole, parts, times) => {
        fc.pre(parts.some((share) => !share.isZero()));
        const scaled = parts.map((share) => share.times(times));
        expect(splitByShares(whole, scaled)).toEqual(splitByShares(whole, parts));
      }),
    );
  });

  it("gives the unit that is left to the largest remainder, and a tie to the earlier", () => {
    const split = (whole: bigint, parts: bigint[]) => splitByShares(milligrams(whole), parts);
    expect(split(10n, [1n, 1n, 1n])).toEqual([4n, 3n, 3n]);
    expect(split(7n, [3n, 5n])).toEqual([3n, 4n]);
    expect(split(0n, [0n, 0n])).toEqual([0n, 0n]);
    expect(split(5n, [1n, 0n, 1n])).toEqual([3n, 0n, 2n]);
    expect(split(-1n, [1n, 1n])).toEqual([0n, -1n]);
    expect(splitByShares(milligrams(9n), [1n, new Decimal("0.25"), new Decimal("0.25")])).toEqual([
      6n,
      2n,
      1n,
    ]);
  });

  it("refuses to split something over nothing, and shares below zero", () => {
    expect(() => splitByShares(milligrams(1n), [0n])).toThrow(RangeError);
    expect(() => splitByShares(milligrams(1n), [2n, -1n])).toThrow(RangeError);
  });
});

describe("roundTogether", () => {
  const step = fc.constantFrom(1n, 5n, 100n, 1000n, 5000n);
  const amounts = fc.array(weights, { minLength: 0, maxLength: 15 });

  it("prints figures that add up to the rounded total, each less than a step off", () => {
    holds(
      fc.property(amounts, step, (exact, unit) => {
        const rounded = roundTogether(exact, milligrams(unit));
        const sum = total<Weight>(exact);
        const off = total<Weight>(rounded) - sum;
        expect(2n * (off < 0n ? -off : off)).toBeLessThanOrEqual(unit);
        rounded.forEach((figure, index) => {
          expect(figure % unit).toBe(0n);
          const apart = figure - (exact[index] ?? 0n);
          expect(apart < unit && apart > -unit).toBe(true);
        });
      }),
    );
  });

  it("leaves what is round already as it is", () => {
    holds(
      fc.property(amounts, step, (exact, unit) => {
        const round = exact.map((amount) => milligrams(amount * unit));
        expect(roundTogether(round, milligrams(unit))).toEqual(round);
      }),
    );
  });

  it("rounds a total half up, below zero as well", () => {
    const rounded = (amount: bigint) => roundTogether([milligrams(amount)], milligrams(1000n));
    expect([rounded(1500n), rounded(-1500n), rounded(-1501n)]).toEqual([[2000n], [-1000n], [-2000n]]);
  });

  it("adds up where rounding each figure would not: three thirds of 10.00", () => {
    const thirds: Money[] = splitByShares(tenThousandths(100_000n), [1n, 1n, 1n]);
    expect(roundTogether(thirds, tenThousandths(100n))).toEqual([33_400n, 33_300n, 33_300n]);
  });

  it("splits the joint cost of a chicken by sales value to the cent, where the print rounds shares first", () => {
    // Joint cost 50; sales values 55.00, 4.00, 14.00, 8.00, 0.50. A published solution of a Horngren-type
    // exercise, ch. 16, prints 33.75, 2.45, 8.60, 4.90, 0.30, its shares rounded before use; these are exact.
    const exact = splitByShares(tenThousandths(500_000n), [5500n, 400n, 1400n, 800n, 50n]);
    const cents = roundTogether(exact, tenThousandths(100n)).map((amount) => Number(amount) / 10_000);
    expect(cents).toEqual([33.74, 2.45, 8.59, 4.91, 0.31]);
  });
});

describe("roundAround", () => {
  it("rounds the first together, and the others by less than a step to the rounded total", () => {
    const amounts = fc.array(fc.tuple(fc.bigInt({ min: 0n, max: 10n ** 6n }).map(milligrams), fc.boolean()), {
      maxLength: 8,
    });
    holds(
      fc.property(amounts, fc.constantFrom(1000n, 500n, 7087n, 1n), (pairs, unit) => {
        const step = milligrams(unit);
        const all = pairs.map(([amount]) => amount);
        const isFirst = (index: number): boolean => pairs[index]?.[1] === true;
        const rounded = roundAround(all, step, isFirst);
        const nearest = (of: readonly Weight[]): bigint => ((2n * total(of) + unit) / (2n * unit)) * unit;
        expect(total(rounded)).toBe(nearest(all));
        expect(total(rounded.filter((_, index) => isFirst(index)))).toBe(
          nearest(all.filter((_, index) => isFirst(index))),
        );
        rounded.forEach((each, index) => {
          const off = each - (all[index] ?? 0n);
          expect(each % unit).toBe(0n);
          expect(off < unit && off > -unit).toBe(true);
        });
      }),
    );
  });
});
