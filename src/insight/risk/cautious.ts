import type { Breakdown, Cut, Decision, Item, Lot, Scenario, Send } from "../../kitchen/index.js";
import { lotKey } from "../../kitchen/index.js";
import {
  Decimal,
  minus,
  NO_WEIGHT,
  ONE,
  plus,
  splitByShares,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import { binFor } from "../bin-for.js";
import type { Risk } from "./risk.js";
import { decimalText, type RiskJson } from "./risk.js";

/** By how much each item's yields are lowered for planning, by its name: 0.1 being a tenth of each part. */
export type Lowered = ReadonlyMap<string, Decimal>;

/** Yields are never lowered by more than this. */
const MOST_LOWERED = new Decimal("0.7");
/** In one step, what is left of the yields is never less than this part of what was. */
const LEAST_KEPT = 0.75;
/** Where no number of units was found that would do, as if this part of them were missing. */
const UNKNOWN_LACK = 0.3;

/**
 * The scenario with lower yields of everything that moves by weight; what is taken off counts as cutting loss. What
 * moves in pieces gives as many as ever.
 */
export function withLowered(scenario: Scenario, lowered: Lowered): Scenario {
  const inPieces = new Set(
    scenario.parts.filter(({ pieceWeight }) => pieceWeight !== null).map(({ name }) => name),
  );
  const lower = (breakdown: Breakdown, by: Decimal): Breakdown => {
    const yields = breakdown.yields.map(({ part, fraction }) => ({
      part,
      fraction: inPieces.has(part) ? fraction : fraction.times(ONE.minus(by)),
    }));
    return { ...breakdown, yields, loss: yields.reduce((rest, { fraction }) => rest.minus(fraction), ONE) };
  };
  const items = scenario.items.map((item): Item => {
    const by = lowered.get(item.name) ?? ZERO;
    return by.isZero() ? item : { ...item, breakdowns: item.breakdowns.map((each) => lower(each, by)) };
  });
  return { ...scenario, items };
}

/**
 * A decision made on lowered yields, on the yields as they are: the same is bought, cut, worked and cooked, and what
 * the cuts give more is expected to be over.
 */
export function onFullYields(decision: Decision, scenario: Scenario): Decision {
  const over = new Map<string, { lot: Lot; weight: Weight }>();
  const cuts = decision.cuts.map((cut) => {
    const full = fullCut(cut, scenario);
    full.parts.forEach(({ part, weight }, index) => {
      const lot: Lot = { part, origin: { kind: "cut", service: cut.service } };
      const more = minus(weight, cut.parts[index]?.weight ?? NO_WEIGHT);
      over.set(lotKey(lot), { lot, weight: plus(over.get(lotKey(lot))?.weight ?? NO_WEIGHT, more) });
    });
    return full;
  });
  const sends = [...decision.sends];
  for (const { lot, weight } of over.values()) {
    if (weight === NO_WEIGHT) continue;
    const destination = binFor(lot.part, scenario);
    const at = sends.findIndex(
      (send) => send.destination === destination && lotKey(send.lot) === lotKey(lot),
    );
    const known: Send = sends[at] ?? { lot, destination, weight: NO_WEIGHT };
    const send = { ...known, weight: plus(known.weight, weight) };
    if (at < 0) sends.push(send);
    else sends[at] = send;
  }
  return { ...decision, cuts, sends: sends.filter(({ weight }) => weight !== NO_WEIGHT) };
}

function fullCut(cut: Cut, scenario: Scenario): Cut {
  const item = scenario.items.find(({ name }) => name === cut.item);
  const breakdown = item?.breakdowns.find(({ name }) => name === cut.breakdown);
  if (breakdown === undefined) return cut;
  const shares = [...breakdown.yields.map(({ fraction }) => fraction), breakdown.loss];
  const pieces = splitByShares(cut.weight, shares);
  return {
    ...cut,
    parts: cut.parts.map((part, index) => ({ ...part, weight: pieces[index] ?? NO_WEIGHT })),
    loss: pieces.at(-1) ?? NO_WEIGHT,
  };
}

/** Whether every dish is there in full with at least this chance. */
export function isSureEnough({ dishes }: Risk, level: number): boolean {
  return dishes.every(({ chanceShort }) => 1 - chanceShort >= level);
}

/**
 * Yields lowered further for the items of which a plan has too little: by as much as would make the planner buy the
 * order units that the dishes not sure enough were found to need. Null where they cannot be lowered any more.
 */
export function loweredFurther(
  lowered: Lowered,
  { dishes }: Risk,
  level: number,
  { decision, scenario }: { decision: Decision; scenario: Scenario },
): Lowered | null {
  const lacks = new Map<string, number>();
  const lacking = (item: string, units: number): void => {
    lacks.set(item, Math.max(lacks.get(item) ?? 0, units));
  };
  for (const { dish, service, chanceShort, more } of dishes) {
    if (1 - chanceShort >= level) continue;
    const enough = more.find((step) => step.level >= level)?.units ?? null;
    for (const { item, orderUnits } of enough ?? []) lacking(item, orderUnits);
    if (enough !== null && enough.length > 0) continue;
    for (const item of itemsBehind(dish, service, decision, scenario))
      lacking(item, UNKNOWN_LACK * boughtOf(item, decision));
  }
  const next = new Map(lowered);
  for (const [item, units] of lacks) {
    const bought = boughtOf(item, decision);
    const kept = ONE.minus(lowered.get(item) ?? ZERO);
    const part = Math.max(LEAST_KEPT, bought === 0 ? 1 - UNKNOWN_LACK : bought / (bought + units));
    next.set(item, Decimal.min(MOST_LOWERED, ONE.minus(kept.times(part.toFixed(4)))));
  }
  const isLower = [...next].some(([item, by]) => by.gt(lowered.get(item) ?? ZERO));
  return isLower ? next : null;
}

/** Half way from one lowering to a further one. */
export function halfWay(from: Lowered, to: Lowered): Lowered {
  return new Map(
    [...to].map(([item, by]) => [
      item,
      by
        .plus(from.get(item) ?? ZERO)
        .div(2)
        .toDecimalPlaces(4),
    ]),
  );
}

function boughtOf(item: string, { purchases }: Decision): number {
  return purchases.reduce((sum, entry) => (entry.item === item ? sum + entry.orderUnits : sum), 0);
}

/** Items whose cuts a dish's parts come from, through every step. */
function itemsBehind(dish: string, service: number, decision: Decision, scenario: Scenario): string[] {
  const parts = new Set(
    decision.goings
      .filter((going) => going.dish === dish && going.service === service)
      .map(({ lot }) => lot.part),
  );
  for (let size = -1; size < parts.size; ) {
    size = parts.size;
    for (const { from, yields } of scenario.steps)
      if (yields.some(({ part }) => parts.has(part))) for (const part of from) parts.add(part);
  }
  return scenario.items
    .filter(({ breakdowns }) => breakdowns.some(({ yields }) => yields.some(({ part }) => parts.has(part))))
    .filter(({ name }) => decision.cuts.some(({ item }) => item === name))
    .map(({ name }) => name);
}

/** How a plan came to be so sure: what was asked, whether it was reached, and on which yields it was planned. */
export function cautiousJson(level: number, isReached: boolean, lowered: Lowered): RiskJson["cautious"] {
  return {
    asked: decimalText(level, 4),
    reached: isReached,
    lowered: [...lowered].map(([item, by]) => ({ item, by: by.toFixed(4) })),
  };
}
