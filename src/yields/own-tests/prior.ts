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

export interface WeighedTogether {
  readonly mean: number;
  readonly standardError: number;
  /** Standard error of the tests, steadied where they are few. */
  readonly testedError: number;
  /** How much the tests count, 0 to 1. */
  readonly testsCount: number;
}

/**
 * The mean of a published figure and the tests', weighted by the inverse of their variances. The tests' variance is
 * the jackknife's, averaged by degrees of freedom with the guessed one, so that two tests that happen to agree are
 * not believed too much.
 *
 * Sources, from memory: inverse-variance weights and a variance steadied by a prior one, Gelman et al., Bayesian
 * Data Analysis, ch. 2 and 3.
 */
export function weighTogether(figure: TwoSources): WeighedTogether {
  const { published, publishedError, tested, standardError, guessedVariance, tests } = figure;
  const freedom = tests - 1;
  const testedVariance = steadied(guessedVariance, (standardError ?? 0) ** 2, freedom);
  const publishedVariance = publishedError ** 2;
  const testsCount = publishedVariance / (publishedVariance + testedVariance);
  return {
    mean: testsCount * tested + (1 - testsCount) * published,
    standardError: Math.sqrt(testsCount * testedVariance),
    testedError: Math.sqrt(testedVariance),
    testsCount,
  };
}

/** A variance that tests show, averaged by degrees of freedom with the one guessed before them. */
export function steadied(guessed: number, shown: number, degreesOfFreedom: number): number {
  return (GUESS_COUNTS_AS * guessed + degreesOfFreedom * shown) / (GUESS_COUNTS_AS + degreesOfFreedom);
}
