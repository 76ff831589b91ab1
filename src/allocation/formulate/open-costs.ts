import { lotKey, lotName, type Step, serviceName } from "../../kitchen/index.js";
import { bearingYieldOf, leastLotCosts, partsByName } from "../costs.js";
import { rate } from "../floats.js";
import { groupBy } from "../group.js";
import type { LotNode } from "../lot-graph.js";
import { Sum } from "../model.js";
import type { BuildContext, CeilingHandle } from "./context.js";
import type { LotCost, LotCosts } from "./lot-costs.js";
import { drawUnit } from "./parts.js";

/** A lot's average may be held to so many costs in equal ratios, from the least to the most it can be. */
const LEVELS = 24;
/** It may be held as well to what it costs cut and made in one way alone, of which there are so many at most. */
const MOST_EXACT = 40;
/** Costs that differ by a smaller part are one. */
const SAME_COST = 1e-9;
/** The least of them, as part of the most, where a lot can cost next to nothing. */
const NEXT_TO_NOTHING = 0.002;

/** What a lot, or all that bears a cost together, costs in all at most, with the weight that bears it. */
interface Borne {
  readonly name: string;
  readonly part: string;
  /** Currency units, no farther than so many from zero. */
  readonly total: Sum;
  readonly farthest: number;
  /** Kilograms. */
  readonly weight: Sum;
  /** The least a kilogram can cost. */
  readonly least: number;
}

/** The same, with the bounds there are for a part of it. */
interface Open extends Borne {
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
 * Ceilings under which lots bear what they really cost, a product of a lot's average cost and of the weight used. It
 * is bounded from above in one of several ways: the average is held to a level; or the whole lot's cost is borne, but
 * the least that what is not used can cost.
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
      // Stock as it was found costs what it is valued at: its least is all it can cost.
      if (costs.ofStock(lot) !== null) continue;
      sum.add(openCosts.borneBy(name, openCosts.of(lot), uses).variable, 1);
      for (const { variable, unit } of uses) sum.add(variable, -costOf(lot, site) * unit);
    }
    builder.row(tag, `${name} within its ceiling, by real costs`, sum, { upper: 0 });
  }
}

class OpenCosts {
  readonly #costs: LotCosts;
  readonly #context: BuildContext;
  readonly #leastOf: ReturnType<typeof leastLotCosts>;
  readonly #known = new Map<string, Open>();

  constructor(costs: LotCosts, context: BuildContext) {
    this.#costs = costs;
    this.#context = context;
    this.#leastOf = leastLotCosts(context.scenario);
  }

  /** What a lot costs, however it is cut and made. */
  of(lot: LotNode): Open {
    const { scenario } = this.#context;
    return this.#opened(lotKey(lot), this.#costs.perKilogram(lot), () => ({
      ...this.#inAll(lot),
      name: lotName(scenario, lot),
      part: lot.part,
      least: this.#leastOf(lot),
    }));
  }

  /** A variable no less than what these uses bear of the cost, and the most it can be. */
  borneBy(
    user: string,
    { name: of, part, total, farthest, weight, levels, isWhole, least }: Open,
    uses: readonly Use[],
  ): { readonly variable: number; readonly most: number } {
    const { builder } = this.#context;
    const tag = { family: "average cost", part };
    const name = `${user} bears of ${of}`;
    const used = new Sum();
    for (const { variable, unit } of uses) used.add(variable, unit);
    const mostUsed = mostOf(uses, this.#context);
    const most = mostUsed * Math.max(...levels.map(({ perKilogram }) => perKilogram));
    const borne = builder.variable(tag, name, most);
    for (const { perKilogram, isSo } of levels) {
      const slack = perKilogram * mostUsed;
      const over = new Sum().add(borne, 1).addSum(used, -perKilogram).add(isSo, -slack);
      builder.row(tag, `${name} at ${perKilogram}`, over, { lower: -slack });
    }
    const rest = new Sum().addSum(weight).addSum(used, -1);
    const over = new Sum().add(borne, 1).addSum(total, -1).addSum(rest, least).add(isWhole, -farthest);
    builder.row(tag, `${name}, the whole`, over, { lower: -farthest });
    return { variable: borne, most };
  }

  #opened(key: string, costs: readonly number[], add: () => Borne): Open {
    const open = this.#known.get(key) ?? this.#withBounds(add(), costs);
    this.#known.set(key, open);
    return open;
  }

  #withBounds(borne: Borne, costs: readonly number[]): Open {
    const { builder } = this.#context;
    const { name, part, total, farthest, weight } = borne;
    const tag = { family: "average cost", part };
    const isWhole = builder.variable(tag, `${name} borne whole`, 1, { integer: true });
    const one = new Sum().add(isWhole, 1);
    const levels = levelsOf(costs).map((perKilogram) => {
      const held = `${name} held to ${perKilogram}`;
      const isSo = builder.variable(tag, held, 1, { integer: true });
      one.add(isSo, 1);
      const above = new Sum().addSum(total).addSum(weight, -perKilogram).add(isSo, farthest);
      builder.row(tag, held, above, { upper: farthest });
      return { perKilogram, isSo };
    });
    builder.row(tag, `${name}, one bound`, one, { lower: 1, upper: 1 });
    return { ...borne, levels, isWhole };
  }

  /** By its cuts, and by what steps that make it bear of their sources. */
  #inAll(lot: LotNode): Pick<Borne, "total" | "farthest" | "weight"> {
    const total = new Sum();
    const weight = new Sum();
    let farthest = 0;
    const feeds = this.#feedsOf(lot);
    const cut = this.#costs.ofCuts(lot);
    if (cut !== null && cut.shared.length > 0 && feeds.length > 0) {
      // What else bears what credits leave has no part in what steps make of this lot.
      const uses = cut.shared.map((giving) => ({ variable: giving.variable, unit: giving.weight }));
      const { variable, most } = this.borneBy(`${lot.part} as cut`, this.#rest(lot, cut), uses);
      total.add(variable, 1);
      farthest += most;
      for (const { variable: units, unit } of uses) weight.add(units, unit);
    } else if (cut !== null) {
      total.addSum(cut.total);
      weight.addSum(cut.weight);
      farthest += cut.farthest;
    }
    for (const { step, from, fraction, bearing, uses } of feeds) {
      for (const { variable, unit } of uses) weight.add(variable, unit * fraction);
      // What bears nothing of the cost of its source has its weight alone.
      if (bearing === 0) continue;
      const share = fraction / bearing;
      const found = this.#costs.ofStock(from);
      if (found !== null) {
        for (const { variable, unit } of uses) total.add(variable, found * unit * share);
        farthest += found * mostOf(uses, this.#context) * share;
      } else {
        const { variable, most } = this.borneBy(`${step.name} for ${lot.part}`, this.of(from), uses);
        total.add(variable, share);
        farthest += most * share;
      }
    }
    return { total, farthest, weight };
  }

  /** What is left of an item's cost when its by-products are credited, which all its main parts bear alike. */
  #rest(lot: LotNode, { shared, perKilogram, ...cost }: LotCost): Open {
    const name = `what credits leave of ${shared[0]?.item.name}`;
    return this.#opened(name, perKilogram, () => ({
      ...cost,
      name,
      part: lot.part,
      least: this.#leastOf(lot),
    }));
  }

  /** The steps that make a lot, by their sources, with what of a kilogram is made and what bears its cost. */
  #feedsOf(lot: LotNode): Feed[] {
    const { scenario, handles, lotGraph } = this.#context;
    const parts = partsByName(scenario);
    return scenario.steps.flatMap((step) => {
      const made = step.yields.find(({ part }) => part === lot.part);
      if (made === undefined) return [];
      const bearing = bearingYieldOf(step, lot.part, parts);
      return step.from.flatMap((source): Feed[] => {
        const from = lotGraph.lot(source, lot.origin);
        const draws = handles.draws.filter((draw) => draw.step === step && draw.from === from);
        if (from === undefined || draws.length === 0) return [];
        const uses = draws.map(({ variable }) => ({ variable, unit: drawUnit(from) }));
        return [{ step, from, fraction: rate(made.fraction), bearing, uses }];
      });
    });
  }
}

interface Feed {
  readonly step: Step;
  readonly from: LotNode;
  readonly fraction: number;
  readonly bearing: number;
  readonly uses: readonly Use[];
}

/** Kilograms. */
function mostOf(uses: readonly Use[], { builder }: BuildContext): number {
  return uses.reduce((sum, { variable, unit }) => sum + unit * builder.upperOf(variable), 0);
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
