/** One test as a ratio sees it: the weight of a part and of the whole, in one unit. */
export interface Pair {
  readonly part: number;
  readonly whole: number;
}

/**
 * Sum of the parts over sum of the wholes, so that a test of ten heads counts ten times a test of one.
 * Source: Cochran, Sampling Techniques, 3rd ed., ch. 6, ratio estimators (from memory).
 */
export function ratioEstimate(pairs: readonly Pair[]): number {
  return sum(pairs.map(({ part }) => part)) / sum(pairs.map(({ whole }) => whole));
}

/**
 * Standard error and bias of any estimate by leaving out one at a time: with n samples,
 * se^2 = (n - 1)/n x sum of (estimate without i - their mean)^2 and bias = (n - 1) x (their mean - estimate).
 * Null for fewer than two. Source: Efron and Tibshirani, An Introduction to the Bootstrap (1993), ch. 11
 * (from memory).
 */
export function jackknife<T>(sample: readonly T[], estimate: (sample: readonly T[]) => number) {
  const count = sample.length;
  if (count < 2) return null;
  const without = sample.map((_, left) => estimate(sample.filter((__, index) => index !== left)));
  const mean = sum(without) / count;
  const squares = sum(without.map((value) => (value - mean) ** 2));
  return {
    standardError: Math.sqrt(((count - 1) / count) * squares),
    bias: (count - 1) * (mean - estimate(sample)),
  };
}

/**
 * Standard deviation from test to test of the ratios about the ratio estimate, each test weighted by its whole:
 * s^2 = sum of w (r - R)^2 / (W - sum of w^2 / W). With equal wholes it is the sample standard deviation.
 * Null for fewer than two. Source: the unbiased variance under reliability weights (from memory).
 */
export function spreadOf(pairs: readonly Pair[]): number | null {
  if (pairs.length < 2) return null;
  const wholes = pairs.map(({ whole }) => whole);
  const weight = sum(wholes);
  return Math.sqrt(squaresOf(pairs, wholes) / (weight - sum(wholes.map((whole) => whole ** 2)) / weight));
}

/** Squares of the ratios about the ratio estimate, each test weighted. */
export function squaresOf(pairs: readonly Pair[], weights: readonly number[]): number {
  const ratio = ratioEstimate(pairs);
  return sum(pairs.map(({ part, whole }, index) => (weights[index] ?? 0) * (part / whole - ratio) ** 2));
}

/**
 * Variance of the ratio from unit to unit, where each test is of some units and tests differ only because their
 * units do: sum of n (r - R)^2 over the tests less one. 0 for fewer than two. Source: mean square between groups,
 * one-way analysis of variance (from memory).
 */
export function varianceOfUnits(pairs: readonly Pair[], units: readonly number[]): number {
  return pairs.length < 2 ? 0 : squaresOf(pairs, units) / (pairs.length - 1);
}

/** How many tests of equal weight would tell as much: W^2 / sum of w^2 (Kish's effective sample size, from memory). */
export function effectiveCount(weights: readonly number[]): number {
  return sum(weights) ** 2 / sum(weights.map((weight) => weight ** 2));
}

const MODIFIED_Z = 0.6745;

/**
 * 0.6745 (value - median) / median absolute deviation. `leastDeviation` stands in for a median absolute deviation
 * below it: what the scale cannot tell apart is no deviation. Source: Iglewicz and Hoaglin (1993), as given in
 * the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17 (from memory).
 */
export function modifiedZScores(values: readonly number[], leastDeviation = 0): number[] {
  const centre = median(values);
  const deviation = Math.max(median(values.map((value) => Math.abs(value - centre))), leastDeviation);
  return values.map((value) => (value === centre ? 0 : (MODIFIED_Z * (value - centre)) / deviation));
}

/** The middle value, or the mean of the two middle ones. NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((left, right) => left - right);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? Number.NaN;
  return (lower + upper) / 2;
}

/**
 * The chance of a Student's t at least this far from 0, either way, with a whole number of degrees of freedom.
 * Source: the finite series of Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4
 * (from memory).
 */
export function chanceBeyond(t: number, degreesOfFreedom: number): number {
  const angle = Math.atan(Math.abs(t) / Math.sqrt(degreesOfFreedom));
  const isOdd = degreesOfFreedom % 2 === 1;
  const square = Math.cos(angle) ** 2;
  let term = isOdd ? Math.cos(angle) : 1;
  let series = degreesOfFreedom === 1 ? 0 : term;
  for (let power = isOdd ? 3 : 2; power <= degreesOfFreedom - 2; power += 2) {
    term *= ((power - 1) / power) * square;
    series += term;
  }
  const inside = isOdd ? (2 / Math.PI) * (angle + Math.sin(angle) * series) : Math.sin(angle) * series;
  return Math.max(0, 1 - inside);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** How many tests the first guess of their spread counts for. Our choice. */
const GUESS_COUNTS_AS = 4;

/** A figure as published and as the kitchen's tests have it, each with how far it may be off; all in one unit. */
export interface TwoSources {
  readonly published: number;
  /** How far this kitchen may lie from the published figure: a standard deviation. */
  readonly publishedError: number;
  readonly tested: number;
  /** The jackknife's; null for a single test. */
  readonly standardError: number | null;
  /** Variance of the tests' figure by what is known before the tests themselves tell. */
  readonly guessedVariance: number;
  readonly tests: number;
}

/**
 * The mean of a published figure and the tests', weighted by the inverse of their variances. Two tests that happen to
 * agree are not believed too much: see `shrunkVariance`. Source, from memory: Gelman et al., Bayesian Data Analysis,
 * ch. 2 and 3.
 */
export function weighTogether(figure: TwoSources) {
  const { published, publishedError, tested, standardError, guessedVariance, tests } = figure;
  const freedom = tests - 1;
  const testedVariance = shrunkVariance(guessedVariance, (standardError ?? 0) ** 2, freedom);
  const publishedVariance = publishedError ** 2;
  const testsCount = publishedVariance / (publishedVariance + testedVariance);
  return {
    mean: testsCount * tested + (1 - testsCount) * published,
    standardError: Math.sqrt(testsCount * testedVariance),
    /** Of the tests, shrunk towards the guess where they are few. */
    testedError: Math.sqrt(testedVariance),
    /** How much the tests count, 0 to 1. */
    testsCount,
  };
}

/** A variance that tests show, averaged by degrees of freedom with the one guessed before them. */
export function shrunkVariance(guessed: number, shown: number, degreesOfFreedom: number): number {
  return (GUESS_COUNTS_AS * guessed + degreesOfFreedom * shown) / (GUESS_COUNTS_AS + degreesOfFreedom);
}
