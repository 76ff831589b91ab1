import { expect, it } from "vitest";
import { buildModel, Engines, PROOF_GAP, type Question, solve } from "../../src/allocation/index.js";
import { solveWithGlpk } from "../support/glpk.js";
import { median, printTable } from "./measure.js";
import { generateMenu, type MenuFacts, wholeNumbersOf } from "./menus/index.js";

/** javascript-lp-solver is asked first with so much time. */
const FIRST_SECONDS = 0.25;
const SECONDS = Number(process.env.BENCH_SECONDS ?? 10);
const SEEDS = [1, 2, 3, 4];
const SIZES = [
  { items: 1, dishes: 3, days: 1 },
  { items: 2, dishes: 4, days: 1 },
  { items: 2, dishes: 6, days: 1 },
  { items: 3, dishes: 6, days: 2 },
  { items: 4, dishes: 10, days: 2 },
  { items: 6, dishes: 15, days: 2 },
] as const;
const BANDS = [8, 10, 14, 18, 34, 60, 120];

interface Measured {
  readonly facts: MenuFacts;
  readonly whole: number;
  readonly ours: number;
  readonly quick: number | null;
  readonly highs: number | null;
  readonly glpk: number | null;
}

it("measures the time to a proof of small menus against highs alone, javascript-lp-solver alone and GLPK", async () => {
  const engines = new Engines();
  const measured: Measured[] = [];
  for (const size of SIZES) {
    for (const menu of ["fixed", "chosen"] as const) {
      for (const seed of SEEDS) {
        measured.push(await measure({ ...size, seed, menu, aim: "balanced", sittings: 1 }, engines));
      }
    }
  }
  await engines.close();
  const table = (["fixed", "chosen"] as const).flatMap((menu) =>
    BANDS.flatMap((most, index) => {
      const least = (BANDS[index - 1] ?? 0) + 1;
      const inBand = measured.filter(
        ({ facts, whole }) => facts.menu === menu && whole >= least && whole <= most,
      );
      return inBand.length === 0 ? [] : [rowOf(`${menu}, ${least}-${most}`, inBand)];
    }),
  );
  printTable(`Milliseconds to a proof, median / most; ratios are medians of ours over theirs.`, [
    ["menu, whole numbers", "menus", "jslp proved", "jslp", "highs", "glpk", "ours", "/ highs", "/ glpk"],
    ...table,
  ]);
});

async function measure(facts: MenuFacts, engines: Engines): Promise<Measured> {
  const scenario = generateMenu(facts);
  const { model, objectives } = buildModel(scenario);
  const question: Question = { model, objective: objectives[scenario.aim] };
  const limits = { engines, gap: PROOF_GAP, seconds: SECONDS };
  const values: number[] = [];
  const timed = async (ask: () => Promise<{ kind: string; objective?: number }>): Promise<number | null> => {
    const began = performance.now();
    const outcome = await ask();
    const milliseconds = performance.now() - began;
    if (outcome.kind !== "optimal" || outcome.objective === undefined) return null;
    values.push(outcome.objective);
    return milliseconds;
  };
  await solve(question, { ...limits, seconds: 1 });
  const ours = await timed(() => solve(question, limits));
  const quick = await timed(() => engines.quick.solve(question, { ...limits, seconds: FIRST_SECONDS }));
  const highs = await timed(() => solve(question, { ...limits, engine: "highs" }));
  const glpk = await timed(async () => solveWithGlpk(model, question.objective, SECONDS));
  for (const value of values) expect(Math.abs(value - (values[0] ?? 0))).toBeLessThan(1e-3);
  return { facts, whole: wholeNumbersOf(model), ours: ours ?? Number.POSITIVE_INFINITY, quick, highs, glpk };
}

function rowOf(band: string, inBand: readonly Measured[]): string[] {
  const times = (list: readonly (number | null)[]): string => {
    const all = list.map((time) => time ?? Number.POSITIVE_INFINITY);
    const written = (time: number): string => (Number.isFinite(time) ? time.toFixed(0) : "unproved");
    return `${written(median(all))} / ${written(Math.max(...all))}`;
  };
  const ratio = (theirs: (entry: Measured) => number | null): string => {
    const ratios = inBand.flatMap((entry) => entry.ours / (theirs(entry) ?? Number.POSITIVE_INFINITY) || []);
    return ratios.length === 0 ? "-" : median(ratios).toFixed(2);
  };
  return [
    band,
    `${inBand.length}`,
    `${inBand.filter(({ quick }) => quick !== null).length}`,
    times(inBand.map(({ quick }) => quick)),
    times(inBand.map(({ highs }) => highs)),
    times(inBand.map(({ glpk }) => glpk)),
    times(inBand.map(({ ours }) => ours)),
    ratio(({ highs }) => highs),
    ratio(({ glpk }) => glpk),
  ];
}
