import type { Cooking, Decision, Item, ItemEnd, Lot, Scenario, Send } from "../../kitchen/index.js";
import { lotKey } from "../../kitchen/index.js";
import { minus, NO_WEIGHT, plus, smaller, splitByShares, total, type Weight } from "../../quantity/index.js";
import { lastDayOfLot } from "../../safety/index.js";
import { binFor } from "../bin-for.js";

/** What came in of an item at one time, and what is left of it. */
interface ItemLot {
  readonly service: number;
  readonly weight: Weight;
  readonly left: Weight;
  /** Of the whole plan's days; null where it outlasts any plan. */
  readonly lastDay: number | null;
  /** Where what is not used goes though it would keep; left out where it stays in stock. */
  readonly destination?: string;
}

/** What is left of each lot of an item, on hand first and then as bought; what keeps least was used first. */
export function itemLotsLeft(item: Item, decision: Decision, scenario: Scenario): ItemLot[] {
  const of = (entry: { item: string }): boolean => entry.item === item.name;
  const lots = [
    ...item.onHand.map(({ weight, lastDay, destination }) => ({
      ...{ service: 0, weight, lastDay },
      ...(destination === undefined ? {} : { destination }),
    })),
    ...decision.purchases.filter(of).map(({ service, weight }) => ({
      service,
      weight,
      lastDay: item.keepsDays === null ? null : dayOf(service, scenario) + item.keepsDays - 1,
    })),
  ];
  let used = total([...decision.cuts, ...decision.binned].filter(of).map(({ weight }) => weight));
  const taken = new Map(
    [...lots]
      .sort((a, b) => (a.lastDay ?? Infinity) - (b.lastDay ?? Infinity))
      .map((lot) => {
        const weight = smaller(used, lot.weight);
        used = minus(used, weight);
        return [lot, weight] as const;
      }),
  );
  return lots.map((lot) => ({ ...lot, left: minus(lot.weight, taken.get(lot) ?? NO_WEIGHT) }));
}

/** Whole items that kept no longer than to a day before the service: binned when they last kept. */
export function itemsEnded(past: Decision, before: number, scenario: Scenario): ItemEnd[] {
  const day = dayOf(before, scenario);
  return scenario.items.flatMap((item) =>
    itemLotsLeft(item, past, scenario).flatMap(({ service, left, lastDay }): ItemEnd[] => {
      if (left === NO_WEIGHT || lastDay === null || lastDay >= day) return [];
      const last = scenario.services.reduce(
        (at, { day: of }, index) => (of <= lastDay ? index : at),
        service,
      );
      const isWhole = item.measure === "whole" && left % item.unitWeight === 0n;
      return [
        {
          item: item.name,
          service: last,
          units: isWhole ? Number(left / item.unitWeight) : null,
          weight: left,
        },
      ];
    }),
  );
}

export interface LotLeft {
  readonly lot: Lot;
  readonly weight: Weight;
}

/** Parts that kept no longer went where the plan sent them, as far as there were; what is more is waste. */
export function partsEnded(
  all: readonly LotLeft[],
  planned: readonly Send[],
  before: number,
  scenario: Scenario,
): { sends: Send[]; left: LotLeft[] } {
  const day = dayOf(before, scenario);
  const isOver = ({ lot }: LotLeft): boolean => (lastDayOfLot(lot, scenario) ?? day) < day;
  const sends = all.filter(isOver).flatMap(({ lot, weight }): Send[] => {
    const own = planned.filter((send) => lotKey(send.lot) === lotKey(lot));
    const shares = own.map((send) => send.weight);
    const sent = smaller(weight, total(shares));
    const weights = splitByShares(sent, shares);
    const over = minus(weight, sent);
    return [
      ...own.map((send, index) => ({ ...send, weight: weights[index] ?? NO_WEIGHT })),
      { lot, destination: binFor(lot.part, scenario), weight: over },
    ].filter((send) => send.weight > NO_WEIGHT);
  });
  return { sends: gathered(sends, sendKey), left: all.filter((each) => !isOver(each)) };
}

/** One entry for each key, with the weights of all that share it. */
export function gathered<T extends { readonly weight: Weight }>(
  entries: readonly T[],
  keyOf: (entry: T) => string,
): T[] {
  const sums = new Map<string, T>();
  for (const entry of entries) {
    const known = sums.get(keyOf(entry));
    sums.set(
      keyOf(entry),
      known === undefined ? entry : { ...known, weight: plus(known.weight, entry.weight) },
    );
  }
  return [...sums.values()];
}

export const sendKey = ({ lot, destination }: Send): string => `${lotKey(lot)} ${destination}`;

/**
 * Cookings whose portions wait for a service that now expects fewer: those too many are spare, the last cooked first.
 */
export function withoutTooMany(
  cookings: readonly Cooking[],
  before: number,
  { services, dishes, destinations }: Scenario,
): Cooking[] {
  const taker =
    destinations.find(({ end, takes, limit }) => end === "given away" && takes.portions && limit === null) ??
    destinations.find(({ end, takes, limit }) => end === "waste" && takes.portions && limit === null);
  const courseOf = (name: string): string | null => dishes.find((dish) => dish.name === name)?.course ?? null;
  const room = new Map<string, number>(
    services
      .slice(before)
      .flatMap((service, index) =>
        service.courses.map(({ name, portions }) => [`${before + index} ${name}`, portions] as const),
      ),
  );
  return cookings.map((cooking) => {
    const served = cooking.served.map((at) => {
      const key = `${at.service} ${courseOf(cooking.dish)}`;
      const free = room.get(key);
      if (free === undefined) return at;
      const portions = Math.min(at.portions, free);
      room.set(key, free - portions);
      return { ...at, portions };
    });
    const over = portionsOf(cooking.served) - portionsOf(served);
    if (over === 0) return cooking;
    const destination = taker?.name ?? "refuse";
    const known = cooking.spare.find((to) => to.destination === destination)?.portions ?? 0;
    const spare = [
      ...cooking.spare.filter((to) => to.destination !== destination),
      { destination, portions: known + over },
    ];
    return { ...cooking, served: served.filter(({ portions }) => portions > 0), spare };
  });
}

function portionsOf(list: readonly { readonly portions: number }[]): number {
  return list.reduce((sum, { portions }) => sum + portions, 0);
}

function dayOf(service: number, { services }: Scenario): number {
  return services[service]?.day ?? 0;
}
