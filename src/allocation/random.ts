import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Random numbers that are the same for the same seed, on every machine. */
export class Random {
  readonly #generator;

  constructor(seed: number) {
    this.#generator = xoroshiro128plus(seed);
  }

  /** From 0 up to, not including, 1. */
  fraction(): number {
    return uniformFloat64(this.#generator);
  }

  /** A whole number, each as likely, both ends among them. */
  between(least: number, most: number): number {
    return uniformInt(this.#generator, least, most);
  }

  /** Each as likely as its weight says, all of which are above 0. */
  weighted<T>(list: readonly T[], weightOf: (entry: T) => number): T | undefined {
    let left = this.fraction() * list.reduce((sum, entry) => sum + weightOf(entry), 0);
    return list.find((entry) => {
      left -= weightOf(entry);
      return left <= 0;
    });
  }

  shuffled<T>(list: readonly T[]): T[] {
    const left = [...list];
    return list.flatMap(() => left.splice(this.between(0, left.length - 1), 1));
  }
}
