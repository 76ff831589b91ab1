import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { certify } from "../../src/allocation/certify.js";
import { searchSolver } from "../../src/allocation/engines/highs-model.js";
import { Highs } from "../../src/allocation/engines/threaded.js";
import { dualLosses } from "../../src/allocation/search/dual-losses.js";
import { linksOf } from "../../src/allocation/search/links.js";
import { type Found, objectiveAt, partOf, type Solver } from "../../src/allocation/search/problem.js";
import { search } from "../../src/allocation/search/search.js";
import type { MenuFacts } from "../bench/menus/index.js";
import { asked } from "../support/asked-menu.js";

/** How far from the proved least a search of so many neighbourhoods may end. */
const WITHIN = 0.01;
const ROUNDS = 6;

/** The search alone, by a clock that goes on by one second at each look, so that nothing depends on the machine. */
function searchAlone(stated: Partial<MenuFacts>, rounds: number) {
  const { question, problem } = asked(stated);
  const offered: Found[] = [];
  let seconds = 0;
  const exchange = {
    stop: () => false,
    take: () => null,
    pause: () => {},
    bound: () => {},
    offer: (found: Found) => offered.push(found) > 0,
  };
  const clock = () => seconds++;
  const best = search(problem, searchSolver, exchange, { seed: 5, start: null, rounds, seconds: 20, clock });
  return { question, problem, offered, best };
}

const highs = new Highs();
afterAll(() => highs.close());

describe.each([
  { menu: "chosen", aim: "balanced", seed: 1 },
  { menu: "chosen", aim: "waste", seed: 2 },
  { menu: "fixed", aim: "balanced", seed: 3 },
] as const)("a search of a $menu menu for least $aim", (stated) => {
  const { question, offered, best } = searchAlone(stated, ROUNDS);

  it("offers better and better points, all of which stand", () => {
    expect(offered.length).toBeGreaterThan(1);
    offered.forEach(({ point, objective }, index) => {
      expect(certify(question.model, question.objective, [...point], objective).violations).toEqual([]);
      expect(objective).toBeLessThan(offered[index - 1]?.objective ?? Number.POSITIVE_INFINITY);
    });
    expect(best).toEqual(offered.at(-1));
  });

  it(`comes within ${100 * WITHIN} % of the least, which HiGHS proves`, async () => {
    const proved = await highs.solve(question, { seconds: 40, gap: WITHIN / 10 });
    if (proved.kind !== "optimal") throw new Error(JSON.stringify(proved));
    expect(best?.objective).toBeGreaterThanOrEqual(proved.bound - 1e-6);
    expect(best?.objective).toBeLessThanOrEqual(proved.objective * (1 + WITHIN));
  });

  it("goes the same way for the same seed", () => {
    const again = searchAlone(stated, 3).offered;
    expect(again.length).toBeGreaterThan(0);
    expect(again.map(({ point }) => [...point])).toEqual(
      offered.slice(0, again.length).map(({ point }) => [...point]),
    );
  });
});

it("a dive finds a point that stands in menus of every kind", () => {
  const menus = fc.record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    items: fc.integer({ min: 1, max: 8 }),
    dishes: fc.integer({ min: 3, max: 16 }),
    days: fc.integer({ min: 1, max: 4 }),
    sittings: fc.constantFrom(1 as const, 2 as const),
    menu: fc.constantFrom("fixed" as const, "chosen" as const),
    aim: fc.constantFrom("waste" as const, "cost" as const, "balanced" as const),
  });
  let dived = 0;
  let posed = 0;
  fc.assert(
    fc.property(menus, (stated) => {
      const { question, offered } = searchAlone(stated, 0);
      posed += 1;
      for (const { point, objective } of offered) {
        dived += 1;
        expect(certify(question.model, question.objective, [...point], objective).violations).toEqual([]);
      }
    }),
    { seed: 11, numRuns: 25 },
  );
  // Some of the menus cannot be met, and a dive may come to a dead end.
  expect(dived / posed).toBeGreaterThan(0.8);
});

describe("a part of a problem", () => {
  const { problem, best } = searchAlone({}, 0);
  if (best === null) throw new Error("no point to start from");

  it("is worth at its start what the whole is, and keeps to its rows there", () => {
    const links = linksOf(problem);
    fc.assert(
      fc.property(fc.subarray([...problem.wholes], { minLength: 1, maxLength: 30 }), (wholes) => {
        const free = links.withFlows(new Set(wholes));
        const part = partOf(problem, best.point, free);
        expect(part.start.length).toBe(free.size);
        expect(objectiveAt(part.matrix, part.start)).toBeCloseTo(best.objective, 6);
        expect(part.whole(part.start).point).toEqual(best.point);
        const improved = searchSolver.improve(part.matrix, part.start, { seconds: 10, within: 1e-9 });
        expect(improved?.objective).toBeLessThanOrEqual(best.objective + 1e-6);
      }),
      { seed: 3, numRuns: 6 },
    );
  });

  it("loses nothing where the relaxation is best, and everything that is lost elsewhere", () => {
    const relaxation = searchSolver.relax(problem.matrix);
    const relaxed = relaxation.solve();
    if (relaxed === null) throw new Error("no relaxation");
    const prices = relaxation.prices();
    relaxation.dispose();
    const links = linksOf(problem);
    const none = dualLosses(problem, prices, relaxed);
    for (const service of links.services) expect(none(service)).toBeLessThan(1e-6);
    const losses = dualLosses(problem, prices, best.point);
    const lost = best.objective - objectiveAt(problem.matrix, relaxed);
    const byService = links.services.reduce((sum, service) => sum + losses(service), 0);
    expect(byService).toBeGreaterThan(0);
    expect(byService).toBeLessThanOrEqual(lost + 1e-6);
  });
});

describe("the first neighbourhood of a search", () => {
  const { problem } = asked({ items: 8, dishes: 24, days: 3 });
  const isUsed = (value = 0): boolean => value > 1e-6;

  /** What the search's first neighbourhood is asked with, after a dive, and all that was offered by its end. */
  function first(stopAfter: number) {
    const asks: { free: number; seconds: number; ended: boolean }[] = [];
    const offered: Found[] = [];
    let looks = Number.NEGATIVE_INFINITY;
    const solver: Solver = {
      ...searchSolver,
      improve: (matrix, start, effort) => {
        if (effort.onBetter === undefined) return searchSolver.improve(matrix, start, effort);
        looks = 0;
        const improved = searchSolver.improve(matrix, start, effort);
        const free = matrix.whole.reduce((sum, one) => sum + one, 0);
        asks.push({ free, seconds: effort.seconds, ended: improved?.proved !== true });
        return improved;
      },
    };
    const exchange = {
      stop: () => ++looks > stopAfter,
      take: () => null,
      pause: () => {},
      bound: () => {},
      offer: (found: Found) => offered.push(found) > 0,
    };
    // By a clock that stands still, it is never idle.
    const options = { seed: 5, start: null, rounds: 1, seconds: 20, clock: () => 0 };
    const best = search(problem, solver, exchange, options);
    return { asks, offered, best };
  }

  it("frees what the relaxation or the first point uses, and tells of each better point as it comes", () => {
    const { asks, offered, best } = first(Number.POSITIVE_INFINITY);
    const relaxation = searchSolver.relax(problem.matrix);
    const relaxed = relaxation.solve();
    relaxation.dispose();
    const [dived] = offered;
    const used = problem.wholes.filter((column) => isUsed(relaxed?.[column]) || isUsed(dived?.point[column]));
    expect(used.length).toBeLessThan(problem.wholes.length / 2);
    expect(asks).toEqual([
      { free: used.length, seconds: expect.closeTo(0.5 * used.length, 6), ended: false },
    ]);
    expect(offered.length).toBeGreaterThan(1);
    expect(best).toBe(offered.at(-1));
    const unused = problem.wholes.filter((column) => !used.includes(column));
    expect(unused.filter((column) => isUsed(best?.point[column]))).toEqual([]);
  });

  it("is given up when it has brought nothing for long, by how long its gains took", () => {
    const gainAfter = 10;
    let now = 0;
    let givenUpAfter: number | null = null;
    const solver: Solver = {
      ...searchSolver,
      improve: (matrix, start, effort) => {
        const { stop = () => true, onBetter, ...others } = effort;
        if (onBetter === undefined) return searchSolver.improve(matrix, start, effort);
        const began = now;
        const improved = searchSolver.improve(matrix, start, others);
        for (; now < began + gainAfter; now++) expect(stop()).toBe(false);
        if (improved !== null) onBetter(improved);
        while (!stop() && now < began + 100) now++;
        givenUpAfter = now - began;
        return improved;
      },
    };
    const exchange = {
      stop: () => false,
      take: () => null,
      pause: () => {},
      bound: () => {},
      offer: () => true,
    };
    search(problem, solver, exchange, { seed: 5, start: null, rounds: 1, clock: () => now });
    expect(givenUpAfter).toBe(gainAfter + 11);
  });

  it("ends when the search is told to stop", () => {
    const { asks, offered, best } = first(0);
    expect(asks.map(({ ended }) => ended)).toEqual([true]);
    expect(best).toBe(offered.at(-1));
  });
});

describe("a search whose dive comes to nothing", () => {
  const { problem } = asked({ items: 8, dishes: 24, days: 3 });

  it("says the bound, waits for a point of others, and betters it", () => {
    const [given] = searchAlone({ items: 8, dishes: 24, days: 3 }, 0).offered;
    if (given === undefined) throw new Error("no point to give");
    const said: string[] = [];
    let bound = Number.POSITIVE_INFINITY;
    let isDiving = true;
    const exchange = {
      stop: () => {
        const wasDiving = isDiving;
        isDiving = false;
        return wasDiving;
      },
      take: () => (said.length < 3 ? null : given),
      pause: () => said.push("pause"),
      bound: (objective: number) => {
        said.push("bound");
        bound = objective;
      },
      offer: ({ objective }: Found) => said.push(objective < given.objective ? "better" : "worse") > 0,
    };
    const options = { seed: 5, start: null, rounds: 3, seconds: 20 };
    const best = search(problem, searchSolver, exchange, options);
    expect(said.slice(0, 3)).toEqual(["bound", "pause", "pause"]);
    expect(new Set(said.slice(3))).toEqual(new Set(["better"]));
    expect(best?.objective).toBeLessThan(given.objective);
    expect(best?.objective).toBeGreaterThanOrEqual(bound);
  });
});
