import type { Random } from "../random.js";

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
