import {
  buildModel,
  type Ceilings,
  decide,
  leastLotCosts,
  type Margin,
  type Outcome,
  type PlanModel,
  type PlanPoint,
  PROOF_GAP,
  relativeGap,
  type Solved,
  type Staged,
  type StageResult,
  type Stop,
  type Tightening,
  tighteningKey,
  verifyDecision,
} from "../allocation/index.js";
import type { Decision, Scenario } from "../kitchen/index.js";
import type { CostsShown, Ledger } from "../ledger/index.js";
import { toCurrency, toKilograms } from "../quantity/index.js";
import { isByRounding, type Judged, judged, MILLIGRAM, mendRounding } from "./mend.js";

/** A plan that stands: rounded, checked and balanced, every dish within its ceiling. Or why there is none. */
export type WithinCeilings =
  | {
      readonly kind: "plan";
      readonly first: Solved;
      readonly stages: readonly StageResult[];
      /** The model whose point was rounded. */
      readonly model: PlanModel;
      readonly point: readonly number[];
      readonly decision: Decision;
      readonly ledger: Ledger;
    }
  | { readonly kind: "none"; readonly outcome: Outcome };

/** Ceilings are judged on the ledger; so often is a plan over one of them solved again. */
const MOST_ROUNDS = 12;
/** From here on ceilings are kept with what lots really cost. */
const LAST_HELD = 8;
/** Of them, for a margin below a ceiling. */
const MOST_MARGINS = 3;
/** In the first rounds lots are only charged what they were shown to cost; then their cost is held. */
const MOST_CHARGED = 2;
/** A margin is a little more than the excess, so that rounding to the scale does not bring it back. */
const WIDER = 1.02;
/** Costs are held by hardly more than the excess: what rounding adds to that can be mended, what no cut gives cannot. */
const TIGHTER = 1.0001;

/**
 * Builds the model, has it solved, rounds the point to whole portions and grams, checks that against the
 * scenario, keeps the ledger, and mends or tightens until no dish is over its ceiling: what rounding alone put over
 * is mended, or else kept a margin below when solved again; what its parts really cost is charged, then held.
 * `solveModel` is told the seconds that building took. Throws a CostingError where the costing method cannot be applied.
 */
export async function planWithinCeilings(
  scenario: Scenario,
  solveModel: (model: PlanModel, built: number) => Promise<Staged>,
): Promise<WithinCeilings> {
  let tightenings: readonly Tightening[] = [];
  let margins: readonly Margin[] = [];
  let shown: readonly CostsShown[] = [];
  let proved: Solved | null = null;
  let open: Ceilings["open"] = [];
  const near: Near[] = [];
  /** Has the cookings over their ceilings keep to them by what their lots really cost: a larger model, so the last. */
  const openMore = (): boolean => {
    const more = shown.filter(
      ({ dish, service }) => !open.some((at) => at.dish === dish && at.service === service),
    );
    if (more.length > 0) [tightenings, margins, open] = [[], [], [...open, ...more]];
    return more.length > 0;
  };
  for (let round = 0; ; round++) {
    const began = performance.now();
    const model = buildModel(scenario, { tightenings, margins, open });
    const staged = await solveModel(model, (performance.now() - began) / 1000);
    if (staged.kind === "none") {
      if (proved === null) return { kind: "none", outcome: staged.first };
      const last = nearest(near, scenario, staged.first, proved);
      if (last.kind === "plan" || round >= MOST_ROUNDS) return last;
      // A margin, or charging what an earlier plan paid, can ask too much where lots could cost less: they are made to.
      const isHeld = margins.length === 0 && tightenings.every((entry) => entry.held);
      if (!isHeld && open.length === 0) {
        margins = [];
        const heldBefore = tightenings.filter((entry) => entry.held);
        tightenings = held(scenario, heldBefore, shown);
      } else if (!openMore()) return last;
      continue;
    }
    const { first } = staged;
    proved ??= first;
    const tried = bestOf(scenario, staged);
    if (tried.kind === "faulty") {
      const faults = tried.faults.join("; ");
      return { kind: "none", outcome: failed(first, `the rounded plan falls short: ${faults}`) };
    }
    const { solved, found } = tried;
    shown = found.over;
    if (shown.length === 0) return planOf(found, proved, solved);
    const byRounding = isByRounding(found, scenario);
    if (byRounding) near.push({ ...solved, found });
    if (byRounding && near.length <= MOST_MARGINS) {
      margins = widened(margins, shown);
      continue;
    }
    if (round >= MOST_ROUNDS) return nearest(near, scenario, first, proved);
    const asCharged = charged(tightenings, shown);
    const tighter =
      round < MOST_CHARGED && !sameAs(tightenings, asCharged)
        ? asCharged
        : held(scenario, tightenings, shown);
    const isTighter = round < LAST_HELD && open.length === 0 && !sameAs(tightenings, tighter);
    if (isTighter) tightenings = tighter;
    else if (!openMore()) return nearest(near, scenario, first, proved);
  }
}

interface SolvedModel {
  readonly model: PlanModel;
  readonly point: readonly number[];
  readonly first: Solved;
  readonly stages: readonly StageResult[];
}

/** A point rounded to a decision that is judged by the ledger, and mended, where it does all that was asked. */
type Tried =
  | { readonly kind: "faulty"; readonly faults: readonly string[] }
  | { readonly kind: "whole"; readonly solved: SolvedModel; readonly found: Judged };

/** The freshest plan, or where that is over a ceiling by the ledger or falls short, the one before it. */
function bestOf(scenario: Scenario, staged: Extract<Staged, { kind: "planned" }>): Tried {
  const { first, stages, before } = staged;
  const tried = ({ plan, point }: PlanPoint, reached: readonly StageResult[]): Tried => {
    const decision = decide(plan, point);
    const faults = verifyDecision(decision, scenario);
    if (faults.length > 0) return { kind: "faulty", faults };
    const solved = { model: plan, point, first, stages: reached };
    return { kind: "whole", solved, found: mendedByStep(judged(scenario, decision), scenario) };
  };
  const fresh = tried(staged, stages);
  if (before === null || (fresh.kind === "whole" && fresh.found.over.length === 0)) return fresh;
  const older = tried(
    before,
    stages.filter(({ aim }) => aim !== "freshest"),
  );
  return older.kind === "whole" ? older : fresh;
}

/** Within every ceiling by steps of the scale, where rounding alone is over and they can bring it back; else as it is. */
function mendedByStep(found: Judged, scenario: Scenario): Judged {
  if (found.over.length === 0 || !isByRounding(found, scenario)) return found;
  return mendRounding(found, scenario, scenario.scaleStep) ?? found;
}

/** A plan that rounding alone puts over a ceiling. */
interface Near extends SolvedModel {
  readonly found: Judged;
}

/** The first of these that milligrams bring within every ceiling: finer than the scale shows, but better than no plan. */
function nearest(near: readonly Near[], scenario: Scenario, last: Outcome, proved: Solved): WithinCeilings {
  for (const { found, ...solved } of near) {
    const within = mendRounding(found, scenario, MILLIGRAM);
    if (within !== null) return planOf(within, proved, solved);
  }
  return { kind: "none", outcome: overItsCeiling(last) };
}

function planOf(
  { decision, ledger }: Judged,
  proved: Solved,
  { first, stages, model, point }: SolvedModel,
): WithinCeilings {
  return { kind: "plan", ...provedBy(proved, first, stages), model, point, decision, ledger };
}

/** Keeps a portion of each cooking further below its ceiling by what it was over. */
function widened(margins: readonly Margin[], shown: readonly CostsShown[]): Margin[] {
  const wider = shown.map(({ dish, service, portions, excess }): Margin => {
    const before = margins.find((margin) => margin.dish === dish && margin.service === service);
    const more = (WIDER * toCurrency(excess).toNumber()) / portions;
    return { dish, service, perPortion: (before?.perPortion ?? 0) + more };
  });
  const isWider = (margin: Margin): boolean =>
    wider.some(({ dish, service }) => dish === margin.dish && service === margin.service);
  return [...margins.filter((margin) => !isWider(margin)), ...wider];
}

const CEILINGS: Stop = { code: "ceilings", words: "a ceiling, which the ledger judges" };

/** Tightening forbids more than the scenario does, so only the bound proved before it says how good a plan is. */
function provedBy(
  { bound }: Solved,
  first: Solved,
  [stage, ...later]: readonly StageResult[],
): Pick<Extract<WithinCeilings, { kind: "plan" }>, "first" | "stages"> {
  if (bound === first.bound || stage === undefined)
    return { first, stages: stage === undefined ? [] : [stage, ...later] };
  const gap = relativeGap(first.objective, bound);
  const isProved = gap <= PROOF_GAP;
  const kind = isProved ? "optimal" : "feasible";
  const stoppedBy = isProved ? null : (first.stoppedBy ?? CEILINGS);
  return { first: { ...first, kind, bound, gap, stoppedBy }, stages: [{ ...stage, bound, gap }, ...later] };
}

/** Charges the dishes over their ceilings what the ledger charged them. */
function charged(known: readonly Tightening[], shown: readonly CostsShown[]): Tightening[] {
  const fresh = shown.flatMap(({ dish, service, goings }) =>
    goings
      .filter(({ weight }) => weight > 0n)
      .map((going) => ({ ...costOf(going), dish, service, held: false })),
  );
  return replaced(known, fresh);
}

/**
 * Holds the lots of the dishes over their ceilings to an average cost between the least they can have and what they
 * were shown to, so far down that the dish as cooked would keep to its ceiling.
 */
function held(scenario: Scenario, known: readonly Tightening[], shown: readonly CostsShown[]): Tightening[] {
  const least = leastLotCosts(scenario);
  const fresh = shown.flatMap(({ dish, service, excess, goings }) => {
    const paid = goings
      .filter(({ weight }) => weight > 0n)
      .map((going) => ({ ...costOf(going), kilograms: toKilograms(going.weight).toNumber() }));
    const above = paid.reduce(
      (sum, { lot, perKilogram, kilograms }) => sum + kilograms * Math.max(0, perKilogram - least(lot)),
      0,
    );
    const kept = above === 0 ? 0 : Math.max(0, 1 - (TIGHTER * toCurrency(excess).toNumber()) / above);
    return paid.map(({ lot, perKilogram }) => {
      const floor = least(lot);
      return { lot, dish, service, perKilogram: floor + kept * Math.max(0, perKilogram - floor), held: true };
    });
  });
  return replaced(known, fresh);
}

function costOf({
  lot,
  weight,
  money,
}: CostsShown["goings"][number]): Pick<Tightening, "lot" | "perKilogram"> {
  return { lot, perKilogram: toCurrency(money).div(toKilograms(weight)).toNumber() };
}

function replaced(known: readonly Tightening[], fresh: readonly Tightening[]): Tightening[] {
  const keys = new Set(fresh.map(tighteningKey));
  return [...known.filter((entry) => !keys.has(tighteningKey(entry))), ...fresh];
}

/** Whether tightening asks for nothing new: the dish is over by rounding alone, or nothing it takes could cost less. */
function sameAs(known: readonly Tightening[], fresh: readonly Tightening[]): boolean {
  return (
    known.length === fresh.length &&
    known.every(
      (entry, index) => entry.perKilogram === fresh[index]?.perKilogram && entry.held === fresh[index]?.held,
    )
  );
}

function overItsCeiling(outcome: Outcome): Outcome {
  return failed(outcome, "every plan found puts a dish over its ceiling, though none was proved impossible");
}

function failed({ engine, seconds }: Outcome, reason: string): Outcome {
  return { kind: "failed", engine, seconds, reason, stoppedBy: null };
}
