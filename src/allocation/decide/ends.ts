import {
  type Cooking,
  type Destination,
  isBinFor,
  type KeptPart,
  type PartUse,
  type Scenario,
  type Send,
} from "../../kitchen/index.js";
import {
  Decimal,
  larger,
  milligrams,
  minus,
  NO_WEIGHT,
  ONE,
  plus,
  smaller,
  type Weight,
} from "../../quantity/index.js";
import { weightBeforeWorking } from "../../waste/index.js";
import { portionWeights } from "../decision-weights.js";
import { downToStep, nearestStep } from "../floats.js";
import type { PlanModel } from "../formulate/index.js";
import { groupBy } from "../group.js";
import { type DatedLot, type LotNode, staysInStock } from "../lot-graph.js";
import { type LotFlows, plainLot, type Rest } from "./lot-flows.js";

/**
 * Portions cooked, served and spare, whole. Spare portions nobody is given go to the first waste destination that has
 * room for what they weigh.
 */
export function decideCookings(
  { scenario, handles }: PlanModel,
  point: readonly number[],
  goings: readonly PartUse[],
  capacity: DestinationCapacity,
): Cooking[] {
  const at = (variable: number): number => Math.round(point[variable] ?? 0);
  const serves = groupBy(handles.serves, ({ site }) => site);
  const spares = groupBy(handles.spares, ({ site }) => site);
  const cookings = serves.entries().flatMap(([site, here]) => {
    const served = here
      .map(({ at: service, variable }) => ({ service, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const spare = spares
      .of(site)
      .map(({ destination, variable }) => ({ destination, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const portions = [...served, ...spare].reduce((sum, entry) => sum + entry.portions, 0);
    return portions === 0 ? [] : [{ dish: site.dish.name, service: site.service, portions, served, spare }];
  });
  return cookings.map((cooking) => sent(cooking, goings, scenario, capacity));
}

type Unsent = Omit<Cooking, "spare"> & {
  readonly spare: readonly { readonly destination: string | null; readonly portions: number }[];
};

function sent(
  cooking: Unsent,
  goings: readonly PartUse[],
  scenario: Scenario,
  capacity: DestinationCapacity,
): Cooking {
  const bins = scenario.destinations.filter(({ end, takes }) => end === "waste" && takes.portions);
  const weights = portionWeights(cooking, goings, scenario).spare;
  const spare = cooking.spare.map(({ destination, portions }, index) => {
    const weight = weights[index] ?? NO_WEIGHT;
    const to = destination ?? bins.find(({ name }) => capacity.has(name, weight))?.name ?? "refuse";
    capacity.take(to, weight);
    return { destination: to, portions };
  });
  return { ...cooking, spare };
}

export interface LotEnds {
  readonly sends: readonly Send[];
  readonly kept: readonly KeptPart[];
}

/** What is over goes where the lot's surplus goes, as far as there is room. */
export function decideEnds(
  rests: readonly Rest[],
  scenario: Scenario,
  capacity: DestinationCapacity,
): LotEnds {
  const ends = rests.map(({ flows, weight }) => endsOf(flows, weight, scenario, capacity));
  return { sends: ends.flatMap(({ sends }) => sends), kept: ends.flatMap(({ kept }) => kept) };
}

/** What destinations with a limit, and permitted stock, may still take. */
export class DestinationCapacity {
  readonly #left = new Map<string, Weight>();

  constructor({ destinations, parts }: Scenario) {
    for (const { name, limit } of destinations) if (limit !== null) this.#left.set(name, limit);
    for (const { name, carry } of parts) this.#left.set(stockOf(name), carry?.limit ?? NO_WEIGHT);
  }

  /** Whether there is room for all of it. */
  has(destination: string, weight: Weight): boolean {
    const left = this.#left.get(destination);
    return left === undefined || left >= weight;
  }

  /** Takes up to `weight`, each gram of which counts as so many, and says how much. */
  take(destination: string, weight: Weight, counted = ONE): Weight {
    const left = this.#left.get(destination);
    if (left === undefined) return weight;
    const taken = smaller(
      milligrams(BigInt(new Decimal(left.toString()).div(counted).floor().toFixed(0))),
      weight,
    );
    const used = milligrams(BigInt(counted.times(taken.toString()).ceil().toFixed(0)));
    this.#left.set(destination, larger(NO_WEIGHT, minus(left, used)));
    return taken;
  }
}

function stockOf(part: string): string {
  return `stock of ${part}`;
}

function endsOf(flows: LotFlows, rest: Weight, scenario: Scenario, capacity: DestinationCapacity): LotEnds {
  const { lot, gives, keep, stays, wasted } = flows;
  const step = scenario.scaleStep;
  const sends = new Map<string, Weight>();
  let left = rest;
  const counted = weightBeforeWorking(lot, scenario);
  const send = (destination: string, weight: Weight, each = ONE): void => {
    const sent = capacity.take(destination, smaller(weight, left), each);
    if (sent === NO_WEIGHT) return;
    sends.set(destination, plus(sends.get(destination) ?? NO_WEIGHT, sent));
    left = minus(left, sent);
  };
  const surplusIsKept = keep > NO_WEIGHT && wasted < step && gives.every(({ proposed }) => proposed < step);
  const keptWeight = capacity.take(
    stockOf(lot.part),
    smaller(left, surplusIsKept ? left : nearestStep(keep, step)),
  );
  left = minus(left, keptWeight);
  for (const { destination, proposed } of gives)
    send(destination, downToStep(plus(proposed, milligrams(10n)), step), counted);
  const stayed = stays === null ? NO_WEIGHT : smaller(left, wasted < step ? left : nearestStep(stays, step));
  left = minus(left, stayed);
  const surplusIsGiven = wasted < step ? gives.filter(({ proposed }) => proposed >= step) : [];
  for (const { destination } of surplusIsGiven) send(destination, left, counted);
  for (const { name } of binsFor(lot, scenario)) send(name, left);
  return {
    sends: [...sends].map(([destination, weight]) => ({ lot: plainLot(lot), destination, weight })),
    kept: keptOf(lot, plus(keptWeight, stayed)),
  };
}

function keptOf(lot: LotNode, weight: Weight): KeptPart[] {
  return weight === NO_WEIGHT ? [] : [{ lot: plainLot(lot), weight, lastDay: lot.lastDay }];
}

/** The destinations for waste that take a lot, first the one stated for what is not used of the stock. */
function binsFor(
  { origin, kind }: DatedLot,
  { destinations, partsOnHand }: Scenario,
): readonly Destination[] {
  const stated = origin.kind === "onHand" ? partsOnHand[origin.index]?.destination : undefined;
  const bins = destinations.filter((destination) => isBinFor(kind.class, destination));
  return [...bins.filter(({ name }) => name === stated), ...bins.filter(({ name }) => name !== stated)];
}

/** Where weight of a lot that is left over after all can always go: kept as stock, or to so named a destination. */
export function endOfRest(lot: DatedLot, scenario: Scenario): "stock" | Destination | null {
  if (staysInStock(lot, scenario)) return "stock";
  return binsFor(lot, scenario).find(({ limit }) => limit === null) ?? null;
}
