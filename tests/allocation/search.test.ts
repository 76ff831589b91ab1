import { spawn } from "node:child_process";
import { once } from "node:events";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { buildModel } from "../../src/allocation/build/index.js";
import { certify } from "../../src/allocation/certify.js";
import type { Progress, Question } from "../../src/allocation/engine.js";
import { Highs } from "../../src/allocation/engines/highs.js";
import { HighsAndSearch } from "../../src/allocation/engines/highs-and-search.js";
import { toMatrix } from "../../src/allocation/engines/matrix.js";
import { Partners } from "../../src/allocation/engines/partners.js";
import { hastySolver, searchSolver } from "../../src/allocation/engines/search-solver.js";
import { linksOf } from "../../src/allocation/search/links.js";
import { lossesOf } from "../../src/allocation/search/losses.js";
import { partOf } from "../../src/allocation/search/part-problem.js";
import { type Found, objectiveAt, problemOf, wholesToSearch } from "../../src/allocation/search/problem.js";
import { search } from "../../src/allocation/search/search.js";
import type { Solver } from "../../src/allocation/search/solver.js";
import { generateMenu, type MenuFacts } from "../bench/menus/index.js";

/** How far from the proved least a search of so many neighbourhoods may end. */
const WITHIN = 0.01;
const ROUNDS = 6;
/** Of which two searches look for points before the proof begins. */
const VERY_LARGE = { items: 15, dishes: 40, days: 5 };

const facts = (stated: Partial<MenuFacts>): MenuFacts => ({
  ...{ seed: 1, items: 5, dishes: 10, days: 2, sittings: 1, menu: "chosen", aim: "balanced" },
  ...stated,
});

function asked(stated: Partial<MenuFacts>) {
  const scenario = generateMenu(facts(stated));
  const { model, objectives } = buildModel(scenario);
  const question: Question = { model, objective: objectives[scenario.aim] };
  const problem = problemOf(
    toMatrix(question),
    model.variables.map(({ tag }) => tag),
  );
  return { question, problem };
}

/** The search alone, by a clock that goes on by one second at each look, so that nothing depends on the machine. */
function searchAlone(stated: Partial<MenuFacts>, rounds: number) {
  const { question, problem } = asked(stated);
  const offered: Found[] = [];
  let seconds = 0;
  const exchange = {
    stop: () => false,
    take: () => null,
    pause: () => {},
    bounded: () => {},
    offer: (found: Found) => offered.push(found) > 0,
  };
  const clock = () => seconds++;
  const best = search(problem, searchSolver, exchange, { seed: 5, start: null, rounds, seconds: 20, clock });
  return { question, problem, offered, best };
}

const highs = new Highs();
const engine = new HighsAndSearch(highs);
afterAll(() => Promise.all([engine.close(), highs.close()]));

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
    const none = lossesOf(problem, prices, relaxed);
    for (const service of links.services) expect(none(service)).toBeLessThan(1e-6);
    const losses = lossesOf(problem, prices, best.point);
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
      bounded: () => {},
      offer: (found: Found) => offered.push(found) > 0,
    };
    const best = search(problem, solver, exchange, { seed: 5, start: null, rounds: 1, seconds: 20 });
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
    expect(asks).toEqual([{ free: used.length, seconds: 100, ended: false }]);
    expect(offered.length).toBeGreaterThan(1);
    expect(best).toBe(offered.at(-1));
    const unused = problem.wholes.filter((column) => !used.includes(column));
    expect(unused.filter((column) => isUsed(best?.point[column]))).toEqual([]);
  });

  it("ends when the search is told to stop", () => {
    const { asks, offered, best } = first(0);
    expect(asks.map(({ ended }) => ended)).toEqual([true]);
    expect(best).toBe(offered.at(-1));
  });
});

describe("a search that does not dive", () => {
  const { problem } = asked({ items: 8, dishes: 24, days: 3 });

  it("says the bound, waits for a point of others, and betters it", () => {
    const [given] = searchAlone({ items: 8, dishes: 24, days: 3 }, 0).offered;
    if (given === undefined) throw new Error("no point to give");
    const said: string[] = [];
    let bound = Number.POSITIVE_INFINITY;
    const exchange = {
      stop: () => false,
      take: () => (said.length < 3 ? null : given),
      pause: () => said.push("pause"),
      bounded: (objective: number) => {
        said.push("bound");
        bound = objective;
      },
      offer: ({ objective }: Found) => said.push(objective < given.objective ? "better" : "worse") > 0,
    };
    const options = { seed: 5, start: null, dives: false, rounds: 3, seconds: 20 };
    const best = search(problem, hastySolver, exchange, options);
    expect(said.slice(0, 3)).toEqual(["bound", "pause", "pause"]);
    expect(new Set(said.slice(3))).toEqual(new Set(["better"]));
    expect(best?.objective).toBeLessThan(given.objective);
    expect(best?.objective).toBeGreaterThanOrEqual(bound);
  });
});

it("partners hear each other's points, and know the best of them", () => {
  const [one, two, other] = ["same", "same", "another"].map((channel) => new Partners(channel, true));
  const told = (objective: number) => ({ point: Float64Array.of(objective), objective });
  for (const objective of [3, 5, 4]) one?.tell(told(objective));
  expect([two?.best(), one?.best(), other?.best()]).toEqual([told(5), null, null]);
  two?.tell(told(6));
  expect([one?.best(), two?.best()]).toEqual([told(6), told(5)]);
  for (const each of [one, two, other]) each?.close();
});

describe("HiGHS and the search together", () => {
  it("prove what HiGHS proves, and tell of both point and bound on the way", async () => {
    const { question } = asked({ seed: 1 });
    const heard: { best: number | null; bound: number | null }[] = [];
    const limits = { seconds: 40, gap: 1e-6 };
    const alone = await highs.solve(question, limits);
    const both = await engine.solve(question, { ...limits, onProgress: (progress) => heard.push(progress) });
    expect(both).toMatchObject({ kind: "optimal", engine: "highs and search", stoppedBy: null });
    expect("objective" in both && "objective" in alone && both.objective - alone.objective).toBeCloseTo(0, 5);
    expect(heard.some(({ best, bound }) => best !== null && bound !== null)).toBe(true);
  });

  it("go on for a first point as long as they may, and no longer", async () => {
    const { question } = asked({ items: 9, dishes: 28, days: 3 });
    const limits = { seconds: 0.001, gap: 1e-6 };
    expect(await engine.solve(question, limits)).toMatchObject({ kind: "failed" });
    const outcome = await engine.solve(question, { ...limits, secondsToFirst: 30 });
    expect(outcome).toMatchObject({ kind: "feasible", engine: "highs and search" });
    expect(outcome.seconds).toBeLessThan(20);
  });

  it("dive where the start breaks a row, and keep a start that stands", async () => {
    const { question } = asked({ items: 9, dishes: 28, days: 3 });
    const wrong = question.model.variables.map(({ lower }) => lower);
    const dived = await engine.solve(question, {
      seconds: 0.05,
      secondsToFirst: 30,
      gap: 1e-6,
      start: wrong,
    });
    if (dived.kind !== "feasible") throw new Error(JSON.stringify(dived));
    const kept = await engine.solve(question, { seconds: 0.3, gap: 1e-6, start: dived.point });
    expect("objective" in kept && kept.objective).toBeLessThanOrEqual(dived.objective);
  });

  it("prove a bound beyond the relaxation's also where a second search goes first", async () => {
    const { question, problem } = asked(VERY_LARGE);
    expect(wholesToSearch(question.model)).toBeGreaterThanOrEqual(300);
    const relaxation = searchSolver.relax(problem.matrix);
    const relaxed = objectiveAt(problem.matrix, relaxation.solve() ?? new Float64Array());
    relaxation.dispose();
    const heard: Progress[] = [];
    const outcome = await engine.solve(question, {
      seconds: 8,
      gap: 1e-6,
      onProgress: (progress) => heard.push(progress),
    });
    if (outcome.kind !== "feasible") throw new Error(JSON.stringify(outcome));
    expect(heard[0]?.best).toBeNull();
    expect(heard[0]?.bound).toBeCloseTo(relaxed, 6);
    expect(outcome.bound).toBeGreaterThan(relaxed + 1);
    expect(outcome.objective).toBeGreaterThanOrEqual(outcome.bound);
    const bests = heard.flatMap(({ best }) => (best === null ? [] : [best]));
    expect(bests).toEqual([...bests].sort((a, b) => b - a));
    expect(outcome.objective).toBeLessThanOrEqual((bests[0] ?? 0) * 0.97);
  });

  it.each([
    ["large", { items: 9, dishes: 28, days: 3 }],
    ["very large", VERY_LARGE],
  ])(
    "hand out what they hold of a %s plan when they are closed, and leave no thread behind",
    async (_, of) => {
      const folder = new URL("../../dist/allocation/engines/", import.meta.url);
      const { question } = asked(of);
      const program = `
      import { Highs } from "${new URL("highs.js", folder)}";
      import { HighsAndSearch } from "${new URL("highs-and-search.js", folder)}";
      const endless = (_, value) => (/^-?Infinity$/.test(value) ? Number(value) : value);
      let text = "";
      for await (const chunk of process.stdin) text += chunk;
      const highs = new Highs();
      const both = new HighsAndSearch(highs);
      let isClosed = false;
      const close = ({ best, bound }) => {
        if (best === null || bound === null || isClosed) return;
        isClosed = true;
        void both.close();
        void highs.close();
      };
      const outcome = await both.solve(JSON.parse(text, endless), { seconds: 600, gap: 1e-6, onProgress: close });
      console.log(outcome.kind, outcome.stoppedBy);`;
      const child = spawn(process.execPath, ["--input-type=module", "-e", program], { timeout: 50_000 });
      const written = (_: string, value: unknown) =>
        Math.abs(Number(value)) === Infinity ? String(value) : value;
      child.stdin.end(JSON.stringify(question, written));
      let said = "";
      child.stdout.on("data", (data) => {
        said += data;
      });
      const [code] = await once(child, "close");
      expect([code, said.trim()]).toEqual([0, "feasible a breakdown: it was closed"]);
    },
  );
});
