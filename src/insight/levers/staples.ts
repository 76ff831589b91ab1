import type { Dish, Scenario, StapleLine } from "../../kitchen/index.js";
import { Decimal, OUNCE_MILLIGRAMS, scaleWithStep } from "../../quantity/index.js";
import { decimalText, type Lever } from "./lever.js";

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
