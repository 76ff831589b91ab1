import { type Decimal, ZERO } from "../quantity/index.js";

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

function labour({ minutes }: FormOffer, wage: Decimal): Decimal {
  return minutes.times(wage).div(MINUTES_AN_HOUR);
}
