import { Random } from "../../allocation/index.js";
import type { Scenario, Spread } from "../../kitchen/index.js";
import { toKilograms } from "../../quantity/index.js";
import type { Layout } from "./simulation.js";

/** Every draw of a plan's cuts: kilograms of each yield of each cut, and what a kilogram gives in each step. */
export interface Recuttings {
  readonly draws: number;
  /** `draws` rows of the layout's columns. */
  readonly values: Float64Array;
  /** Kilograms of each yield that so many order units more give in one draw, cut as that cut of the plan. */
  more(extra: Extra, draw: number): Float64Array;
}

/** Order units beside those of the plan, cut as the plan's cut of that index. */
export interface Extra {
  readonly cut: number;
  readonly orderUnits: number;
}

/**
 * Cuts what a plan buys again and again. In each draw every item has one delivery and every breakdown one yield,
 * common to all units: the error of the figures, which does not average out. About them the weight of n units is
 * normal and their shares are Dirichlet with the variance that the mean of n has: the spread from unit to unit,
 * which does. Shares always add up to one. A further step errs by its figure alone.
 */
export function recut(layout: Layout, scenario: Scenario, seed: number, draws: number): Recuttings {
  const { columns } = layout;
  const values = new Float64Array(draws * columns);
  const common = commonOf(layout, scenario);
  const shared = new Float64Array(draws * common.width);
  const random = new Deviates(seed);
  for (let draw = 0; draw < draws; draw++) {
    const at = draw * common.width;
    for (const { column, spread } of common.deliveries)
      shared[at + column] = random.factor(spread?.ofFigure.toNumber() ?? 0);
    for (const { column, mean, spread } of common.breakdowns)
      random.shares(mean, spread?.ofFigure.toNumber() ?? 0, shared, at + column);
    for (const plan of common.cuts)
      cutOnce(plan, plan.units, random, shared, at, values, draw * columns + plan.column);
    for (const { column, mean, whole, spread } of common.steps) {
      random.shares(mean, spread?.ofFigure.toNumber() ?? 0, common.scratch, 0);
      for (let index = 0; index < mean.length - 1; index++)
        values[draw * columns + column + index] = (common.scratch[index] ?? 0) * whole;
    }
  }
  const single = new Map<number, Float64Array>();
  return {
    draws,
    values,
    more: ({ cut, orderUnits }, draw) => {
      const plan = common.cuts[cut];
      if (plan === undefined) throw new RangeError(`the plan has no cut ${cut}`);
      const units =
        single.get(cut) ?? singleUnits(plan, new Deviates(seed, 1 + cut), shared, common.width, draws);
      single.set(cut, units);
      return moreOf(plan, orderUnits, shared, draw * common.width, units, draw * (plan.lots + 1));
    },
  };
}

/** One unit beside the plan's in each draw: its weight against the delivery's mean, and its shares. */
function singleUnits(
  plan: CutPlan,
  random: Deviates,
  shared: Float64Array,
  width: number,
  draws: number,
): Float64Array {
  const units = new Float64Array(draws * (plan.lots + 1));
  const { mean, shares } = plan.scratch;
  for (let draw = 0; draw < draws; draw++) {
    const at = draw * (plan.lots + 1);
    for (let index = 0; index < mean.length; index++)
      mean[index] = shared[draw * width + plan.shares + index] ?? 0;
    random.shares(mean, plan.spreadOfYield, shares, 0);
    units[at] = random.factor(plan.spreadOfWeight);
    for (let index = 0; index < plan.lots; index++) units[at + 1 + index] = shares[index] ?? 0;
  }
  return units;
}

/** n units: a single one's distance from what is common to all, over sqrt(n), is as far as their mean lies from it. */
function moreOf(
  plan: CutPlan,
  orderUnits: number,
  shared: Float64Array,
  at: number,
  units: Float64Array,
  unit: number,
): Float64Array {
  const count = orderUnits * plan.orderUnits;
  const many = Math.sqrt(Math.max(1, count));
  const weight = 1 + ((units[unit] ?? 1) - 1) / many;
  const kilograms = count * plan.unitKilograms * (shared[at + plan.delivery] ?? 1) * weight;
  for (let index = 0; index < plan.lots; index++) {
    const mean = shared[at + plan.shares + index] ?? 0;
    plan.more[index] = kilograms * (mean + ((units[unit + 1 + index] ?? 0) - mean) / many);
  }
  return plan.more;
}

interface CutPlan {
  readonly units: number;
  readonly orderUnits: number;
  readonly unitKilograms: number;
  /** Number of yields. */
  readonly lots: number;
  readonly column: number;
  /** Columns of the delivery and of the yields common to all units of the draw. */
  readonly delivery: number;
  readonly shares: number;
  readonly spreadOfWeight: number;
  readonly spreadOfYield: number;
  readonly scratch: { readonly mean: Float64Array; readonly shares: Float64Array };
  /** What order units more give, until they are asked again. */
  readonly more: Float64Array;
}

interface Common {
  readonly width: number;
  readonly deliveries: readonly { readonly column: number; readonly spread: Spread | undefined }[];
  readonly breakdowns: readonly Shares[];
  readonly steps: readonly (Shares & { readonly whole: number })[];
  readonly cuts: readonly CutPlan[];
  readonly scratch: Float64Array;
}

interface Shares {
  readonly column: number;
  /** Shares of the yields in order, and last of the loss. */
  readonly mean: readonly number[];
  readonly spread: Spread | undefined;
}

function commonOf(layout: Layout, scenario: Scenario): Common {
  let width = 0;
  const next = (count: number): number => {
    width += count;
    return width - count;
  };
  const deliveries = scenario.items.map(({ unitSpread }) => ({ column: next(1), spread: unitSpread }));
  const breakdowns = scenario.items.map((item) =>
    item.breakdowns.map(({ yields, loss, yieldSpread }): Shares => {
      const mean = [...yields.map(({ fraction }) => fraction.toNumber()), loss.toNumber()];
      return { column: next(mean.length), mean, spread: yieldSpread };
    }),
  );
  const steps = layout.steps.map(({ step, column }) => {
    const { yields = [], loss, water, yieldSpread } = scenario.steps[step] ?? {};
    const whole = 1 + (water?.toNumber() ?? 0);
    const mean = [...yields.map(({ fraction }) => fraction.toNumber()), loss?.toNumber() ?? 0];
    return { column, mean: mean.map((share) => share / whole), whole, spread: yieldSpread };
  });
  const cuts = layout.cuts.map((cut): CutPlan => {
    const item = scenario.items[cut.item];
    const breakdown = item?.breakdowns[cut.breakdown];
    const size = cut.lots.length + 1;
    return {
      units: cut.units,
      orderUnits: item?.orderUnit.size.toNumber() ?? 1,
      unitKilograms: item === undefined ? 0 : toKilograms(item.unitWeight).toNumber(),
      lots: cut.lots.length,
      column: cut.column,
      delivery: deliveries[cut.item]?.column ?? 0,
      shares: breakdowns[cut.item]?.[cut.breakdown]?.column ?? 0,
      spreadOfWeight: item?.unitSpread?.ofUnits.toNumber() ?? 0,
      spreadOfYield: breakdown?.yieldSpread?.ofUnits.toNumber() ?? 0,
      scratch: { mean: new Float64Array(size), shares: new Float64Array(size) },
      more: new Float64Array(cut.lots.length),
    };
  });
  const widest = Math.max(0, ...steps.map(({ mean }) => mean.length));
  return { width, deliveries, breakdowns: breakdowns.flat(), steps, cuts, scratch: new Float64Array(widest) };
}

/** Cuts `units` units once, about the draw's delivery and yields, and writes the kilograms of each yield. */
function cutOnce(
  plan: CutPlan,
  units: number,
  random: Deviates,
  shared: Float64Array,
  at: number,
  into: Float64Array,
  column: number,
): void {
  const { mean, shares } = plan.scratch;
  for (let index = 0; index < mean.length; index++) mean[index] = shared[at + plan.shares + index] ?? 0;
  const many = Math.sqrt(Math.max(1, units));
  random.shares(mean, plan.spreadOfYield / many, shares, 0);
  const kilograms =
    units *
    plan.unitKilograms *
    (shared[at + plan.delivery] ?? 1) *
    random.factor(plan.spreadOfWeight / many);
  for (let index = 0; index < plan.lots; index++) into[column + index] = kilograms * (shares[index] ?? 0);
}

/** Random deviates of several distributions. */
class Deviates extends Random {
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
