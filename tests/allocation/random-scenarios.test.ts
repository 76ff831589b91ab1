import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import type { Decision, Scenario } from "../../src/kitchen/index.js";
import { aimFigure, aimValuesOf } from "../../src/ledger/index.js";
import { planWithinCeilings, type WithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { bruteForce } from "../support/brute-force.js";
import { smallScenarios } from "../support/random-scenario.js";

/** More seeds and more scenarios of each can be asked for from outside: REFEREE_SEEDS=21,22 REFEREE_RUNS=400. */
const SEEDS = (process.env.REFEREE_SEEDS ?? "11,12,13,14").split(",").map(Number);
const RUNS = Number(process.env.REFEREE_RUNS ?? 120);

/** Later stages may give up so much of the first, and rounding to the scale half its step for each movement. */
const GRAMS_HELD_WITHIN = 0.5;
const GRAMS_ROUNDED = 0.5;
/** The solvers of both keep each row to a millionth, and may both be off by it. */
const ALIKE = 3e-6;
/** Loose items are cut by the grain: where that may be what the two differ by, by these as well. */
const FINER = [4, 1];

const engines = new Engines();
afterAll(() => engines.close());

/** The referee's best in the planner's units: kilograms of waste, or currency units. */
function refereed(scenario: Scenario, grain: number): { value: number; plan: string } | null {
  const best = bruteForce(scenario, scenario.aim, { grain });
  if (best === "no plan") return null;
  return { value: best.value.toNumber() / (scenario.aim === "waste" ? 1000 : 1), plan: best.plan };
}

/** What the planner and the referee disagree on; null where they agree. */
function disagreement(
  scenario: Scenario,
  settled: WithinCeilings,
  best: ReturnType<typeof refereed>,
): string | null {
  if (settled.kind === "none") {
    const { outcome } = settled;
    if (best === null && outcome.kind === "infeasible") return null;
    // Over a ceiling, the planner may be unable to say that there is no plan, but must have none.
    const isOverCeiling = outcome.kind === "failed" && outcome.reason.includes("ceiling");
    if (best === null && isOverCeiling) return null;
    const reason = outcome.kind === "failed" ? `: ${outcome.reason}` : "";
    return `says ${outcome.kind}${reason}; the referee has ${best === null ? "no plan" : `${best.value}, ${best.plan}`}`;
  }
  const { first } = settled;
  if (best === null) return `has ${first.objective}; the referee has no plan`;
  if (first.kind !== "optimal") {
    // Held to a ceiling, a plan may be less than the best, if it says so; before rounding, its dishes may cost a little
    // more than the model charges, but then what is printed is no better than the best.
    const isHonest =
      first.bound <= best.value + 1e-6 &&
      figureOf(scenario, settled) >= best.value - roundingOf(scenario, settled);
    if (isHonest && scenario.dishes.some(({ ceiling }) => ceiling !== null)) return null;
    return `stops unproved at ${first.objective}; the referee has ${best.value}`;
  }
  if (Math.abs(first.objective - best.value) > ALIKE * Math.max(1, Math.abs(best.value)))
    return `proves ${first.objective}; the referee has ${best.value}, ${best.plan}`;
  return wasteInLedger(scenario, settled);
}

/** The aim's figure of the plan as printed. */
function figureOf(
  scenario: Scenario,
  { decision, ledger }: Extract<WithinCeilings, { kind: "plan" }>,
): number {
  return aimFigure(scenario, decision, aimValuesOf(scenario, decision, ledger)).toNumber();
}

/** What rounding to the scale can take off of the aim's figure. */
function roundingOf({ aim, wastePrice, parts }: Scenario, { decision }: { decision: Decision }): number {
  const values = parts.map(({ carry }) => Number(carry?.valuePerKilogram ?? 0n) / 10_000);
  const perKilogram = aim === "waste" ? 1 : Math.max(Number(wastePrice) / 10_000, ...values);
  const movements = decision.goings.length + decision.sends.length + decision.kept.length;
  return (GRAMS_ROUNDED * movements * perKilogram) / 1000 + 1e-6;
}

/** In the waste aim, whether what the ledger calls wasted is what the first stage proved. */
function wasteInLedger(
  scenario: Scenario,
  settled: Extract<WithinCeilings, { kind: "plan" }>,
): string | null {
  if (scenario.aim !== "waste") return null;
  const wasted = Number(settled.ledger.waste.counted) / 1000;
  const proved = settled.first.objective * 1000;
  const { goings, sends } = settled.decision;
  const allowed = GRAMS_HELD_WITHIN + GRAMS_ROUNDED * (goings.length + sends.length);
  return Math.abs(wasted - proved) <= allowed ? null : `proves ${proved} g and wastes ${wasted} g`;
}

function hasLoose({ items }: Scenario): boolean {
  return items.some(({ measure }) => measure === "loose");
}

describe("the planner, beside the referee", () => {
  it.each(SEEDS)(`proves what trying everything finds: ${RUNS} small scenarios of seed %i`, async (seed) => {
    const disagreements: string[] = [];
    let plans = 0;
    let ofTwoForms = 0;
    let atPriceBreaks = 0;
    let underTerms = 0;
    for (const [index, { scenario, grain }] of fc
      .sample(smallScenarios(), { numRuns: RUNS, seed })
      .entries()) {
      const best = refereed(scenario, grain);
      if (best !== null) plans++;
      if (scenario.items.some(({ name, of }) => name !== of)) ofTwoForms++;
      if (scenario.items.some(({ buying }) => buying?.breaks !== undefined)) atPriceBreaks++;
      if ((scenario.suppliers ?? []).some(({ minimum, delivery }) => minimum + delivery > 0n)) underTerms++;
      const settled = await planWithinCeilings(scenario, (model) =>
        solveStages(model, { engines, seconds: 20 }),
      );
      let found = disagreement(scenario, settled, best);
      for (const finer of hasLoose(scenario) ? FINER : [])
        if (found !== null) found = disagreement(scenario, settled, refereed(scenario, finer));
      if (found !== null) disagreements.push(`seed ${seed}, scenario ${index}: the planner ${found}`);
    }
    expect(disagreements).toEqual([]);
    expect(plans).toBeGreaterThan(RUNS * 0.4);
    expect(plans).toBeLessThan(RUNS);
    expect(ofTwoForms).toBeGreaterThan(RUNS / 12);
    expect(atPriceBreaks).toBeGreaterThan(RUNS / 12);
    expect(underTerms).toBeGreaterThan(RUNS / 12);
  });
});
