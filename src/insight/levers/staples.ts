import type { Dish, Scenario, StapleLine } from "../../kitchen/index.js";
import { Decimal } from "../../quantity/index.js";
import { decimalText, type Lever } from "./lever.js";

const STAPLE_GRAMS = new Decimal("0.5");

/** The amount and the price of a staple, or its flat cost. */
export function stapleLevers(
  staple: StapleLine,
  dish: Dish,
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
  const base = amount.unit === "each" ? new Decimal(1) : new Decimal(1000);
  const step = amount.unit === "each" ? new Decimal("0.5") : STAPLE_GRAMS;
  const costAt = (value: Decimal, unitPrice: Decimal): Decimal => value.div(base).times(unitPrice);
  const per = amount.unit === "g" ? "kg" : amount.unit === "mL" ? "L" : "each";
  return [
    {
      subject: `${name} a portion of ${dish.name}`,
      about: { dish: dish.name },
      step: `${step} ${amount.unit}`,
      steps: Number(amount.value.div(step).div(2).floor()),
      eases: "always",
      change: (steps) => {
        const value = amount.value.minus(step.times(steps));
        return {
          scenario: withStaple({ amount: { ...amount, value }, costPerPortion: costAt(value, price) }),
          value: `${value} ${amount.unit}`,
          text: `Use ${value} ${amount.unit} of ${name} a portion of ${dish.name} instead of ${amount.value} ${amount.unit}`,
        };
      },
    },
    {
      subject: `price of ${name}`,
      about: { dish: dish.name },
      step: "0.001",
      steps: Number(price.div("0.002").floor()),
      eases: "always",
      change: (steps) => {
        const cheaper = price.minus(new Decimal("0.001").times(steps));
        return {
          scenario: withStaple({ price: cheaper, costPerPortion: costAt(amount.value, cheaper) }),
          value: `${decimalText(cheaper)} / ${per}`,
          text: `Buy ${name} for ${dish.name} at ${decimalText(cheaper)} / ${per} instead of ${decimalText(price)}`,
        };
      },
    },
  ];
}
