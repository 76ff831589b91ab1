import type { Breakdown, Item, Scenario } from "../kitchen/index.js";
import { Decimal, toCurrency, toKilograms, ZERO } from "../quantity/index.js";

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
 * Cost of one unit of usable weight: (price + minutes at the wage - trim credit) / usable fraction. `wage` is for an
 * hour. A RangeError where nothing is usable. Source: price over yield, USDA ERS, Fruit and Vegetable Prices; wage
 * and credit are common practice.
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

/** A form as an item of a scenario is bought and most cheaply cut, beside the best of the others. */
export interface PricedForm {
  readonly item: Item;
  readonly breakdown: string;
  readonly offer: FormOffer;
  /** Cost of a usable kilogram, with hands at the wage. */
  readonly usableCost: Decimal;
  readonly overCheapest: Decimal;
  readonly breakEven: FormBreakEven | null;
}

export interface FormBreakEven {
  readonly against: Item;
  readonly perKilogram: Decimal;
  /** For one order unit. */
  readonly price: Decimal;
  /** Null where hands cost nothing extra. */
  readonly minutesPerKilogram: Decimal | null;
}

/** The items of a scenario that are forms of one, in its order. */
export function formsOf(of: string, { items }: Pick<Scenario, "items">): Item[] {
  return items.filter((item) => item.of === of);
}

/** What a scenario buys in two forms or more. */
export function boughtInSeveralForms(scenario: Pick<Scenario, "items">): string[] {
  const names = [...new Set(scenario.items.map(({ of }) => of))];
  return names.filter((of) => formsOf(of, scenario).filter(({ buying }) => buying !== null).length > 1);
}

/** Food that cutting some form of an item gives, by full names. */
export function foodOf(of: string, scenario: Pick<Scenario, "items" | "parts">): string[] {
  const yields = formsOf(of, scenario).flatMap(({ breakdowns }) => breakdowns.flatMap((each) => each.yields));
  const cut = new Set(yields.map(({ part }) => part));
  return scenario.parts.filter((part) => part.class === "food" && cut.has(part.name)).map(({ name }) => name);
}

/** Of that food, what some dish takes. */
export function foodServedOf(of: string, scenario: Scenario): string[] {
  const lines = scenario.dishes.flatMap((dish) => dish.lines);
  const taken = new Set(lines.flatMap(({ from }) => from.map(({ part }) => part)));
  return foodOf(of, scenario).filter((part) => taken.has(part));
}

/**
 * The forms of an item that are bought and give any of the parts wanted, each by its cheapest breakdown, the
 * cheapest per usable weight first. Trim counts at the market value the scenario states for it, else for nothing.
 */
export function pricedForms(of: string, wanted: readonly string[], scenario: Scenario): PricedForm[] {
  const wage = toCurrency(scenario.wage);
  const found = formsOf(of, scenario).flatMap((item) => {
    const price = pricePerKilogram(item);
    if (price === null) return [];
    const offers = item.breakdowns
      .map((breakdown) => ({
        breakdown: breakdown.name,
        offer: offerOf(item, breakdown, price, wanted, scenario),
      }))
      .filter(({ offer }) => offer.usable.gt(ZERO));
    const ways = offers.map(({ offer }) => offer);
    const [cheapest] = compareForms(ways, wage);
    return offers
      .filter(({ offer }) => offer === cheapest?.offer)
      .map((offered) => ({ item, ways, ...offered }));
  });
  return compareForms(
    found.map(({ offer }) => offer),
    wage,
  ).flatMap(({ offer, ...costed }, index, all) => {
    const form = found.find((each) => each.offer === offer);
    const rival = found.find((each) => each.offer === all[index === 0 ? 1 : 0]?.offer);
    if (form === undefined) return [];
    const { item, breakdown } = form;
    return [{ item, breakdown, offer, ...costed, breakEven: breakEvenOf(form, rival, wage) }];
  });
}

interface Offered {
  readonly item: Item;
  /** By the cheapest of its ways of cutting. */
  readonly offer: FormOffer;
  /** By every way of cutting it. */
  readonly ways: readonly FormOffer[];
}

/** At another price another way of cutting may be the cheapest: the break-even is the highest of theirs. */
function breakEvenOf(
  { item, offer, ways }: Offered,
  rival: Offered | undefined,
  wage: Decimal,
): FormBreakEven | null {
  if (rival === undefined) return null;
  const perKilogram = Decimal.max(...ways.map((way) => breakEvenPrice(way, rival.offer, wage)));
  return {
    against: rival.item,
    perKilogram,
    price: perKilogram.times(toKilograms(item.orderUnit.weight)),
    minutesPerKilogram: wage.isZero() ? null : breakEvenMinutes(offer, rival.offer, wage),
  };
}

function offerOf(
  { name, unitWeight }: Item,
  { yields, minutes }: Breakdown,
  price: Decimal,
  wanted: readonly string[],
  { parts }: Scenario,
): FormOffer {
  const worthOf = (name: string): Decimal => {
    const value = parts.find((part) => part.name === name)?.marketValue ?? null;
    return value === null ? ZERO : toCurrency(value);
  };
  const usable = yields.filter(({ part }) => wanted.includes(part));
  const trim = yields.filter(({ part }) => !wanted.includes(part));
  return {
    form: name,
    price,
    usable: Decimal.sum(ZERO, ...usable.map(({ fraction }) => fraction)),
    trimCredit: Decimal.sum(ZERO, ...trim.map(({ part, fraction }) => fraction.times(worthOf(part)))),
    minutes: (minutes ?? ZERO).div(toKilograms(unitWeight)),
  };
}

/** What a kilogram of an item costs as purchased, where few are; null where it is not bought. */
function pricePerKilogram({ buying, orderUnit }: Item): Decimal | null {
  return buying === null ? null : toCurrency(buying.price).div(toKilograms(orderUnit.weight));
}
