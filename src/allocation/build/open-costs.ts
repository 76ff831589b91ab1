import { lotKey, originKey } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { bearingYieldOf, leastLotCosts } from "../costs.js";
import { rate } from "../floats.js";
import { groupBy } from "../group.js";
import type { LotNode } from "../network.js";
import { type BuildContext, type CeilingHandle, lotName, serviceName } from "./context.js";
import type { LotCosts } from "./lot-costs.js";
import { drawUnit } from "./parts.js";

/** Averages that a lot's cost may be held to: from the least to the most it can be in equal ratios, */
const LEVELS = 24;
/** and of what it costs cut and made in one way alone so many at most. */
const MOST_EXACT = 40;
/** Costs that differ by a smaller part are one. */
const SAME_COST = 1e-9;
/** The least of them, as part of the most, where a lot can cost next to nothing. */
const NEXT_TO_NOTHING = 0.002;

/** What a lot costs in all, at most, with the weight that bears it; and the bounds there are for a part of that. */
interface OpenLot {
  /** Currency units, no farther than so many from zero. */
  readonly total: Sum;
  readonly farthest: number;
  /** Kilograms. */
  readonly weight: Sum;
  /** Costs a kilogram that the lot's average is held to where the variable is 1. */
  readonly levels: readonly { readonly perKilogram: number; readonly isSo: number }[];
  /** Whether all that the lot costs is borne, but the least that what is not used of it can cost. */
  readonly isWhole: number;
}

/** What takes of a lot, in units of so many kilograms. */
interface Use {
  readonly variable: number;
  readonly unit: number;
}

/**
 * Ceilings under which lots bear what they really cost, however they are cut and worked. What a use bears is the
 * product of a lot's average cost and of the weight used, so it is bounded from above, in one of several ways: the
 * average is held to a level; or the whole lot's cost is borne but the least that what is not used can cost, which is
 * exact where all is used.
 */
export function addOpenCosts(
  ceilings: readonly CeilingHandle[],
  costs: LotCosts,
  context: BuildContext,
): void {
  const openCosts = new OpenCosts(costs, context);
  const { scenario, builder, costOf } = context;
  for (const { site, goes, sum: least } of ceilings) {
    const tag = { family: "ceiling", dish: site.dish.name, service: site.service };
    const name = `${site.dish.name} for ${serviceName(scenario, site.service)}`;
    const sum = new Sum().addSum(least);
    for (const [lot, uses] of groupBy(goes, (go) => go.lot).entries()) {
      // A lot on hand costs what it is valued at: its least is all it can cost.
      if (lot.origin.kind !== "cut") continue;
      sum.add(openCosts.borneBy(name, lot, uses).variable, 1);
      for (const { variable, unit } of uses) sum.add(variable, -costOf(lot, site) * unit);
    }
    builder.row(tag, `${name} within its ceiling, by real costs`, sum, { upper: 0 });
  }
}

class OpenCosts {
  readonly #costs: LotCosts;
  readonly #context: BuildContext;
  readonly #leastOf: ReturnType<typeof leastLotCosts>;
  readonly #known = new Map<string, OpenLot>();

  constructor(costs: LotCosts, context: BuildContext) {
    this.#costs = costs;
    this.#context = context;
    this.#leastOf = leastLotCosts(context.scenario);
  }

  /** A variable no less than what these uses of a lot bear of its cost, and the most it can be. */
  borneBy(
    user: string,
    lot: LotNode,
    uses: readonly Use[],
  ): { readonly variable: number; readonly most: number } {
    const { scenario, builder } = this.#context;
    const tag = { family: "average cost", part: lot.part };
    const name = `${user} bears of ${lotName(scenario, lot)}`;
    const used = new Sum();
    for (const { variable, unit } of uses) used.add(variable, unit);
    const mostUsed = uses.reduce((sum, { variable, unit }) => sum + unit * builder.upperOf(variable), 0);
    const { total, farthest, weight, levels, isWhole } = this.#open(lot);
    const most = mostUsed * Math.max(...levels.map(({ perKilogram }) => perKilogram));
    const borne = builder.variable(tag, name, most);
    for (const { perKilogram, isSo } of levels) {
      const slack = perKilogram * mostUsed;
      const over = new Sum().add(borne, 1).addSum(used, -perKilogram).add(isSo, -slack);
      builder.row(tag, `${name} at ${perKilogram.toFixed(4)}`, over, { lower: -slack });
    }
    const least = this.#leastOf(lot);
    const rest = new Sum().addSum(weight).addSum(used, -1);
    const over = new Sum().add(borne, 1).addSum(total, -1).addSum(rest, least).add(isWhole, -farthest);
    builder.row(tag, `${name}, the whole`, over, { lower: -farthest });
    return { variable: borne, most };
  }

  #open(lot: LotNode): OpenLot {
    const key = lotKey(lot);
    const open = this.#known.get(key) ?? this.#add(lot);
    this.#known.set(key, open);
    return open;
  }

  #add(lot: LotNode): OpenLot {
    const { scenario, builder } = this.#context;
    const tag = { family: "average cost", part: lot.part };
    const name = lotName(scenario, lot);
    const { total, farthest, weight } = this.#inAll(lot);
    const isWhole = builder.variable(tag, `${name} borne whole`, 1, { integer: true });
    const one = new Sum().add(isWhole, 1);
    const levels = levelsOf(this.#costs.perKilogram(lot)).map((perKilogram) => {
      const held = `${name} held to ${perKilogram.toFixed(4)}`;
      const isSo = builder.variable(tag, held, 1, { integer: true });
      one.add(isSo, 1);
      const above = new Sum().addSum(total).addSum(weight, -perKilogram).add(isSo, farthest);
      builder.row(tag, held, above, { upper: farthest });
      return { perKilogram, isSo };
    });
    builder.row(tag, `${name}, one bound`, one, { lower: 1, upper: 1 });
    return { total, farthest, weight, levels, isWhole };
  }

  /** By its cuts, and by what steps that make it bear of their sources. */
  #inAll(lot: LotNode): Pick<OpenLot, "total" | "farthest" | "weight"> {
    const { scenario, handles, network } = this.#context;
    const parts = new Map(scenario.parts.map((part) => [part.name, part]));
    const cut = this.#costs.ofCuts(lot);
    const total = new Sum().addSum(cut?.total ?? new Sum());
    const weight = new Sum().addSum(cut?.weight ?? new Sum());
    let farthest = cut?.farthest ?? 0;
    for (const step of scenario.steps) {
      const fraction = step.yields.find(({ part }) => part === lot.part)?.fraction;
      const bearing = bearingYieldOf(step, lot.part, parts);
      for (const source of fraction === undefined ? [] : step.from) {
        const from = network.lot(source, lot.origin);
        const draws = handles.draws.filter((draw) => draw.step === step && draw.from === from);
        if (from === undefined || fraction === undefined || draws.length === 0) continue;
        const uses = draws.map(({ variable }) => ({ variable, unit: drawUnit(from) }));
        for (const { variable, unit } of uses) weight.add(variable, unit * rate(fraction));
        // What bears nothing of the cost of its source has its weight alone.
        if (bearing === 0) continue;
        const { variable, most } = this.borneBy(`${step.name} for ${originKey(lot.origin)}`, from, uses);
        total.add(variable, rate(fraction) / bearing);
        farthest += (most * rate(fraction)) / bearing;
      }
    }
    return { total, farthest, weight };
  }
}

function levelsOf(costs: readonly number[]): number[] {
  const most = Math.max(0, ...costs);
  if (most === 0) return [0];
  const first = Math.max(Math.min(...costs), NEXT_TO_NOTHING * most);
  const ratio = (most / first) ** (1 / (LEVELS - 1));
  const between = Array.from({ length: LEVELS }, (_, index) => first * ratio ** index);
  const exact = distinct(costs);
  const each = Math.ceil(exact.length / MOST_EXACT);
  return distinct([...between, ...exact.filter((_, index) => index % each === 0), most]);
}

function distinct(costs: readonly number[]): number[] {
  const sorted = [...costs].sort((a, b) => a - b);
  return sorted.filter((cost, index) => index === 0 || cost > (sorted[index - 1] ?? 0) * (1 + SAME_COST));
}
