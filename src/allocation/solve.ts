import { certify, describeViolation } from "./certify.js";
import {
  type Engine,
  type EngineName,
  type Outcome,
  type Question,
  ROUNDING,
  relativeGap,
  type SolveLimits,
} from "./engine.js";
import { HighsAndSearch } from "./engines/highs-and-search.js";
import { Highs, JavascriptLpSolver } from "./engines/threaded.js";
import { integerCount } from "./search/index.js";

/** Up to here javascript-lp-solver proved every measured plan of a fixed menu, and nearly every other, in time. */
const MOST_WHOLE_FIXED_MENU = 18;
const MOST_WHOLE_CHOSEN_MENU = 10;
/** Its tableau is dense; beyond this many cells HiGHS is ahead before the first has been filled. */
const MOST_CELLS = 200_000;
const FIRST_SECONDS = 0.25;
/** Of less than a second it has such a part, so that the next engine has time as well. */
const FIRST_SHARE = 0.4;
/** A first engine that has not answered by now may not: HiGHS is started meanwhile, which takes longer than this. */
const WARM_AFTER_MS = 50;

/** Up to here HiGHS alone proves nearly every plan in seconds; beyond, the search beside it is ahead of it. */
const LEAST_WHOLE_TO_SEARCH = 100;

/** The threads of all engines, shared by every question asked of them. */
export class Engines {
  readonly quick: Engine;
  readonly thorough: Engine;
  /** For plans that the thorough one does not finish. */
  readonly broad: Engine;
  readonly #highs = new Highs();

  constructor(quick?: Engines["quick"], thorough?: Engines["thorough"], broad?: Engines["broad"]) {
    this.quick = quick ?? new JavascriptLpSolver();
    this.thorough = thorough ?? this.#highs;
    this.broad = broad ?? new HighsAndSearch(this.#highs);
  }

  /** Starts threads ahead of the first question, which then need not wait for solvers to load. */
  warm(): void {
    this.thorough.warm?.();
    this.quick.warm?.();
    this.broad.warm?.();
  }

  /** Ends the threads. Idempotent. */
  async close(): Promise<void> {
    const all = new Set([this.quick, this.thorough, this.broad, this.#highs]);
    await Promise.all([...all].map((each) => each.close()));
  }
}

export interface SolveOptions extends SolveLimits {
  readonly engines: Engines;
  /** Asks this engine only. Without it, size decides: small plans go to javascript-lp-solver first. */
  readonly engine?: EngineName;
}

/**
 * Answers one question within `seconds`. Every point returned has been certified against the model, and the
 * objective is the certified one. "Infeasible" and "unbounded" are returned only when HiGHS says so without
 * presolve; a point that javascript-lp-solver has not proved is thrown away.
 */
export async function solve(question: Question, options: SolveOptions): Promise<Outcome> {
  const began = performance.now();
  const spent = () => (performance.now() - began) / 1000;
  const { engines, engine, ...limits } = options;
  const left = () => ({
    ...limits,
    seconds: Math.max(0, limits.seconds - spent()),
    secondsToFirst: Math.max(0, (limits.secondsToFirst ?? limits.seconds) - spent()),
  });
  const timed = (outcome: Outcome): Outcome => ({ ...outcome, seconds: spent() });
  const larger = (): Engine => {
    const isLarge = integerCount(question.model) >= LEAST_WHOLE_TO_SEARCH;
    const isBroad = engine === undefined ? isLarge : engine === "highs and search";
    return isBroad ? engines.broad : engines.thorough;
  };
  const thorough = async () => timed(certified(question, await larger().solve(question, left()), limits.gap));

  if (engine === undefined ? !isSmall(question) : engine !== "javascript-lp-solver") return thorough();
  const seconds =
    engine === undefined ? Math.min(FIRST_SECONDS, FIRST_SHARE * limits.seconds) : limits.seconds;
  const warming = setTimeout(() => engines.thorough.warm?.(), WARM_AFTER_MS);
  const said = await engines.quick.solve(question, { ...limits, seconds, secondsToFirst: seconds });
  clearTimeout(warming);
  const quick = certified(question, said, limits.gap);
  if (quick.kind === "optimal") return timed(quick);
  if (engine === undefined) return thorough();
  if (quick.kind !== "infeasible" && quick.kind !== "unbounded") return timed(quick);
  return timed(agreed(quick, await engines.thorough.solve(question, left())));
}

/** Whether javascript-lp-solver is asked first: for fewer whole numbers where dishes are chosen. */
function isSmall({ model }: Question): boolean {
  const whole = model.variables.filter(({ integer, lower, upper }) => integer && lower < upper);
  const isChosen = whole.some(({ tag }) => tag.family === "made");
  const bounded = model.variables.filter(({ upper }) => Number.isFinite(upper)).length;
  const cells = (model.rows.length + bounded) * model.variables.length;
  const most = isChosen ? MOST_WHOLE_CHOSEN_MENU : MOST_WHOLE_FIXED_MENU;
  return whole.length <= most && cells <= MOST_CELLS;
}

function certified({ model, objective }: Question, outcome: Outcome, asked: number): Outcome {
  if (outcome.kind !== "optimal" && outcome.kind !== "feasible") return outcome;
  const { engine, seconds, point, bound } = outcome;
  const certificate = certify(model, objective, point, outcome.objective);
  if (!certificate.certified) {
    const found = certificate.violations.slice(0, 3).map(describeViolation).join("; ");
    return { kind: "failed", engine, seconds, reason: `its point does not stand: ${found}`, stoppedBy: null };
  }
  const gap = relativeGap(certificate.objective, bound);
  const proved = outcome.kind === "optimal" && gap <= asked;
  return {
    ...outcome,
    kind: proved ? "optimal" : "feasible",
    objective: certificate.objective,
    gap,
    stoppedBy: proved ? null : (outcome.stoppedBy ?? ROUNDING),
  };
}

function agreed(claim: Outcome, second: Outcome): Outcome {
  if (claim.kind === second.kind) return claim;
  const { engine, seconds } = claim;
  const said =
    second.kind === "failed" ? `HiGHS could not say: ${second.reason}` : `HiGHS says ${second.kind}`;
  return { kind: "failed", engine, seconds, reason: `it says ${claim.kind}, but ${said}`, stoppedBy: null };
}
