import {
  type Dish,
  type Item,
  type Scenario,
  type StapleLine,
  type Supplier,
  supplierOf,
} from "../../kitchen/index.js";
import { Decimal, minus, OUNCE_MILLIGRAMS, scaleWithStep, smaller, times } from "../../quantity/index.js";
import { CENT, decimalText, type Lever, moneyText, THOUSANDTH } from "./lever.js";

/** The price of an item and how much of it may or must be bought. */
export function itemLevers(item: Item, scenario: Scenario): Lever[] {
  const { buying, orderUnit } = item;
  if (buying === null) return [];
  const withItem = (changed: Item): Scenario => ({
    ...scenario,
    items: scenario.items.map((other) => (other === item ? changed : other)),
  });
  const withBuying = (changed: Partial<typeof buying>): Scenario =>
    withItem({ ...item, buying: { ...buying, ...changed } });
  // A lower price can leave an order below its supplier's least.
  const hasMinimum = (supplierOf(item, scenario)?.minimum ?? 0n) > 0n;
  const levers: Lever[] = [
    {
      subject: `price of ${item.name}`,
      about: { item: item.name },
      step: "0.001",
      steps: Number(buying.price / (2n * THOUSANDTH)),
      eases: hasMinimum ? "nearly" : "always",
      change: (steps) => {
        const price = minus(buying.price, times(THOUSANDTH, steps));
        const breaks = buying.breaks?.filter((lower) => lower.price < price) ?? [];
        const { breaks: _, ...flat } = buying;
        const changed = { ...flat, price, ...(breaks.length === 0 ? {} : { breaks }) };
        return {
          scenario: withItem({ ...item, buying: changed }),
          value: `${moneyText(price)} / ${orderUnit.name}`,
          text: `Buy ${item.name} at ${moneyText(price)} / ${orderUnit.name} instead of ${moneyText(buying.price)}`,
        };
      },
    },
  ];
  const { most, least } = buying;
  if (most !== null) {
    levers.push({
      subject: `most ${item.name} to buy`,
      about: { item: item.name },
      step: `1 ${orderUnit.name}`,
      steps: Math.max(50, 4 * most),
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ most: most + steps }),
        value: `${most + steps} x ${orderUnit.name}`,
        text: `Buy up to ${most + steps} x ${orderUnit.name} of ${item.name} instead of ${most}`,
      }),
    });
  }
  if (least > 0) {
    levers.push({
      subject: `least ${item.name} to buy`,
      about: { item: item.name },
      step: `1 ${orderUnit.name}`,
      steps: least,
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ least: least - steps }),
        value: `${least - steps} x ${orderUnit.name}`,
        text: `Buy as few as ${least - steps} x ${orderUnit.name} of ${item.name} instead of ${least}`,
      }),
    });
  }
  return levers;
}

/** With no most stated, so many order units are tried. */
const MANY = 1000;

/** Buying on the day what nothing says can be bought, in a shop or of a supplier that delivers again. */
export function shopLevers(item: Item, scenario: Scenario): Lever[] {
  const { inShops, buying, orderUnit } = item;
  const first = scenario.services[0];
  if (inShops === undefined || first === undefined) return [];
  const withBuying = (changed: Item["buying"]): Scenario => ({
    ...scenario,
    items: scenario.items.map((other) => (other === item ? { ...item, buying: changed } : other)),
  });
  const common = { subject: `${item.name} bought before ${first.name}`, about: { item: item.name } };
  if (buying !== null)
    return [
      {
        ...common,
        step: "buying it",
        steps: 1,
        eases: "always",
        change: () => ({
          scenario: withBuying({ ...buying, deliveries: [0, ...buying.deliveries] }),
          value: "can be bought",
          text: `Buy ${item.name} before ${first.name}, if it can be had`,
        }),
      },
    ];
  return [
    {
      ...common,
      step: `1 ${orderUnit.name}`,
      steps: inShops.most ?? MANY,
      eases: "always",
      change: (steps) => ({
        scenario: withBuying({ ...inShops, most: steps }),
        value: `${steps} x ${orderUnit.name}`,
        text: `Buy ${steps} x ${orderUnit.name} of ${item.name} before ${first.name}, if it can be had`,
      }),
    },
  ];
}

/** What suppliers ask of an order: its least worth, and what its delivery is charged. */
export function supplierLevers(scenario: Scenario): Lever[] {
  return (scenario.suppliers ?? []).flatMap((supplier) => [
    ...termLever(
      supplier,
      scenario,
      "minimum",
      (amount) => `Have ${supplier.name} take an order of ${amount}`,
    ),
    ...termLever(supplier, scenario, "delivery", (amount) => `Pay ${supplier.name} ${amount} for a delivery`),
  ]);
}

function termLever(
  supplier: Supplier,
  scenario: Scenario,
  term: "minimum" | "delivery",
  text: (amount: string) => string,
): Lever[] {
  const stated = supplier[term];
  if (stated === 0n) return [];
  return [
    {
      subject: `${term === "minimum" ? "least order" : "delivery charge"} of ${supplier.name}`,
      about: { supplier: supplier.name },
      step: "0.01",
      steps: Number((stated + CENT - 1n) / CENT),
      eases: "always",
      change: (steps) => {
        const amount = minus(stated, smaller(stated, times(CENT, steps)));
        return {
          scenario: {
            ...scenario,
            suppliers: (scenario.suppliers ?? []).map((other) =>
              other === supplier ? { ...supplier, [term]: amount } : other,
            ),
          },
          value: moneyText(amount),
          text: `${text(moneyText(amount))} instead of ${moneyText(stated)}`,
        };
      },
    },
  ];
}

const STEPS = {
  g: new Decimal("0.5"),
  mL: new Decimal("0.5"),
  each: new Decimal("0.5"),
  oz: new Decimal("0.02"),
};
const PRICE_STEP = new Decimal("0.001");
const GRAMS_OF_OUNCE = OUNCE_MILLIGRAMS.div(1000);
/** Kilograms of the international pound of 16 ounces. */
const KILOGRAMS_OF_POUND = OUNCE_MILLIGRAMS.times(16).div(1_000_000);

/** The amount and the price of a staple, or its flat cost. */
export function stapleLevers(
  staple: StapleLine,
  dish: Dish,
  scenario: Scenario,
  withStaple: (changed: Partial<StapleLine>) => Scenario,
): Lever[] {
  const { amount, price, costPerPortion, name } = staple;
  if (amount === null || price === null) {
    return [
      {
        subject: `${name} in ${dish.name}`,
        about: { dish: dish.name },
        step: "0.01",
        steps: Number(costPerPortion.div("0.02").floor()),
        eases: "always",
        change: (steps) => {
          const cost = costPerPortion.minus(new Decimal(steps).times("0.01"));
          return {
            scenario: withStaple({ costPerPortion: cost }),
            value: `${decimalText(cost)} a portion`,
            text: `Bring ${name} in ${dish.name} down from ${decimalText(costPerPortion)} to ${decimalText(cost)} a portion`,
          };
        },
      },
    ];
  }
  const per = amount.unit === "g" ? "kg" : amount.unit === "mL" ? "L" : "each";
  // An amount in grams is written in ounces where the kitchen's scale reads in them, and its price by the pound.
  const ounces = amount.unit === "g" && scaleWithStep(scenario.scaleStep).unit === "oz";
  const unit = ounces ? "oz" : amount.unit;
  const written = ounces ? amount.value.div(GRAMS_OF_OUNCE).toDecimalPlaces(3) : amount.value;
  const step = ounces ? STEPS.oz : STEPS[amount.unit];
  const priced = ounces ? price.times(KILOGRAMS_OF_POUND).toDecimalPlaces(4) : price;
  const amountAt = (steps: number): Decimal => written.minus(step.times(steps));
  const priceAt = (steps: number): Decimal => priced.minus(PRICE_STEP.times(steps));
  return [
    {
      subject: `${name} a portion of ${dish.name}`,
      about: { dish: dish.name },
      step: `${step.toFixed()} ${unit}`,
      steps: Number(written.div(step).div(2).floor()),
      eases: "always",
      change: (steps) => {
        const less = amountAt(steps);
        const value = ounces ? less.times(GRAMS_OF_OUNCE) : less;
        const cost = costPerPortion.times(value).div(amount.value);
        return {
          scenario: withStaple({ amount: { ...amount, value }, costPerPortion: cost }),
          value: `${less.toFixed()} ${unit}`,
          text: `Use ${less.toFixed()} ${unit} of ${name} a portion of ${dish.name} instead of ${written.toFixed()} ${unit}`,
        };
      },
    },
    {
      subject: `price of ${name}`,
      about: { dish: dish.name },
      step: PRICE_STEP.toFixed(),
      steps: Number(priced.div(PRICE_STEP).div(2).floor()),
      eases: "always",
      change: (steps) => {
        const less = priceAt(steps);
        const cheaper = ounces ? less.div(KILOGRAMS_OF_POUND) : less;
        const cost = costPerPortion.times(cheaper).div(price);
        return {
          scenario: withStaple({ price: cheaper, costPerPortion: cost }),
          value: `${decimalText(less)} / ${ounces ? "lb" : per}`,
          text: `Buy ${name} for ${dish.name} at ${decimalText(less)} / ${ounces ? "lb" : per} instead of ${decimalText(priced)}`,
        };
      },
    },
  ];
}
