import { Decimal, toKilograms, ZERO } from "../quantity/index.js";
import type { TableBreakdown, TableItem } from "./tables.js";

/** One form an item can be bought in, by the unit of weight as bought: untrimmed head, crown, cut florets. */
export interface FormOffer {
  readonly form: string;
  /** AP price. */
  readonly price: Decimal;
  /** Usable weight in one unit of weight bought, above 0. */
  readonly usable: Decimal;
  /** What the trim of one unit bought is worth to this kitchen; 0 where it has no use. */
  readonly trimCredit: Decimal;
  /** Hands-on minutes for one unit bought. */
  readonly minutes: Decimal;
}

export interface ComparedForm {
  readonly offer: FormOffer;
  /** Cost of one unit of usable weight, with trimming at the wage and the trim credited. */
  readonly usableCost: Decimal;
  /** How much more than the cheapest. */
  readonly overCheapest: Decimal;
}

const MINUTES_AN_HOUR = 60;

/**
 * Cost of one unit of usable weight: (price + minutes at the wage - trim credit) / usable fraction. The wage is
 * for an hour, 0 where hands cost nothing extra. A RangeError where nothing is usable.
 * Source: price over yield is the cost per usable weight of USDA ERS, Fruit and Vegetable Prices; wage and credit
 * are common practice.
 */
export function usableCost(offer: FormOffer, wage: Decimal): Decimal {
  if (offer.usable.lte(ZERO)) throw new RangeError(`nothing of ${offer.form} is usable`);
  return offer.price.plus(labour(offer, wage)).minus(offer.trimCredit).div(offer.usable);
}

/** The forms, cheapest per usable weight first; among equals in the order given. */
export function compareForms(offers: readonly FormOffer[], wage: Decimal): ComparedForm[] {
  const costed = offers
    .map((offer) => ({ offer, usableCost: usableCost(offer, wage) }))
    .sort((left, right) => left.usableCost.comparedTo(right.usableCost));
  const cheapest = costed[0]?.usableCost ?? ZERO;
  return costed.map((form) => ({ ...form, overCheapest: form.usableCost.minus(cheapest) }));
}

/** The AP price at which `offer` costs the same as `other` per usable weight: above it, buy the other. */
export function breakEvenPrice(offer: FormOffer, other: FormOffer, wage: Decimal): Decimal {
  return usableCost(other, wage).times(offer.usable).plus(offer.trimCredit).minus(labour(offer, wage));
}

/**
 * The minutes that trimming one unit of `offer` may take before `other` is as cheap, at a wage above 0. Below
 * zero: the other is cheaper even if trimming took no time.
 */
export function breakEvenMinutes(offer: FormOffer, other: FormOffer, wage: Decimal): Decimal {
  if (wage.lte(ZERO)) throw new RangeError("the wage is not above zero: minutes cost nothing");
  const worthOfTrimming = usableCost(other, wage)
    .times(offer.usable)
    .plus(offer.trimCredit)
    .minus(offer.price);
  return worthOfTrimming.div(wage).times(MINUTES_AN_HOUR);
}

/**
 * What trim is worth at best: what it fetches as it is, or what is made of it less what the making costs (fuel,
 * hands, other ingredients); never below 0, for trim may be left unused. Source: the rule of sell or process
 * further for joint products, textbooks of managerial accounting.
 */
export function trimValue(
  asItIs: Decimal,
  workedUp: { readonly worth: Decimal; readonly cost: Decimal },
): Decimal {
  return Decimal.max(ZERO, asItIs, workedUp.worth.minus(workedUp.cost));
}

/**
 * An offer with the yields of the tables (or of the kitchen's own tests), by the kilogram: the parts wanted are
 * usable, the others are credited at the value of a kilogram stated for them, 0 where none is.
 * A RangeError where the breakdown does not give a part that is wanted.
 */
export function offerFromTables(
  item: TableItem,
  breakdown: TableBreakdown,
  price: Decimal,
  wanted: readonly string[],
  trimValues: ReadonlyMap<string, Decimal>,
): FormOffer {
  const given = breakdown.parts.map(({ part }) => part);
  const lacking = wanted.find((part) => !given.includes(part));
  if (lacking !== undefined)
    throw new RangeError(`${breakdown.name} of ${item.name} (${item.form}) gives no ${lacking}`);
  const usable = breakdown.parts.filter(({ part }) => wanted.includes(part));
  const trim = breakdown.parts.filter(({ part }) => !wanted.includes(part));
  return {
    form: item.form,
    price,
    usable: Decimal.sum(ZERO, ...usable.map(({ fraction }) => fraction)),
    trimCredit: Decimal.sum(
      ZERO,
      ...trim.map(({ part, fraction }) => fraction.times(trimValues.get(part) ?? ZERO)),
    ),
    minutes: (breakdown.minutes ?? ZERO).div(toKilograms(item.unitWeight)),
  };
}

function labour({ minutes }: FormOffer, wage: Decimal): Decimal {
  return minutes.times(wage).div(MINUTES_AN_HOUR);
}
