import {
  type Cooking,
  type Decision,
  type KeptPart,
  type Lot,
  lotKey,
  type PartUse,
  type Scenario,
  type Send,
} from "../../kitchen/index.js";
import {
  Decimal,
  milligrams,
  minus,
  NO_WEIGHT,
  ONE,
  plus,
  smaller,
  type Weight,
} from "../../quantity/index.js";
import { lastDayOfLot } from "../../safety/index.js";
import { isInto, totalWeight } from "../decision-weights.js";
import { lineFaults } from "../verify/serving.js";
import { endOfRest } from "./ends.js";

/** A cooking over its ceiling, and by how many ten-thousandths of the currency unit in all. */
export interface CookingOver {
  readonly dish: string;
  readonly service: number;
  readonly excess: bigint;
}

/** Ten-thousandths of the currency unit that a milligram of a lot costs. */
export type CostOfLot = (lot: Lot) => Decimal;

/** So many moves at most for one cooking. */
const MOST_MOVES = 200;

/** Some of one going is left out of a line, or is made up for by as much of another lot. */
interface Move {
  readonly out: number;
  readonly into: Lot | null;
  /** Whole units of weight left out and put in. */
  readonly units: bigint;
  readonly put: Weight;
  readonly saves: Decimal;
}

/**
 * The decision with these cookings made cheaper by what rounding leaves open, in units of the weight given: a cheap
 * lot takes the place of a dear one, or some is left out, within what a line may miss by and its shares. Null where
 * not every one comes down by its excess.
 */
export function mendCookings(
  decision: Decision,
  scenario: Scenario,
  over: readonly CookingOver[],
  costOf: CostOfLot,
  unit: Weight,
): Decision | null {
  let mended = decision;
  for (const { dish, service, excess } of over) {
    let left = new Decimal(excess.toString());
    for (let moves = 0; left.greaterThan(0); moves++) {
      const found: Move | null = bestMove(
        { decision: mended, scenario, costOf, unit },
        { dish, service },
        left,
      );
      if (found === null || moves === MOST_MOVES) return null;
      mended = moved(mended, found, unit, scenario);
      left = left.minus(found.saves);
    }
  }
  return mended;
}

interface Bench {
  readonly decision: Decision;
  readonly scenario: Scenario;
  readonly costOf: CostOfLot;
  readonly unit: Weight;
}

type Where = Pick<Cooking, "dish" | "service">;

/** One that saves what is asked for with the least changed, making up for what is left out first; else what saves most. */
function bestMove(bench: Bench, where: Where, asked: Decimal): Move | null {
  const moves = bench.decision.goings.flatMap((going, out) => {
    if (!isInto(going, where) || going.pieces !== null) return [];
    const others = othersFor(going, bench);
    return [...others, null].flatMap((into) => largestMove(bench, { going, out, into }, asked) ?? []);
  });
  const enough = moves.filter(({ saves }) => saves.gte(asked));
  const rank = ({ into, units }: Move): bigint => (into === null ? 1_000_000_000n : 0n) + units;
  const [least] = enough.sort((a, b) => Number(rank(a) - rank(b)));
  const [most] = moves.sort((a, b) => b.saves.comparedTo(a.saves));
  return least ?? most ?? null;
}

/** Lots that are cheaper for as much of the line, have some to spare and are good at the service. */
function othersFor(going: PartUse, { decision, scenario, costOf }: Bench): Lot[] {
  const rated = rateOf(going, going.lot, scenario);
  const seen = new Set<string>([lotKey(going.lot)]);
  return restsOf(decision, scenario).flatMap(({ lot }) => {
    const rate = rateOf(going, lot, scenario);
    if (seen.has(lotKey(lot)) || rate === null || rated === null || !isGoodFor(lot, going, scenario))
      return [];
    seen.add(lotKey(lot));
    return costOf(lot).div(rate).lt(costOf(going.lot).div(rated)) ? [lot] : [];
  });
}

/** Grams of the line that a gram of the lot stands for; null where it may not go in, or moves whole. */
function rateOf({ dish, line }: PartUse, { part }: Lot, { dishes, parts }: Scenario): Decimal | null {
  const source = dishes
    .find(({ name }) => name === dish)
    ?.lines[line]?.from.find((from) => from.part === part);
  const kind = parts.find(({ name }) => name === part);
  return source === undefined || kind?.class !== "food" || kind.pieceWeight !== null ? null : source.rate;
}

function isGoodFor(lot: Lot, { service }: PartUse, scenario: Scenario): boolean {
  const lastDay = lastDayOfLot(lot, scenario);
  const isCut = lot.origin.kind !== "cut" || lot.origin.service <= service;
  return isCut && (lastDay === null || (scenario.services[service]?.day ?? 0) <= lastDay);
}

/** As few units as save what is asked for, or as many as the line and the lots allow. */
function largestMove(
  bench: Bench,
  { going, out, into }: { going: PartUse; out: number; into: Lot | null },
  asked: Decimal,
): Move | null {
  const { decision, scenario, costOf, unit } = bench;
  const rated = rateOf(going, going.lot, scenario) ?? ONE;
  const rate = into === null ? ONE : (rateOf(going, into, scenario) ?? ONE);
  const moveOf = (units: bigint): Move => {
    const taken = new Decimal((units * unit).toString());
    const put = into === null ? NO_WEIGHT : inUnits(taken.times(rated).div(rate), unit);
    const spent = into === null ? new Decimal(0) : costOf(into).times(put.toString());
    return { out, into, units, put, saves: costOf(going.lot).times(taken).minus(spent) };
  };
  const spare = into === null ? NO_WEIGHT : spareOf(into, bench);
  const isPossible = (units: bigint): boolean => {
    const move = moveOf(units);
    return move.put <= spare && keepsLine(moved(decision, move, unit, scenario), going, scenario);
  };
  const whole = going.weight / unit;
  const enough = searched(whole, (units) => moveOf(units).saves.gte(asked)) ?? whole;
  const found = isPossible(enough) ? enough : (searched(enough, (units) => !isPossible(units)) ?? 0n) - 1n;
  const move = found > 0n ? moveOf(found) : null;
  return move?.saves.greaterThan(0) ? move : null;
}

/** The fewest, from one on, of which something holds that holds of all more; null where it does not of the most. */
function searched(most: bigint, holds: (units: bigint) => boolean): bigint | null {
  if (most === 0n || !holds(most)) return null;
  let [short, enough] = [0n, most];
  while (enough - short > 1n) {
    const middle = (short + enough) / 2n;
    if (holds(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}

function inUnits(weight: Decimal, unit: Weight): Weight {
  return milligrams(BigInt(weight.div(unit.toString()).ceil().toFixed(0)) * unit);
}

/** What is left over, beside what is kept for a use: what was sent somewhere, or stays in stock. */
function restsOf({ sends, kept }: Decision, scenario: Scenario): (KeptPart | Send)[] {
  return [...sends, ...kept.filter(({ lot }) => endOf(lot, scenario) === "stock")];
}

function spareOf(lot: Lot, { decision, scenario }: Bench): Weight {
  const own = restsOf(decision, scenario).filter((rest) => lotKey(rest.lot) === lotKey(lot));
  return totalWeight(own);
}

function keepsLine(decision: Decision, going: PartUse, scenario: Scenario): boolean {
  const isHere = (entry: Where): boolean => isInto(entry, going);
  const here = {
    ...decision,
    cookings: decision.cookings.filter(isHere),
    goings: decision.goings.filter(isHere),
  };
  return lineFaults(here, scenario).length === 0;
}

function moved(
  decision: Decision,
  { out, into, units, put }: Move,
  unit: Weight,
  scenario: Scenario,
): Decision {
  const going = decision.goings[out];
  if (going === undefined) return decision;
  const taken = milligrams(units * unit);
  const goings = decision.goings.map((entry, index) =>
    index === out ? { ...entry, weight: minus(entry.weight, taken) } : entry,
  );
  let rest = withRest(decision, going.lot, taken, scenario);
  if (into !== null) {
    rest = withoutRest(rest, into, put, scenario);
    const same = goings.findIndex(
      (entry) => isInto(entry, going) && entry.line === going.line && lotKey(entry.lot) === lotKey(into),
    );
    const there = goings[same];
    if (there === undefined) goings.push({ ...going, lot: into, weight: put });
    else goings[same] = { ...there, weight: plus(there.weight, put) };
  }
  return { ...rest, goings: goings.filter(({ weight }) => weight > NO_WEIGHT) };
}

/** Where weight of a lot that is left over after all can always go; null for nowhere. */
function endOf(lot: Lot, scenario: Scenario): ReturnType<typeof endOfRest> {
  const kind = scenario.parts.find(({ name }) => name === lot.part);
  return kind === undefined
    ? null
    : endOfRest({ ...lot, kind, lastDay: lastDayOfLot(lot, scenario) }, scenario);
}

/** The decision with more of a lot left over. */
function withRest(decision: Decision, lot: Lot, weight: Weight, scenario: Scenario): Decision {
  const end = endOf(lot, scenario);
  if (end === "stock") {
    const more = { lot, weight, lastDay: lastDayOfLot(lot, scenario) };
    return { ...decision, kept: withMore(decision.kept, more) };
  }
  if (end === null) throw new RangeError(`there is nowhere for what is left of ${lot.part}`);
  return { ...decision, sends: withMore(decision.sends, { lot, destination: end.name, weight }) };
}

function withMore<End extends KeptPart | Send>(ends: readonly End[], more: End): End[] {
  const destinationOf = (end: KeptPart | Send): string | null =>
    "destination" in end ? end.destination : null;
  const same = ends.findIndex(
    (end) => lotKey(end.lot) === lotKey(more.lot) && destinationOf(end) === destinationOf(more),
  );
  if (same < 0) return [...ends, more];
  return ends.map((end, index) => (index === same ? { ...end, weight: plus(end.weight, more.weight) } : end));
}

/** The decision with less of a lot left over. What was wasted is taken first: it stands behind what was given away. */
function withoutRest(decision: Decision, lot: Lot, weight: Weight, scenario: Scenario): Decision {
  const left = { weight };
  const lessOf = <End extends KeptPart | Send>(ends: readonly End[]): End[] =>
    [...ends]
      .reverse()
      .map((end) => {
        if (lotKey(end.lot) !== lotKey(lot)) return end;
        const back = smaller(left.weight, end.weight);
        left.weight = minus(left.weight, back);
        return { ...end, weight: minus(end.weight, back) };
      })
      .reverse()
      .filter(({ weight: rest }) => rest > NO_WEIGHT);
  const sends = lessOf(decision.sends);
  return {
    ...decision,
    sends,
    kept: endOf(lot, scenario) === "stock" ? lessOf(decision.kept) : decision.kept,
  };
}
