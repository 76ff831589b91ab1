import type { Extra, Recuttings } from "./recutting.js";
import type { Gap, Layout, LotDraws, Output } from "./simulation.js";

/**
 * What becomes of a plan when its cuts give something else than planned. Service by service, each part goes where
 * the plan sends it; where there is too little for one service, its dishes and steps share the lack in proportion,
 * and later services come after. A line still short is filled up, in the order of the dishes, from what no later
 * service was to have: first of the parts it may be made of, as far as shares and dates allow, then of what one
 * step makes into such a part. What was to be left over, given away or kept fills gaps before it goes there.
 */
export class Serving {
  private readonly have: Float64Array;
  private readonly reserved: Float64Array;
  private readonly received: Float64Array;
  private readonly got: Float64Array;
  private readonly usual: Float64Array;

  constructor(
    private readonly layout: Layout,
    private readonly recuttings: Recuttings,
  ) {
    const lots = layout.lots.length;
    this.have = new Float64Array(lots);
    this.reserved = new Float64Array(lots);
    this.received = new Float64Array(lots);
    this.got = new Float64Array(layout.lines.length);
    this.usual = usualWeights(layout);
  }

  /** Serves one draw, with so many order units more; `missing(line)` then tells what each line lacks. */
  serve(draw: number, extras: readonly Extra[]): void {
    const { layout, have, reserved, received, got } = this;
    const row = draw * layout.columns;
    have.fill(0);
    received.fill(0);
    got.fill(0);
    reserved.set(layout.planned);
    for (const { lot, kilograms } of layout.onHand) this.add(lot, kilograms);
    layout.services.forEach(({ cuts, draws, lines }, service) => {
      for (const { lots, column } of cuts) {
        for (let index = 0; index < lots.length; index++) {
          const kilograms = this.recuttings.values[row + column + index] ?? 0;
          this.add(lots[index] ?? -1, kilograms);
          received[lots[index] ?? -1] = (received[lots[index] ?? -1] ?? 0) + kilograms;
        }
      }
      for (const extra of extras) {
        const cut = layout.cuts[extra.cut];
        if (cut?.service !== service) continue;
        const given = this.recuttings.more(extra, draw);
        for (let index = 0; index < cut.lots.length; index++)
          this.add(cut.lots[index] ?? -1, given[index] ?? 0);
      }
      for (const each of draws) this.draw(each, row);
      for (const line of lines) this.fill(line, row);
    });
  }

  /** Kilograms of a line that are missing from what the portions eaten ask for; 0 within the plan's own tolerance. */
  missing(line: number): number {
    const work = this.layout.lines[line];
    if (work === undefined || work.counted) return 0;
    const missing = work.need - (this.got[line] ?? 0);
    return missing > work.tolerance ? missing : 0;
  }

  private add(lot: number, kilograms: number): void {
    this.have[lot] = (this.have[lot] ?? 0) + kilograms;
  }

  /** What moves whole goes in as many pieces as planned, whatever they weigh. */
  private draw({ lot, planned, preps, goings }: LotDraws, row: number): void {
    const usual = this.usual[lot] ?? 0;
    const heavier = usual > 0 ? (this.received[lot] ?? 0) / usual : 1;
    const asked = planned * heavier;
    const part = asked > 0 ? Math.min(1, (this.have[lot] ?? 0) / asked) * heavier : 0;
    for (const { kilograms, outputs } of preps) this.work(lot, kilograms * part, outputs, row);
    for (const { kilograms, line, rate } of goings) {
      this.add(lot, -kilograms * part);
      this.got[line] = (this.got[line] ?? 0) + kilograms * part * rate;
    }
    this.reserved[lot] = (this.reserved[lot] ?? 0) - planned;
  }

  private work(lot: number, kilograms: number, outputs: readonly Output[], row: number): void {
    this.add(lot, -kilograms);
    for (const output of outputs)
      this.add(output.lot, kilograms * (this.recuttings.values[row + output.column] ?? 0));
  }

  private fill(line: number, row: number): void {
    const work = this.layout.lines[line];
    if (work === undefined || work.counted) return;
    for (const gap of work.gaps) {
      const missing = work.need - (this.got[line] ?? 0);
      if (missing <= 0) return;
      this.fillFrom(gap, line, missing, row);
    }
  }

  private fillFrom({ lot, rate, most, step }: Gap, line: number, missing: number, row: number): void {
    const free = (this.have[lot] ?? 0) - Math.max(0, this.reserved[lot] ?? 0);
    if (free <= 0) return;
    const output = step?.outputs[step.output];
    const gives = output === undefined ? 1 : (this.recuttings.values[row + output.column] ?? 0);
    if (gives <= 0) return;
    const counted = Math.min(missing, most, free * gives * rate);
    const kilograms = counted / (gives * rate);
    if (step === null) this.add(lot, -kilograms);
    else {
      this.work(lot, kilograms, step.outputs, row);
      if (output !== undefined) this.add(output.lot, -kilograms * gives);
    }
    this.got[line] = (this.got[line] ?? 0) + counted;
  }
}

/** Kilograms that each lot of pieces has by the plan's own yields; 0 for what moves by weight. */
function usualWeights({ lots, cuts }: Layout): Float64Array {
  const weights = new Float64Array(lots.length);
  for (const { lots: given, planned } of cuts) {
    given.forEach((lot, at) => {
      if (lots[lot]?.kind.pieceWeight != null) weights[lot] = (weights[lot] ?? 0) + (planned[at] ?? 0);
    });
  }
  return weights;
}

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
