import { Random } from "../../../src/allocation/index.js";

/** Throws that are the same for the same seed. */
export class Dice extends Random {
  /** True so many times in a hundred. */
  chance(percent: number): boolean {
    return this.between(1, 100) <= percent;
  }

  oneOf<T>(list: readonly T[]): T {
    const chosen = list[this.between(0, list.length - 1)];
    if (chosen === undefined) throw new RangeError("nothing to choose from");
    return chosen;
  }

  /** So many different ones, or all there are. */
  someOf<T>(list: readonly T[], count: number): T[] {
    const left = [...list];
    const chosen: T[] = [];
    while (chosen.length < count && left.length > 0) {
      chosen.push(...left.splice(this.between(0, left.length - 1), 1));
    }
    return chosen;
  }
}
