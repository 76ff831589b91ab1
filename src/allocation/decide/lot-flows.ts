import { type Cooking, type Lot, originKey, type Scenario, type Step } from "../../kitchen/index.js";
import {
  type Decimal,
  grams,
  larger,
  minus,
  NO_WEIGHT,
  ONE,
  plus,
  scale,
  smaller,
  times,
  total,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import { isInto, totalWeight } from "../decision-weights.js";
import { nearestStep, sourceFor, upToStep, weightOf } from "../floats.js";
import type { PlanModel } from "../formulate/index.js";
import { groupBy } from "../group.js";
import { type LotNode, staysInStock } from "../lot-graph.js";
import type { ItemDecisions } from "./items.js";

/** One outflow of a lot while it is being settled: what the engine proposed and what is weighed. */
export interface Outflow {
  readonly proposed: Weight;
  weight: Weight;
  readonly pieces: number | null;
}

export interface GoingOut extends Outflow {
  readonly dish: string;
  readonly service: number;
  readonly line: number;
}

export interface DrawOut extends Outflow {
  readonly step: Step;
  /** The service it is worked before; null where any will do. */
  readonly service: number | null;
}

export interface LotFlows {
  readonly lot: LotNode;
  /** Cut or on hand, before anything comes in by a step. */
  readonly direct: Weight;
  readonly goings: GoingOut[];
  readonly draws: DrawOut[];
  readonly gives: { readonly destination: string; proposed: Weight }[];
  readonly keep: Weight;
  /** What stays in stock; null where nothing may. */
  readonly stays: Weight | null;
  readonly wasted: Weight;
}

export function roundLotFlows(
  plan: PlanModel,
  point: readonly number[],
  cuts: ItemDecisions["cuts"],
): LotFlows[] {
  const { scenario, handles, lotGraph } = plan;
  const step = scenario.scaleStep;
  const at = (variable: number): number => point[variable] ?? 0;
  const outflow = (
    lot: LotNode,
    amount: number,
    round: (weight: Weight, step: Weight) => Weight,
  ): Outflow => {
    const piece = lot.kind.pieceWeight;
    if (piece !== null) {
      const weight = times(piece, Math.round(amount));
      return { proposed: weight, weight, pieces: Math.round(amount) };
    }
    const proposed = weightOf(amount);
    return { proposed, weight: round(proposed, step), pieces: null };
  };
  const goes = groupBy(handles.goes, ({ lot }) => lot);
  const draws = groupBy(handles.draws, ({ from }) => from);
  const gives = groupBy(handles.gives, ({ lot }) => lot);
  const keeps = groupBy(handles.keeps, ({ lot }) => lot);
  const stays = groupBy(handles.stays, ({ lot }) => lot);
  const wastes = groupBy(handles.wastes, ({ lot }) => lot);
  return lotGraph.lots.map((lot) => ({
    lot,
    direct: directWeight(lot, scenario, cuts),
    goings: goes.of(lot).map(({ site, line, variable }) => ({
      ...outflow(lot, at(variable), nearestStep),
      dish: site.dish.name,
      service: site.service,
      line,
    })),
    draws: draws.of(lot).map(({ step: drawn, service, variable }) => ({
      ...outflow(lot, at(variable), drawnSteps),
      step: drawn,
      service,
    })),
    gives: gives
      .of(lot)
      .map(({ destination, variable }) => ({ destination, proposed: weightOf(at(variable)) })),
    keep: total(keeps.of(lot).map(({ variable }) => weightOf(at(variable)))),
    stays: staysInStock(lot, scenario)
      ? total(stays.of(lot).map(({ variable }) => weightOf(at(variable))))
      : null,
    wasted: total(wastes.of(lot).map(({ variable }) => weightOf(at(variable)))),
  }));
}

/** Up to a step, so that what is drawn suffices; dust of the engine is none. */
function drawnSteps(weight: Weight, step: Weight): Weight {
  return 2n * weight < step ? NO_WEIGHT : upToStep(weight, step);
}

function directWeight(lot: LotNode, scenario: Scenario, cuts: ItemDecisions["cuts"]): Weight {
  if (lot.origin.kind === "onHand") {
    const stock = scenario.partsOnHand[lot.origin.index];
    return stock?.part === lot.part ? stock.weight : NO_WEIGHT;
  }
  const { service } = lot.origin;
  return totalWeight(
    cuts
      .filter((cut) => cut.service === service)
      .flatMap(({ parts }) => parts)
      .filter(({ part }) => part === lot.part),
  );
}

/**
 * From the last outputs back to the first cuts: what is drawn for a step gives at least what is asked of it. No draw
 * is more than a step of the scale above what was proposed, for which pots and hands have room: that suffices for all
 * but what was itself rounded up.
 */
export function askSourcesForEnough(allFlows: readonly LotFlows[], { scaleStep }: Scenario): void {
  const byOrigin = groupBy(allFlows, ({ lot }) => originKey(lot.origin));
  for (const { lot, direct, goings, draws, gives, keep } of [...allFlows].reverse()) {
    const asked = total([
      ...[...goings, ...draws].map(({ weight }) => weight),
      ...gives.map(({ proposed }) => proposed),
      keep,
    ]);
    const feeding = byOrigin.of(originKey(lot.origin)).flatMap((source) =>
      source.draws.flatMap((draw) => {
        const made = draw.step.yields.find(({ part }) => part === lot.part);
        return made === undefined || made.fraction.isZero() ? [] : [{ draw, fraction: made.fraction }];
      }),
    );
    const largestFirst = feeding
      .filter(({ draw }) => draw.pieces === null)
      .sort((a, b) => Number(b.draw.proposed - a.draw.proposed));
    for (const { draw, fraction } of largestFirst) {
      const given = total(feeding.map((entry) => scale(entry.draw.weight, entry.fraction)));
      const short = minus(minus(asked, direct), given);
      if (short <= NO_WEIGHT) break;
      const enough = upToStep(plus(draw.weight, sourceFor(short, fraction)), scaleStep);
      draw.weight = smaller(enough, plus(draw.proposed, scaleStep));
    }
  }
}

/** Takes back what rounding asked for beyond what the lot holds: first what was rounded up, last a hair of any. */
export function trimToAvailable({ goings, draws }: LotFlows, available: Weight): void {
  const outflows: Outflow[] = [...draws, ...goings].filter(({ pieces }) => pieces === null);
  let excess = minus(totalWeight([...draws, ...goings]), available);
  const takeBack = (outflow: Outflow, most: Weight): void => {
    const back = smaller(larger(most, NO_WEIGHT), larger(excess, NO_WEIGHT));
    outflow.weight = minus(outflow.weight, back);
    excess = minus(excess, back);
  };
  for (const outflow of outflows) takeBack(outflow, minus(outflow.weight, outflow.proposed));
  for (const outflow of [...outflows].sort((a, b) => Number(b.weight - a.weight)))
    takeBack(outflow, outflow.weight);
}

interface RatedGoing {
  readonly going: GoingOut;
  readonly rate: Decimal;
}

/** What milligrams of rounding may take from a line besides. */
const HAIR = grams("0.01");

/**
 * A line below a step of the scale stays as proposed: rounded, it would be nothing, or far too much. Where small
 * goings rounded to none leave a line short, they get a step each, the largest first, until it suffices; or what was
 * proposed, where a step is too much.
 */
export function keepLinesWhole(
  allFlows: readonly LotFlows[],
  cookings: readonly CookedSite[],
  { dishes, scaleStep }: Scenario,
): void {
  const rated = allFlows.flatMap(({ lot, goings }) =>
    goings.map((going): RatedGoing => {
      const line = dishes.find(({ name }) => name === going.dish)?.lines[going.line];
      return { going, rate: line?.from.find(({ part }) => part === lot.part)?.rate ?? ONE };
    }),
  );
  const lines = groupBy(rated, ({ going: { dish, service, line } }) => JSON.stringify([dish, service, line]));
  for (const [, line] of lines.entries()) {
    if (isBelowOneStep(line, scaleStep)) {
      const isCooked = cookings.some((cooking) => line.some(({ going }) => isInto(going, cooking)));
      for (const { going } of line) going.weight = isCooked ? going.proposed : NO_WEIGHT;
      continue;
    }
    const isBeyond = (off: Decimal): boolean => {
      const allowed = sumOf(line, ({ weight }) => (weight > NO_WEIGHT ? scaleStep : NO_WEIGHT)).div(2);
      return off.plus(HAIR.toString()).greaterThan(allowed);
    };
    const isShort = (): boolean =>
      isBeyond(sumOf(line, ({ proposed, weight }) => (weight < proposed ? proposed - weight : 0n)));
    const isOver = (): boolean => isBeyond(sumOf(line, ({ proposed, weight }) => weight - proposed));
    const dropped = line
      .map(({ going }) => going)
      .filter(({ proposed, weight }) => weight === NO_WEIGHT && proposed > HAIR)
      .sort((one, other) => Number(other.proposed - one.proposed));
    for (const going of dropped) {
      if (!isShort()) break;
      going.weight = scaleStep;
      if (isOver()) going.weight = going.proposed;
    }
  }
}

function isBelowOneStep(line: readonly RatedGoing[], step: Weight): boolean {
  return total(line.map(({ going }) => going.proposed)) < step;
}

function sumOf(line: readonly RatedGoing[], of: (going: GoingOut) => bigint): Decimal {
  return line.reduce((sum, { going, rate }) => sum.plus(rate.times(of(going).toString())), ZERO);
}

/** A dish cooked for a service. */
export type CookedSite = Pick<Cooking, "dish" | "service">;

/** What a point has any portion of. */
export function cookedIn({ handles }: PlanModel, point: readonly number[]): CookedSite[] {
  const sites = [...handles.serves, ...handles.spares].filter(
    ({ variable }) => Math.round(point[variable] ?? 0) > 0,
  );
  return [...new Set(sites.map(({ site }) => site))].map(({ dish, service }) => ({
    dish: dish.name,
    service,
  }));
}

export function plainLot({ part, origin }: Lot): Lot {
  return { part, origin };
}

/** What a lot holds beside what goes into dishes and steps. */
export interface Rest {
  readonly flows: LotFlows;
  readonly weight: Weight;
}
