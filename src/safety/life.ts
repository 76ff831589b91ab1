import type { Item, Part } from "../kitchen/index.js";
import { DATE_RULES, DEFAULT_JURISDICTION, type Jurisdiction } from "./dates.js";
import { tcsOf } from "./tcs.js";

/**
 * The last day, as a day of the scenario, on which a lot may be used: the earlier of its quality life
 * (`keepsDays`, the day it was cut being day 1) and, for food that needs temperature control, the legal date.
 * Null when it outlasts any plan. A part made of a part is asked with its source's cut day, and a mixture with
 * its oldest, so that neither gains a day. A frozen part is bound by its quality life alone: the legal clock
 * stands still. A lot does not record when it was frozen, so a part thawed again counts its frozen days as
 * chilled ones, which is never too long. Raw food of animals is held to the same limit as ready-to-eat food.
 */
export function lastUseDay(
  part: Part,
  item: Item | null,
  cutDay: number,
  jurisdiction: Jurisdiction = DEFAULT_JURISDICTION,
): number | null {
  return earlier(
    part.keepsDays === null ? null : cutDay + part.keepsDays - 1,
    lastLegalDay(part, item, cutDay, jurisdiction),
  );
}

/** The last day the law allows for a lot; null where it sets none. */
export function lastLegalDay(
  part: Part,
  item: Item | null,
  cutDay: number,
  jurisdiction: Jurisdiction = DEFAULT_JURISDICTION,
): number | null {
  if (part.state === "frozen" || tcsOf(part, item) === null) return null;
  return cutDay + DATE_RULES[jurisdiction].days - 1;
}

/**
 * The last day of stock that was on hand when the plan began: the stated one, but for food under the legal
 * date no later than if it had been made on the plan's first day, day 0.
 */
export function lastUseDayOnHand(
  part: Part,
  item: Item | null,
  statedLastDay: number | null,
  jurisdiction: Jurisdiction = DEFAULT_JURISDICTION,
): number | null {
  return earlier(statedLastDay, lastLegalDay(part, item, 0, jurisdiction));
}

/**
 * The last day on which what is left of a dish may be offered: its quality life from the day it was cooked, and
 * the legal date of its oldest ingredient, `oldestCutDay`. A dish without a life of its own is offered once.
 */
export function lastOfferDay(
  keepsDays: number | null,
  cookDay: number,
  oldestCutDay: number,
  jurisdiction: Jurisdiction = DEFAULT_JURISDICTION,
): number {
  return Math.min(cookDay + (keepsDays ?? 1) - 1, oldestCutDay + DATE_RULES[jurisdiction].days - 1);
}

function earlier(one: number | null, other: number | null): number | null {
  if (one === null || other === null) return one ?? other;
  return Math.min(one, other);
}
