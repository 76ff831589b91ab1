import { Random } from "../random.js";
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
    const secondsOfRelaxation = clock() - began;
    if (relaxed === null) return null;
    exchange.bound(objectiveAt(problem.matrix, relaxed));
    const prices = relaxation.prices();
    const best = options.start ?? dived(problem, solver, { relaxation, relaxed }, exchange);
    if (problem.wholes.length === 0) return best;
    const { seed, seconds = SECONDS, rounds = Number.POSITIVE_INFINITY } = options;
    const from = { problem, solver, relaxation, relaxed, prices, secondsOfRelaxation, seconds, clock };
    const descent = new Descent(from, best, seed);
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

/** What the descent begins from. */
interface Beginning {
  readonly problem: Problem;
  readonly solver: Solver;
  readonly relaxation: Relaxation;
  readonly relaxed: Float64Array;
  readonly prices: Prices;
  readonly secondsOfRelaxation: number;
  /** Most seconds for one neighbourhood. */
  readonly seconds: number;
  readonly clock: () => number;
}

/** From one best point to the next, by neighbourhoods picked by what they gave a second of late. */
class Descent {
  best: Found | null;
  areUsedFreed = false;
  readonly #from: Beginning;
  readonly #random: Random;
  readonly #links;
  readonly #pick;
  readonly #sizes = new Map<Neighbourhood, number>();

  constructor(from: Beginning, best: Found | null, seed: number) {
    this.best = best;
    this.#from = from;
    this.#random = new Random(seed);
    this.#links = linksOf(from.problem);
    this.#pick = new AdaptivePick(NEIGHBOURHOODS, this.#random);
  }

  take(found: Found | null): void {
    if (found !== null && (this.best === null || this.best.objective - found.objective > SMALLEST_GAIN)) {
      this.best = found;
    }
  }

  /** What neither the relaxation nor the best point has any of stays at nothing, and all else is free at once. */
  freeUsedColumns(at: Found, exchange: Exchange): void {
    this.areUsedFreed = true;
    const used = this.#from.problem.wholes.filter(
      (column) => (this.#from.relaxed[column] ?? 0) > SOME || (at.point[column] ?? 0) > SOME,
    );
    const part = partOf(this.#from.problem, at.point, this.#links.withEveryFlow(new Set(used)));
    const began = this.#from.clock();
    let gained: number | null = null;
    const onBetter = ({ point }: Found): void => {
      const found = part.whole(point);
      if (found.objective >= (this.best ?? at).objective - SMALLEST_GAIN || !exchange.offer(found)) return;
      this.best = found;
      gained = this.#from.clock();
    };
    const isIdle = (): boolean =>
      gained !== null && this.#from.clock() - gained > Math.max(IDLE.seconds, IDLE.share * (gained - began));
    this.#from.solver.improve(part.matrix, part.start, {
      seconds: Math.max(
        USED_COLUMNS.perWhole * used.length * this.#from.seconds,
        USED_COLUMNS.relaxations * this.#from.secondsOfRelaxation,
      ),
      within: this.#within(at),
      stop: () => exchange.stop() || isIdle(),
      onBetter,
    });
  }

  improve(at: Found, exchange: Exchange): void {
    const began = this.#from.clock();
    const kind = this.#pick.pick();
    const part = partOf(this.#from.problem, at.point, this.#draw(kind, at.point));
    const effort = { seconds: this.#from.seconds, within: this.#within(at), stop: () => exchange.stop() };
    const improved = this.#from.solver.improve(part.matrix, part.start, effort);
    const found = improved === null ? null : part.whole(improved.point);
    const seconds = this.#from.clock() - began;
    const gain = found === null ? 0 : at.objective - found.objective;
    if (found !== null && gain > SMALLEST_GAIN && exchange.offer(found)) this.best = found;
    this.#pick.reward(kind, Math.max(0, gain), seconds);
    this.#resize(kind, improved, seconds);
  }

  #within({ objective }: Found): number {
    return WITHIN * Math.max(1, Math.abs(objective));
  }

  #draw(kind: Neighbourhood, point: Float64Array): Set<number> {
    const terrain = {
      links: this.#links,
      random: this.#random,
      lossOf: dualLosses(this.#from.problem, this.#from.prices, point),
      differsFromRelaxation: differsFromRelaxation(this.#from.problem, this.#from.relaxation, point),
    };
    return kind(terrain, this.#sizeOf(kind));
  }

  #sizeOf(kind: Neighbourhood): number {
    return this.#sizes.get(kind) ?? FIRST_SIZE;
  }

  #resize(kind: Neighbourhood, improved: Improved | null, seconds: number): void {
    const isEasy = seconds <= EASY * this.#from.seconds;
    const factor = improved?.proved !== true ? AFTER_UNPROVED : isEasy ? AFTER_EASY : AFTER_PROVED;
    const size = Math.max(LEAST_SIZE, this.#sizeOf(kind) * factor);
    this.#sizes.set(kind, Math.min(this.#from.problem.wholes.length, size));
  }
}

/** How much of an earlier reward counts for each later try. */
const FADES = 0.4;
/** Everyone is tried now and then, however little it gave. */
const CURIOSITY = 0.15;

interface Entry<T> {
  readonly kind: T;
  gain: number;
  seconds: number;
}

/** Picks among kinds of move by what they gave a second of late; those not yet tried come first. */
export class AdaptivePick<T> {
  readonly #kinds: Entry<T>[];
  readonly #first: Entry<T>;
  readonly #random: Random;

  constructor([first, ...others]: readonly [T, ...T[]], random: Random) {
    this.#first = { kind: first, gain: 0, seconds: 0 };
    this.#kinds = [this.#first, ...others.map((kind) => ({ kind, gain: 0, seconds: 0 }))];
    this.#random = random;
  }

  pick(): T {
    const untried = this.#kinds.find(({ seconds }) => seconds === 0);
    if (untried !== undefined) return untried.kind;
    const rates = this.#kinds.map(({ gain, seconds }) => gain / seconds);
    const floor = (CURIOSITY * rates.reduce((sum, rate) => sum + rate, 0)) / rates.length + Number.MIN_VALUE;
    const chosen = this.#random.weighted(this.#kinds, ({ gain, seconds }) => gain / seconds + floor);
    return (chosen ?? this.#first).kind;
  }

  reward(kind: T, gain: number, seconds: number): void {
    const entry = this.#kinds.find((each) => each.kind === kind);
    if (entry === undefined) return;
    entry.gain = entry.gain * FADES + gain;
    entry.seconds = entry.seconds * FADES + seconds;
  }
}
