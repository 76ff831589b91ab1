import {
  type Course,
  type DietCovers,
  type Dish,
  dietText,
  type LineSource,
  type Scenario,
  type Service,
} from "../../kitchen/index.js";
import { Decimal, ONE } from "../../quantity/index.js";
import { type Lever, percentText } from "./lever.js";

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
export function shareLevers(
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
