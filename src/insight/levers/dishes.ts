import {
  type Course,
  type DietCovers,
  type Dish,
  dietText,
  type LineSource,
  type RecipeLine,
  type Scenario,
  type Service,
  type StapleLine,
} from "../../kitchen/index.js";
import { Decimal, NO_WEIGHT, ONE, plus, times } from "../../quantity/index.js";
import { stapleLevers } from "./bought.js";
import { fineWeighing } from "./house.js";
import { CENT, type Change, type Lever, moneyText, percentText } from "./lever.js";

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

const PERCENT = new Decimal("0.01");

/** Covers, diets and how many dishes a course shows. */
export function menuLevers(scenario: Scenario): Lever[] {
  return scenario.services.flatMap((service, index) => {
    const withService = (changed: Partial<Service>): Scenario => ({
      ...scenario,
      services: scenario.services.map((other) => (other === service ? { ...service, ...changed } : other)),
    });
    const about = { service: index };
    return [
      ...coverLevers(service, about, withService),
      ...service.diets.map((people): Lever => dietLever(people, service, about, withService)),
      ...service.courses.flatMap((course) => courseLevers(course, service, about, withService)),
    ];
  });
}

type WithService = (changed: Partial<Service>) => Scenario;

function dietLever(
  people: DietCovers,
  service: Service,
  about: Lever["about"],
  withService: WithService,
): Lever {
  const { covers } = people;
  const counted = `${dietText(people)} covers at ${service.name}`;
  return {
    subject: counted,
    about,
    step: "1 cover",
    steps: covers,
    eases: "always",
    change: (steps) => ({
      scenario: withService({
        diets: service.diets.map((other) =>
          other === people ? { ...people, covers: covers - steps } : other,
        ),
      }),
      value: `${covers - steps}`,
      text: `Count on ${covers - steps} ${counted} instead of ${covers}`,
    }),
  };
}

function coverLevers(service: Service, about: Lever["about"], withService: WithService): Lever[] {
  const { covers, courses, name } = service;
  if (courses.length === 0) return [];
  return [
    {
      subject: `covers at ${name}`,
      about,
      step: "1 cover",
      steps: covers - 1,
      eases: "not",
      change: (steps) => {
        const fewer = covers - steps;
        const portionsOf = ({ takeUp }: Course): number => takeUp.times(fewer).ceil().toNumber();
        return {
          scenario: withService({
            covers: fewer,
            courses: courses.map((course) => ({ ...course, portions: portionsOf(course) })),
          }),
          value: `${fewer}`,
          text: `Cook for ${fewer} covers at ${name} instead of ${covers}`,
        };
      },
    },
  ];
}

function courseLevers(
  course: Course,
  service: Service,
  about: Lever["about"],
  withService: WithService,
): Lever[] {
  const { leastDishes, mostDishes, name } = course;
  const withCourse = (changed: Partial<Course>): Scenario =>
    withService({
      courses: service.courses.map((other) => (other === course ? { ...course, ...changed } : other)),
    });
  const levers: Lever[] = [];
  if (leastDishes !== null && leastDishes > 0)
    levers.push({
      subject: `least dishes of ${name} at ${service.name}`,
      about,
      step: "1 dish",
      steps: leastDishes,
      eases: "always",
      change: (steps) => ({
        scenario: withCourse({ leastDishes: leastDishes - steps }),
        value: `${leastDishes - steps}`,
        text: `Show as few as ${leastDishes - steps} dishes of ${name} at ${service.name} instead of ${leastDishes}`,
      }),
    });
  if (mostDishes !== null)
    levers.push({
      subject: `most dishes of ${name} at ${service.name}`,
      about,
      step: "1 dish",
      steps: 20,
      eases: "always",
      change: (steps) => ({
        scenario: withCourse({ mostDishes: mostDishes + steps }),
        value: `${mostDishes + steps}`,
        text: `Show up to ${mostDishes + steps} dishes of ${name} at ${service.name} instead of ${mostDishes}`,
      }),
    });
  return levers;
}

/** The least and the greatest share of a part in a recipe line. */
function shareLevers(
  source: LineSource,
  dish: Dish,
  withSource: (changed: Partial<LineSource>) => Scenario,
): Lever[] {
  const { part, leastShare, mostShare } = source;
  const about = { dish: dish.name };
  const levers: Lever[] = [];
  const stepsIn = (share: Decimal): number => share.div(PERCENT).ceil().toNumber();
  if (leastShare.greaterThan(0))
    levers.push({
      subject: `least share of ${part} in ${dish.name}`,
      about,
      step: "1 %",
      steps: stepsIn(leastShare),
      eases: "always",
      change: (steps) => {
        const share = Decimal.max(0, leastShare.minus(PERCENT.times(steps)));
        return {
          scenario: withSource({ leastShare: share }),
          value: percentText(share),
          text: `Let ${part} be as little as ${percentText(share)} of its line in ${dish.name} instead of ${percentText(leastShare)}`,
        };
      },
    });
  if (mostShare.lessThan(1))
    levers.push({
      subject: `most share of ${part} in ${dish.name}`,
      about,
      step: "1 %",
      steps: stepsIn(ONE.minus(mostShare)),
      eases: "always",
      change: (steps) => {
        const share = Decimal.min(ONE, mostShare.plus(PERCENT.times(steps)));
        return {
          scenario: withSource({ mostShare: share }),
          value: percentText(share),
          text: `Let ${part} be up to ${percentText(share)} of its line in ${dish.name} instead of ${percentText(mostShare)}`,
        };
      },
    });
  return levers;
}
