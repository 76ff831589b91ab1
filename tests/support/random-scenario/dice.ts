import fc from "fast-check";

/** Every weight drawn is a multiple of this many grams. */
export const STEP = 20;

/** Draws one thing after another; everything drawn shrinks towards the plainest. */
export class Dice {
  constructor(private readonly draw: fc.GeneratorValue) {}

  between(least: number, most: number): number {
    return this.draw(fc.integer, { min: least, max: most });
  }

  /** True so many times in a hundred; false is the plain case. */
  chance(percent: number): boolean {
    return this.between(0, 99) >= 100 - percent;
  }

  oneOf<T>(first: T, ...others: T[]): T {
    return [first, ...others][this.between(0, others.length)] ?? first;
  }
}
