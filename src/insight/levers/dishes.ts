import type { Dish, RecipeLine, Scenario, StapleLine } from "../../kitchen/index.js";
import { grams, minus, NO_WEIGHT, plus, times } from "../../quantity/index.js";
import { CENT, gramsText, type Lever, moneyText } from "./lever.js";

import { stapleLevers } from "./staples.js";

const ONE_GRAM = grams("1");

/** What a dish may cost, what a portion of it takes, and how many portions are made. */
export function dishLevers(dish: Dish, scenario: Scenario): Lever[] {
  const withDish = (changed: Partial<Dish>): Scenario => ({
    ...scenario,
    dishes: scenario.dishes.map((other) => (other === dish ? { ...dish, ...changed } : other)),
  });
  const levers: Lever[] = [];
  const { ceiling, portions } = dish;
  if (ceiling !== null) {
    levers.push({
      subject: `ceiling of ${dish.name}`,
      about: { dish: dish.name },
      step: "0.01",
      steps: Number((9n * ceiling) / CENT) + 1,
      eases: "always",
      change: (steps) => {
        const raised = plus(ceiling, times(CENT, steps));
        return {
          scenario: withDish({ ceiling: raised }),
          value: moneyText(raised),
          text: `Raise the ceiling of ${dish.name} from ${moneyText(ceiling)} to ${moneyText(raised)}`,
        };
      },
    });
  }
  dish.staples.forEach((staple, index) => {
    const withStaple = (changed: Partial<StapleLine>): Scenario =>
      withDish({
        staples: dish.staples.map((other, at) => (at === index ? { ...staple, ...changed } : other)),
      });
    levers.push(...stapleLevers(staple, dish, withStaple));
  });
  dish.lines.forEach((line, index) => {
    const withLine = (changed: Partial<RecipeLine>): Scenario =>
      withDish({ lines: dish.lines.map((other, at) => (at === index ? { ...line, ...changed } : other)) });
    levers.push(lineLever(line, dish, withLine));
  });
  if (portions !== null) {
    levers.push({
      subject: `least portions of ${dish.name}`,
      about: { dish: dish.name },
      step: "1 portion",
      steps: portions.least - 1,
      eases: "not",
      change: (steps) => {
        const least = portions.least - steps;
        const fixed = portions.least === portions.most;
        return {
          scenario: withDish({ portions: { least, most: fixed ? least : portions.most } }),
          value: `${least}`,
          text: `Make ${fixed ? "" : "as few as "}${least} portions of ${dish.name} instead of ${portions.least}`,
        };
      },
    });
    levers.push({
      subject: `most portions of ${dish.name}`,
      about: { dish: dish.name },
      step: "1 portion",
      steps: Math.max(20, portions.most),
      eases: portions.least === portions.most ? "not" : "always",
      change: (steps) => {
        const most = portions.most + steps;
        const fixed = portions.least === portions.most;
        return {
          scenario: withDish({ portions: { least: fixed ? most : portions.least, most } }),
          value: `${most}`,
          text: `Make ${fixed ? "" : "up to "}${most} portions of ${dish.name} instead of ${portions.most}`,
        };
      },
    });
  }
  return levers;
}

function lineLever(
  line: RecipeLine,
  dish: Dish,
  withLine: (changed: Partial<RecipeLine>) => Scenario,
): Lever {
  const several = line.from.length > 1 && line.name === line.from[0]?.part;
  const what = several ? `${line.name} or what stands in for it` : line.name;
  const least = line.least > NO_WEIGHT ? line.least : line.most;
  return {
    subject: `${what} a portion of ${dish.name}`,
    about: { dish: dish.name },
    step: "1 g",
    steps: Number(least / (2n * ONE_GRAM)),
    eases: "nearly",
    change: (steps) => {
      const lower = minus(least, times(ONE_GRAM, steps));
      const exact = line.least === line.most;
      return {
        scenario: withLine({ least: lower, most: exact ? lower : line.most }),
        value: gramsText(lower),
        text: `Give ${gramsText(lower)} of ${what} a portion of ${dish.name} instead of ${gramsText(least)}`,
      };
    },
  };
}
