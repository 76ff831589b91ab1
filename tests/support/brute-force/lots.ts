import type { Part, PartOnHand, Scenario, Step } from "../../../src/kitchen/index.js";
import type { ItemPlan } from "./item-plans.js";
import { wholeGrams, wholePart } from "./whole.js";

/** A part of one origin. */
export interface Lot {
  readonly index: number;
  readonly part: Part;
  /** "cut 0", "on hand 1". */
  readonly origin: string;
  /** Service it was cut before; 0 for stock on hand. */
  readonly first: number;
  readonly lastDay: number | null;
  /** Grams from cutting, or on hand. */
  supply: number;
}

/** A step as it may be worked on one lot before one service. */
export interface Draw {
  readonly step: Step;
  readonly from: Lot;
  readonly service: number;
  readonly outputs: readonly { readonly lot: Lot; readonly fraction: Step["loss"] }[];
}

/** The lots that a way of cutting gives, with all that steps can make of them. */
export function lotsOf(
  plans: readonly ItemPlan[],
  scenario: Scenario,
): { lots: readonly Lot[]; draws: readonly Draw[] } {
  const lots: Lot[] = [];
  const draws: Draw[] = [];
  const open = (name: string, origin: string, first: number): Lot => {
    const found = lots.find((lot) => lot.part.name === name && lot.origin === origin);
    if (found !== undefined) return found;
    const lastDay = lastDayOf(name, origin, scenario);
    const lot = { index: lots.length, part: partNamed(name, scenario), origin, first, lastDay, supply: 0 };
    lots.push(lot);
    return lot;
  };
  for (const { cuts } of plans) {
    for (const { breakdown, service, grams } of cuts) {
      for (const { part, fraction } of breakdown.yields) {
        const lot = open(part, `cut ${service}`, service);
        lot.supply += wholePart(grams, fraction);
      }
    }
  }
  scenario.partsOnHand.forEach(({ part, weight }, index) => {
    open(part, `on hand ${index}`, 0).supply += wholeGrams(weight);
  });
  // The list grows while it is walked: what a step makes may be worked further.
  for (const from of lots) {
    for (const step of scenario.steps) {
      if (!step.from.includes(from.part.name)) continue;
      const outputs = step.yields.map(({ part, fraction }) => ({
        lot: open(part, from.origin, from.first),
        fraction,
      }));
      for (let service = from.first; service < scenario.services.length; service++) {
        if (!usableAt(from, service, scenario)) continue;
        draws.push({ step, from, service, outputs });
      }
    }
  }
  return { lots, draws };
}

/**
 * The last day of a part of an origin; null where it has none. What is made of a part keeps its source's date: its own
 * days count from the day the source was cut. Of stock on hand that day is not known, so what is made of it keeps no
 * longer than the stock, unless it is frozen.
 */
export function lastDayOf(name: string, origin: string, scenario: Scenario): number | null {
  const part = partNamed(name, scenario);
  const legal = legalDaysOf(part, scenario);
  const from = (day: number): number => day + Math.min(part.keepsDays ?? Infinity, legal) - 1;
  const stock = scenario.partsOnHand.find((_, index) => origin === `on hand ${index}`);
  const last = (): number => {
    if (stock === undefined) return from(scenario.services[Number(origin.slice("cut ".length))]?.day ?? 0);
    if (stock.part !== name && part.state === "frozen") return from(0);
    return Math.min(stock.lastDay ?? Infinity, legal - 1);
  };
  return last() === Infinity ? null : last();
}

function partNamed(name: string, { parts }: Scenario): Part {
  const part = parts.find((candidate) => candidate.name === name);
  if (part === undefined) throw new RangeError(`no part is called ${name}`);
  return part;
}

/** Days of ready-to-eat food in the cold, day 1 being that of preparation; see the sources in safety/dates.ts. */
export const LEGAL_DAYS = { us: 7, uk: 5, eu: 4, france: 4, australia: 5 } as const;

/** So many days the law gives a part of these small scenarios; Infinity where it bears no date. */
function legalDaysOf(part: Part, scenario: Scenario): number {
  return part.state === "frozen" || !needsCold(part) ? Infinity : LEGAL_DAYS[scenario.rules];
}

/** By the names of these scenarios: cut leafy greens, what is cooked, and mixtures made in the kitchen. */
function needsCold({ name, item, state }: Part): boolean {
  return item === null || state === "cooked" || /\b(leaf|leaves|greens)\b/.test(name);
}

/** Whether a lot, cooked for one service, may still be on the plate at a later one. */
export function mayWaitIn(lot: Lot, service: number, at: number, scenario: Scenario): boolean {
  const dayOf = (index: number): number => scenario.services[index]?.day ?? 0;
  if (dayOf(at) === dayOf(service) || !needsCold(lot.part)) return true;
  const days = LEGAL_DAYS[scenario.rules];
  if (lot.origin.startsWith("cut"))
    return lot.part.state === "frozen"
      ? dayOf(at) <= dayOf(service) + days - 2
      : dayOf(at) <= dayOf(lot.first) + days - 1;
  const stock = scenario.partsOnHand[Number(lot.origin.slice("on hand ".length))];
  const isFrozen = [stock?.part, lot.part.name].some(
    (name) => scenario.parts.find((part) => part.name === name)?.state === "frozen",
  );
  return !isFrozen && dayOf(at) <= Math.min(stock?.lastDay ?? Infinity, days - 1);
}

export function usableAt(lot: Lot, service: number, scenario: Scenario): boolean {
  const day = scenario.services[service]?.day ?? 0;
  return service >= lot.first && (lot.lastDay === null || day <= lot.lastDay);
}

export function outlastsPlan(lot: Lot, scenario: Scenario): boolean {
  return lot.lastDay === null || lot.lastDay > (scenario.services.at(-1)?.day ?? 0);
}

/** The entry on hand that a lot is, as it came and unworked; null for what was cut or made of something. */
export function ownStock({ part, origin }: Lot, { partsOnHand }: Scenario): PartOnHand | null {
  const entry = partsOnHand.find((_, index) => origin === `on hand ${index}`);
  return entry?.part === part.name ? entry : null;
}
