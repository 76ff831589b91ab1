import { Random } from "../../allocation/index.js";

/** Random deviates of several distributions. */
export class Deviates extends Random {
  private spare: number | null = null;

  /** `stream` tells apart draws that must not repeat one another. */
  constructor(seed: number, stream = 0) {
    super((Math.imul(seed, 0x9e3779b1) ^ Math.imul(stream + 1, 0x85ebca6b)) | 0);
  }

  /** Between 0, left out, and 1. */
  uniform(): number {
    return 1 - this.fraction();
  }

  /** Normal, of mean 0 and standard deviation 1. Source: Marsaglia's polar method (1964), from memory. */
  normal(): number {
    if (this.spare !== null) {
      const value = this.spare;
      this.spare = null;
      return value;
    }
    for (;;) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      this.spare = y * factor;
      return x * factor;
    }
  }

  /** Normal about 1, drawn again where it is not above 0. */
  factor(deviation: number): number {
    if (deviation === 0) return 1;
    for (;;) {
      const value = 1 + deviation * this.normal();
      if (value > 0) return value;
    }
  }

  /** Gamma of a shape, with scale 1. Source: Marsaglia and Tsang, ACM TOMS 26 (2000), from memory. */
  gamma(shape: number): number {
    if (shape < 1) return this.gamma(shape + 1) * this.uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = this.normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(this.uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
    }
  }

  /**
   * Shares about the given ones that add up to one, each with a standard deviation of `factor` x sqrt(p (1 - p)):
   * Dirichlet of concentration 1 / factor^2 - 1, as gammas divided by their sum. Written into `into` from `at` on.
   * Source: Johnson, Kotz and Balakrishnan, Continuous Multivariate Distributions 1 (2000), ch. 49, from memory.
   */
  shares(mean: ArrayLike<number>, factor: number, into: Float64Array, at: number): void {
    const concentration = 1 / factor ** 2 - 1;
    if (!(concentration > 0 && concentration < Number.POSITIVE_INFINITY)) {
      for (let index = 0; index < mean.length; index++) into[at + index] = mean[index] ?? 0;
      return;
    }
    let sum = 0;
    for (let index = 0; index < mean.length; index++) {
      const share = mean[index] ?? 0;
      const value = share > 0 ? this.gamma(concentration * share) : 0;
      into[at + index] = value;
      sum += value;
    }
    for (let index = 0; index < mean.length; index++) into[at + index] = (into[at + index] ?? 0) / sum;
  }
}
