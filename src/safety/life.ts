import type { Item, Part, RulesOf } from "../kitchen/index.js";
import { dateRule } from "./dates.js";
import { tcsOf } from "./tcs.js";

/**
 * The last day of the scenario on which a lot may be used: the earlier of its quality life (`keepsDays`, the day of
 * cutting being day 1) and its legal date; null when it outlasts any plan. A part made of a part is asked with its
 * source's cut day.
 */
export function lastUseDay(part: Part, item: Item | null, cutDay: number, rules: RulesOf): number | null {
  return earlier(
    part.keepsDays === null ? null : cutDay + part.keepsDays - 1,
    lastLegalDay(part, item, cutDay, rules),
  );
}

/**
 * The last day the law allows for a lot; null where it sets none. A frozen part has none: its clock stands still.
 * Thawed again, its frozen days count as chilled ones, which is never too long. Raw food of animals is held to the
 * limit of ready-to-eat food.
 */
export function lastLegalDay(part: Part, item: Item | null, cutDay: number, rules: RulesOf): number | null {
  if (part.state === "frozen" || tcsOf(part, item) === null) return null;
  return cutDay + dateRule(rules).days - 1;
}

/**
 * The last day of stock that was on hand when the plan began: the stated one, but for food under the legal
 * date no later than if it had been made on the day the plan began, the first, day 0, unless it began before.
 */
export function lastUseDayOnHand(
  part: Part,
  item: Item | null,
  statedLastDay: number | null,
  rules: RulesOf,
  began = 0,
): number | null {
  return earlier(statedLastDay, lastLegalDay(part, item, began, rules));
}

/** Where a lot that goes into a dish comes from: cut on a day, or on hand since one with a stated last day. */
export type LotAge =
  | { readonly kind: "cut"; readonly day: number }
  | {
      readonly kind: "on hand";
      readonly day: number;
      readonly lastDay: number | null;
      readonly frozen: boolean;
    };

/**
 * The last day that one lot leaves to what was cooked with it on `cookDay`, as a mixture takes the date of its oldest
 * part that bears a legal one; null where the lot bears none.
 */
export function lastDayLeftBy(
  part: Part,
  item: Item | null,
  age: LotAge,
  cookDay: number,
  rules: RulesOf,
): number | null {
  const { days } = dateRule(rules);
  if (tcsOf(part, item) === null) return null;
  // A part frozen in the plan has used up the day it was cut: it is thawed and cooked on its second.
  if (age.kind === "cut") return part.state === "frozen" ? cookDay + days - 2 : age.day + days - 1;
  // How long stock was chilled before it was frozen is not known: what is cooked with it is eaten that day.
  if (age.frozen || part.state === "frozen") return cookDay;
  return Math.min(age.lastDay ?? Infinity, age.day + days - 1);
}

/**
 * The last day on which what is left of a dish may be offered: its quality life from the day it was cooked, the
 * legal date from that day, and what each lot in it leaves (`leftByLots`, see `lastDayLeftBy`). A dish without a
 * life of its own is offered once.
 */
export function lastOfferDay(
  keepsDays: number | null,
  cookDay: number,
  leftByLots: readonly (number | null)[],
  rules: RulesOf,
): number {
  return Math.min(
    cookDay + (keepsDays ?? 1) - 1,
    cookDay + dateRule(rules).days - 1,
    ...leftByLots.filter((day) => day !== null),
  );
}

function earlier(one: number | null, other: number | null): number | null {
  if (one === null || other === null) return one ?? other;
  return Math.min(one, other);
}
