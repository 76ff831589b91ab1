import type { Dish, LineSource, RecipeLine, Scenario, StapleLine } from "../../kitchen/index.js";
import { NO_WEIGHT, plus, times } from "../../quantity/index.js";
import { CENT, type Change, type Lever, moneyText } from "./lever.js";
import { shareLevers } from "./menu.js";
import { stapleLevers } from "./staples.js";
import { fineWeighing } from "./weighing.js";

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
    levers.push(...stapleLevers(staple, dish, scenario, withStaple));
  });
  dish.lines.forEach((line, index) => {
    const withLine = (changed: Partial<RecipeLine>): Scenario =>
      withDish({ lines: dish.lines.map((other, at) => (at === index ? { ...line, ...changed } : other)) });
    levers.push(...lineLevers(line, dish, scenario, withLine));
    line.from.forEach((source, at) => {
      const withSource = (changed: Partial<LineSource>): Scenario =>
        withLine({
          from: line.from.map((other, place) => (place === at ? { ...source, ...changed } : other)),
        });
      levers.push(...shareLevers(source, dish, withSource));
    });
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

/** What a portion is given at least; and, where it is given whole pieces, exactly so much, what more would be. */
function lineLevers(
  line: RecipeLine,
  dish: Dish,
  scenario: Scenario,
  withLine: (changed: Partial<RecipeLine>) => Scenario,
): Lever[] {
  const weighing = fineWeighing(scenario);
  const several = line.from.length > 1 && line.name === line.from[0]?.part;
  const what = several ? `${line.name} or what stands in for it` : line.name;
  const least = line.least > NO_WEIGHT ? line.least : line.most;
  const before = weighing.moved(least, 0).text;
  const exact = line.least === line.most;
  const given = (steps: number): Change => {
    const { weight, text } = weighing.moved(least, steps);
    return {
      scenario: withLine({ least: weight, most: exact ? weight : line.most }),
      value: text,
      text: `Give ${text} of ${what} a portion of ${dish.name} instead of ${before}`,
    };
  };
  const about = { dish: dish.name };
  const less: Lever = {
    subject: `${what} a portion of ${dish.name}`,
    about,
    step: weighing.step,
    steps: Math.floor(weighing.stepsIn(least) / 2),
    eases: "nearly",
    change: (steps) => given(-steps),
  };
  const inPieces = line.from.every(({ part }) =>
    scenario.parts.some(({ name, pieceWeight }) => name === part && pieceWeight !== null),
  );
  if (!exact || !inPieces) return [less];
  const more: Lever = {
    ...less,
    subject: `more ${what} a portion of ${dish.name}`,
    eases: "not",
    change: given,
  };
  return [less, more];
}
