import { expect, it } from "vitest";
import {
  buildModel,
  Engines,
  type Outcome,
  PROOF_GAP,
  type Question,
  relativeGap,
  solve,
} from "../../src/allocation/index.js";
import { median, printTable } from "./measure.js";
import { generateMenu, type MenuFacts, nameOf, wholeNumbersOf } from "./menus/index.js";

/** Seconds that ours has, and highs alone at first. */
const SECONDS = Number(process.env.BENCH_SECONDS ?? 10);
/** Only menus whose name holds this. */
const ONLY = process.env.BENCH_ONLY ?? "";
/** Highs alone goes on for so many times as long. */
const LONG = 6;
const MENUS: readonly MenuFacts[] = [
  { items: 6, dishes: 20, days: 3, sittings: 1, menu: "fixed", aim: "balanced", seed: 1 },
  { items: 6, dishes: 20, days: 3, sittings: 1, menu: "chosen", aim: "balanced", seed: 1 },
  { items: 8, dishes: 30, days: 3, sittings: 2, menu: "chosen", aim: "waste", seed: 2 },
  { items: 15, dishes: 40, days: 5, sittings: 1, menu: "fixed", aim: "balanced", seed: 1 },
  { items: 15, dishes: 40, days: 5, sittings: 1, menu: "chosen", aim: "balanced", seed: 1 },
  { items: 12, dishes: 40, days: 3, sittings: 2, menu: "chosen", aim: "waste", seed: 1 },
  { items: 20, dishes: 60, days: 5, sittings: 1, menu: "chosen", aim: "cost", seed: 3 },
  { items: 30, dishes: 80, days: 7, sittings: 1, menu: "chosen", aim: "balanced", seed: 1 },
  { items: 30, dishes: 80, days: 7, sittings: 1, menu: "fixed", aim: "cost", seed: 2 },
  { items: 40, dishes: 200, days: 7, sittings: 1, menu: "chosen", aim: "balanced", seed: 1 },
  { items: 40, dishes: 200, days: 7, sittings: 2, menu: "chosen", aim: "balanced", seed: 2 },
  { items: 40, dishes: 200, days: 7, sittings: 2, menu: "chosen", aim: "waste", seed: 1 },
  { items: 40, dishes: 200, days: 7, sittings: 2, menu: "fixed", aim: "balanced", seed: 1 },
];
const MANY = 300;

interface Measured {
  readonly facts: MenuFacts;
  readonly whole: number;
  readonly ours: Outcome;
  /** Best objective and bound of highs alone, when ours stopped and at its own end. */
  readonly early: Held;
  readonly late: Held;
}

interface Held {
  readonly best: number | null;
  readonly bound: number | null;
}

it("measures large menus against highs alone, for as long and for six times as long", async () => {
  const measured: Measured[] = [];
  for (const facts of MENUS.filter((menu) => nameOf(menu).includes(ONLY))) {
    const entry = await measure(facts);
    measured.push(entry);
    console.log(rowOf(entry).join(" | "));
  }
  printTable(`Objectives; gaps in per cent; worse by, in per cent (below 0 is better).`, [
    [
      ...["menu", "whole", "ours", "gap", `highs ${SECONDS} s`, "gap", `highs ${LONG * SECONDS} s`, "gap"],
      ...[`than ${SECONDS} s`, `than ${LONG * SECONDS} s`],
    ],
    ...measured.map(rowOf),
  ]);
  const large = measured.filter(({ facts, whole }) => facts.menu === "chosen" && whole >= MANY);
  const worse = (list: readonly Measured[], than: "early" | "late") =>
    list.map((entry) => worseBy(entry, entry[than]) ?? Number.NEGATIVE_INFINITY);
  console.log(
    `Worst against ${SECONDS} s: ${percent(Math.max(...worse(measured, "early")))}; ` +
      `against ${LONG * SECONDS} s: ${percent(Math.max(...worse(measured, "late")))}; median of chosen menus of ` +
      `${MANY} and more whole numbers against ${SECONDS} s: ${percent(median(worse(large, "early")))}`,
  );
  expect(measured.filter(({ ours }) => ours.kind !== "optimal" && ours.kind !== "feasible")).toEqual([]);
  expect(measured.filter(beatsAProof).map(({ facts }) => nameOf(facts))).toEqual([]);
});

async function measure(facts: MenuFacts): Promise<Measured> {
  const scenario = generateMenu(facts);
  const { model, objectives } = buildModel(scenario);
  const question: Question = { model, objective: objectives[scenario.aim] };
  const engines = new Engines();
  const ours = await solve(question, { engines, seconds: SECONDS, gap: PROOF_GAP });
  let early: Held = { best: null, bound: null };
  let late = early;
  const alone = await solve(question, {
    engines,
    engine: "highs",
    seconds: LONG * SECONDS,
    gap: PROOF_GAP,
    onProgress: ({ best, bound, seconds }) => {
      late = { best, bound };
      if (seconds <= SECONDS) early = late;
    },
  });
  if (alone.kind === "optimal" || alone.kind === "feasible") {
    late = { best: alone.objective, bound: alone.bound };
    if (alone.seconds <= SECONDS) early = late;
  }
  await engines.close();
  return { facts, whole: wholeNumbersOf(model), ours, early, late };
}

/** A certified point better than what highs alone called proved best shows that proof to be false. */
function beatsAProof({ ours, late }: Measured): boolean {
  if (!("objective" in ours) || late.best === null || late.bound === null) return false;
  const isProved = relativeGap(late.best, late.bound) <= PROOF_GAP;
  return isProved && ours.objective < late.best && relativeGap(late.best, ours.objective) > 2 * PROOF_GAP;
}

function worseBy({ ours }: Measured, { best }: Held): number | null {
  if (!("objective" in ours) || best === null) return null;
  return Math.sign(ours.objective - best) * relativeGap(best, ours.objective);
}

function rowOf(entry: Measured): string[] {
  const { facts, whole, ours, early, late } = entry;
  const value = (objective: number | null): string => objective?.toFixed(3) ?? "no point";
  const gap = ({ best, bound }: Held): string =>
    best === null || bound === null ? "-" : percent(relativeGap(best, bound));
  const solved = "objective" in ours ? ours : { objective: null, bound: null };
  return [
    nameOf(facts),
    `${whole}`,
    value(solved.objective),
    gap({ best: solved.objective, bound: solved.bound }),
    value(early.best),
    gap(early),
    value(late.best),
    gap(late),
    percent(worseBy(entry, early)),
    percent(worseBy(entry, late)),
  ];
}

function percent(part: number | null): string {
  return part === null || !Number.isFinite(part) ? "-" : (100 * part).toFixed(2);
}
