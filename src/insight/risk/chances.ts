import type { Layout } from "./layout.js";
import type { Extra } from "./recutting.js";
import type { Serving } from "./serving.js";

/** How one dish came off in the draws served. */
export interface Tally {
  /** Draws in which it fell short, in order. */
  readonly short: readonly number[];
  /** Portions missing in each of these. */
  readonly portions: readonly number[];
  /** The line that lacked most portions over all of them; null where nothing was short. */
  readonly worstLine: number | null;
}

/** Serves these draws with so many order units more, and counts how each of these cookings came off. */
export function tally(
  serving: Serving,
  layout: Layout,
  draws: Iterable<number>,
  cookings: readonly number[],
  extras: readonly Extra[],
): Tally[] {
  const counts = cookings.map((cooking) => ({
    work: layout.cookings[cooking],
    short: [] as number[],
    portions: [] as number[],
    byLine: new Map<number, number>(),
  }));
  for (const draw of draws) {
    serving.serve(draw, extras);
    for (const { work, short, portions, byLine } of counts) {
      let worst = 0;
      let worstLine = -1;
      for (const line of work?.lines ?? []) {
        const missing = serving.missing(line);
        if (missing === 0) continue;
        const lacking = (missing / (layout.lines[line]?.need ?? missing)) * (work?.eaten ?? 0);
        if (lacking <= worst) continue;
        worst = lacking;
        worstLine = line;
      }
      if (worstLine < 0) continue;
      short.push(draw);
      portions.push(worst);
      byLine.set(worstLine, (byLine.get(worstLine) ?? 0) + worst);
    }
  }
  return counts.map(({ short, portions, byLine }) => ({ short, portions, worstLine: heaviest(byLine) }));
}

function heaviest(weights: ReadonlyMap<number, number>): number | null {
  let found: number | null = null;
  for (const [key, weight] of weights) if (found === null || weight > (weights.get(found) ?? 0)) found = key;
  return found;
}
