import { Random } from "../random.js";
import { AdaptivePick } from "./adaptive-pick.js";
import { dive } from "./dive.js";
import { dualLosses } from "./dual-losses.js";
import { linksOf } from "./links.js";
import { differsFromRelaxation, NEIGHBOURHOODS, type Neighbourhood } from "./neighbourhoods.js";
import {
  type Found,
  type Improved,
  objectiveAt,
  type Prices,
  type Problem,
  partOf,
  type Relaxation,
  type Solver,
} from "./problem.js";

/** Where better points come from and go to while the search is on. */
export interface Exchange {
  /** Whether the search should end. */
  stop(): boolean;
  /** The best point others have found so far. */
  take(): Found | null;
  /** Says a better point; false where it does not stand. */
  offer(found: Found): boolean;
  /** Says what no point can be less than. */
  bound(objective: number): void;
  /** Lets a moment pass, in which others may find one. */
  pause(): void;
}

export interface SearchOptions {
  readonly seed: number;
  /** A point to begin from instead of a dive. */
  readonly start: Found | null;
  /** Most neighbourhoods searched; without end unless stated. */
  readonly rounds?: number;
  /** Most seconds for one neighbourhood. */
  readonly seconds?: number;
  /** Seconds since some moment. */
  readonly clock?: () => number;
}

const SECONDS = 0.8;
/**
 * For all that is used at once, so much of that for each whole number freed, or so many times as long as the first
 * relaxation took, whichever is longer.
 */
const USED_COLUMNS = { perWhole: 0.025, relaxations: 8 };
/**
 * It is given up sooner once it has brought nothing since its last gain for so many seconds and for such a part of the
 * time which that took, whichever is longer.
 */
const IDLE = { seconds: 1.5, share: 1 };
/** Less of a column is none of it. */
const SOME = 1e-6;
/** Whole numbers in a neighbourhood: more where they are solved in time, fewer where not. */
const FIRST_SIZE = 100;
const LEAST_SIZE = 15;
const AFTER_EASY = 1.5;
const AFTER_PROVED = 1.2;
const AFTER_UNPROVED = 0.75;
/** Easy is what takes no more than this part of its time. */
const EASY = 0.25;
/** So near, relative to the whole objective, a neighbourhood need only be solved. */
const WITHIN = 1e-5;
const SMALLEST_GAIN = 1e-9;

/**
 * Dives for a first point where there is none, frees all that it or the relaxation uses, then improves the best known,
 * one neighbourhood after another, until told to stop. Null where no point was found.
 */
export function search(
  problem: Problem,
  solver: Solver,
  exchange: Exchange,
  options: SearchOptions,
): Found | null {
  const relaxation = solver.relax(problem.matrix);
  try {
    const clock = options.clock ?? (() => performance.now() / 1000);
    const began = clock();
    const relaxed = relaxation.solve();
    const seconds = clock() - began;
    if (relaxed === null) return null;
    exchange.bound(objectiveAt(problem.matrix, relaxed));
    const prices = relaxation.prices();
    const best = options.start ?? dived(problem, solver, { relaxation, relaxed }, exchange);
    if (problem.wholes.length === 0) return best;
    const descent = new Descent(
      problem,
      solver,
      { best, relaxation, relaxed, prices, seconds },
      { ...options, clock },
    );
    const rounds = options.rounds ?? Number.POSITIVE_INFINITY;
    for (let round = 0; round < rounds && !exchange.stop(); round++) {
      descent.take(exchange.take());
      if (descent.best === null) exchange.pause();
      else if (descent.areUsedFreed) descent.improve(descent.best, exchange);
      else descent.freeUsedColumns(descent.best, exchange);
    }
    return descent.best;
  } finally {
    relaxation.dispose();
  }
}

function dived(
  problem: Problem,
  solver: Solver,
  from: { relaxation: Relaxation; relaxed: Float64Array },
  exchange: Exchange,
): Found | null {
  const point = dive(problem, solver, from, () => exchange.stop());
  if (point === null) return null;
  const found = { point, objective: objectiveAt(problem.matrix, point) };
  return exchange.offer(found) ? found : null;
}

interface Beginning {
  readonly best: Found | null;
  readonly relaxation: Relaxation;
  readonly relaxed: Float64Array;
  readonly prices: Prices;
  /** What the relaxation took. */
  readonly seconds: number;
}

/** From one best point to the next, by neighbourhoods picked by what they gave a second of late. */
class Descent {
  best: Found | null;
  areUsedFreed = false;
  readonly #problem: Problem;
  readonly #solver: Solver;
  readonly #relaxation: Relaxation;
  readonly #relaxed: Float64Array;
  readonly #prices: Prices;
  readonly #random: Random;
  readonly #links;
  readonly #choice;
  readonly #sizes = new Map<Neighbourhood, number>();
  readonly #seconds: number;
  readonly #secondsOfRelaxation: number;
  readonly #clock: () => number;

  constructor(
    problem: Problem,
    solver: Solver,
    { best, relaxation, relaxed, prices, seconds: ofRelaxation }: Beginning,
    { seed, seconds = SECONDS, clock }: SearchOptions & { readonly clock: () => number },
  ) {
    this.best = best;
    this.#problem = problem;
    this.#solver = solver;
    this.#relaxation = relaxation;
    this.#relaxed = relaxed;
    this.#prices = prices;
    this.#random = new Random(seed);
    this.#links = linksOf(problem);
    this.#choice = new AdaptivePick(NEIGHBOURHOODS, this.#random);
    this.#seconds = seconds;
    this.#secondsOfRelaxation = ofRelaxation;
    this.#clock = clock;
  }

  take(found: Found | null): void {
    if (found !== null && (this.best === null || this.best.objective - found.objective > SMALLEST_GAIN)) {
      this.best = found;
    }
  }

  /** What neither the relaxation nor the best point has any of stays at nothing, and all else is free at once. */
  freeUsedColumns(at: Found, exchange: Exchange): void {
    this.areUsedFreed = true;
    const used = this.#problem.wholes.filter(
      (column) => (this.#relaxed[column] ?? 0) > SOME || (at.point[column] ?? 0) > SOME,
    );
    const part = partOf(this.#problem, at.point, this.#links.withEveryFlow(new Set(used)));
    const began = this.#clock();
    let gained: number | null = null;
    const onBetter = ({ point }: Found): void => {
      const found = part.whole(point);
      if (found.objective >= (this.best ?? at).objective - SMALLEST_GAIN || !exchange.offer(found)) return;
      this.best = found;
      gained = this.#clock();
    };
    const isIdle = (): boolean =>
      gained !== null && this.#clock() - gained > Math.max(IDLE.seconds, IDLE.share * (gained - began));
    this.#solver.improve(part.matrix, part.start, {
      seconds: Math.max(
        USED_COLUMNS.perWhole * used.length * this.#seconds,
        USED_COLUMNS.relaxations * this.#secondsOfRelaxation,
      ),
      within: this.#within(at),
      stop: () => exchange.stop() || isIdle(),
      onBetter,
    });
  }

  improve(at: Found, exchange: Exchange): void {
    const began = this.#clock();
    const kind = this.#choice.pick();
    const part = partOf(this.#problem, at.point, this.#draw(kind, at.point));
    const effort = { seconds: this.#seconds, within: this.#within(at), stop: () => exchange.stop() };
    const improved = this.#solver.improve(part.matrix, part.start, effort);
    const found = improved === null ? null : part.whole(improved.point);
    const seconds = this.#clock() - began;
    const gain = found === null ? 0 : at.objective - found.objective;
    if (found !== null && gain > SMALLEST_GAIN && exchange.offer(found)) this.best = found;
    this.#choice.reward(kind, Math.max(0, gain), seconds);
    this.#resize(kind, improved, seconds);
  }

  #within({ objective }: Found): number {
    return WITHIN * Math.max(1, Math.abs(objective));
  }

  #draw(kind: Neighbourhood, point: Float64Array): Set<number> {
    const terrain = {
      links: this.#links,
      random: this.#random,
      lossOf: dualLosses(this.#problem, this.#prices, point),
      differsFromRelaxation: differsFromRelaxation(this.#problem, this.#relaxation, point),
    };
    return kind(terrain, this.#sizeOf(kind));
  }

  #sizeOf(kind: Neighbourhood): number {
    return this.#sizes.get(kind) ?? FIRST_SIZE;
  }

  #resize(kind: Neighbourhood, improved: Improved | null, seconds: number): void {
    const isEasy = seconds <= EASY * this.#seconds;
    const factor = improved?.proved !== true ? AFTER_UNPROVED : isEasy ? AFTER_EASY : AFTER_PROVED;
    const size = Math.max(LEAST_SIZE, this.#sizeOf(kind) * factor);
    this.#sizes.set(kind, Math.min(this.#problem.wholes.length, size));
  }
}
