import type { Model } from "../../../src/allocation/index.js";
import type { Aim, Course, Dish, RecipeLine, Scenario, Service } from "../../../src/kitchen/index.js";
import { Decimal, money, NO_MONEY } from "../../../src/quantity/index.js";
import { dishOf, lineOf, scenarioOf, serviceOf, staples, withGift } from "../../support/small-scenario.js";
import { Dice } from "./dice.js";
import type { Role } from "./kinds.js";
import { type Offer, type Pantry, stockPantry } from "./pantry.js";

/** What a kitchen's menu is generated from; the same facts give the same scenario. */
export interface MenuFacts {
  readonly seed: number;
  readonly items: number;
  readonly dishes: number;
  readonly days: number;
  /** Services a day, lunch and dinner at most. */
  readonly sittings: 1 | 2;
  /** A fixed menu cooks every dish in stated portions; a chosen one picks among the dishes of each course. */
  readonly menu: "fixed" | "chosen";
  readonly aim: Aim;
}

/** Portion in grams, least and most, and how many alternative parts a line may name. */
const LINES: Readonly<
  Record<Exclude<Role, "waste">, { grams: readonly [number, number]; cooked?: string; sources: number }>
> = {
  piece: { grams: [126, 126], sources: 2 },
  main: { grams: [110, 160], cooked: "0.75", sources: 2 },
  vegetable: { grams: [60, 120], sources: 3 },
  leaf: { grams: [20, 50], sources: 2 },
  trim: { grams: [30, 90], sources: 4 },
  sharp: { grams: [8, 24], sources: 2 },
  bread: { grams: [25, 50], sources: 1 },
};

interface Menu {
  readonly name: string;
  readonly takeUp: string;
  readonly batch: number | null;
  readonly lines: readonly (readonly Role[])[];
}

/** Half a batch is little enough to meet any number of covers with the overage. */
const COURSES: readonly Menu[] = [
  {
    name: "main",
    takeUp: "1",
    batch: 10,
    lines: [["main", "vegetable"], ["main", "trim"], ["main"], ["piece", "leaf"]],
  },
  { name: "side", takeUp: "0.9", batch: 8, lines: [["vegetable"], ["vegetable", "leaf"], ["leaf", "sharp"]] },
  {
    name: "starter",
    takeUp: "0.5",
    batch: null,
    lines: [
      ["trim", "bread"],
      ["trim", "vegetable"],
      ["leaf", "sharp", "trim"],
    ],
  },
];

export function generateMenu(facts: MenuFacts): Scenario {
  const dice = new Dice(facts.seed);
  const count = facts.days * facts.sittings;
  const servicesByDay = Array.from({ length: facts.days }, (_, day) =>
    Array.from({ length: facts.sittings }, (_, sitting) => day * facts.sittings + sitting),
  );
  const pantry = stockPantry(dice, facts.items, servicesByDay);
  const services = servicesByDay.flatMap((sittings, day) =>
    sittings.map((_, sitting) => service(dice, facts, day, sitting, count)),
  );
  const dishes = Array.from({ length: facts.dishes }, (_, index) =>
    dish(dice, facts, pantry, index, services),
  );
  return scenarioOf({
    name: nameOf(facts),
    aim: facts.aim,
    wastePrice: facts.aim === "balanced" ? money("3") : NO_MONEY,
    services,
    items: pantry.items,
    parts: pantry.parts,
    steps: pantry.steps,
    dishes,
    destinations: withGift(2000 * facts.days, { food: true, portions: true }),
  });
}

export function nameOf({ items, dishes, days, sittings, menu, aim, seed }: MenuFacts): string {
  return `${items} x ${dishes} x ${days * sittings} ${menu}, ${aim}, seed ${seed}`;
}

/** Whole numbers that are left to settle. */
export function wholeNumbersOf({ variables }: Model): number {
  return variables.filter(({ integer, lower, upper }) => integer && lower < upper).length;
}

function service(dice: Dice, facts: MenuFacts, day: number, sitting: number, count: number): Service {
  const covers = dice.between(40, 140);
  const index = day * facts.sittings + sitting;
  const offered = COURSES.map((_, course) => dishesAt(facts, index, course, count));
  const courses = COURSES.flatMap(({ name, takeUp }, course): Course[] => {
    const candidates = offered[course] ?? 0;
    if (facts.menu === "fixed" || candidates === 0) return [];
    const portions = new Decimal(takeUp).times(covers).ceil().toNumber();
    const most = Math.max(1, Math.ceil(candidates / 2));
    return [
      { name, portions, takeUp: new Decimal(takeUp), leastDishes: Math.min(2, most), mostDishes: most },
    ];
  });
  return serviceOf(`day ${day + 1} ${["lunch", "dinner"][sitting] ?? "meal"}`, day, {
    covers,
    courses,
    overage: new Decimal("0.1"),
  });
}

/** Dishes take the services and courses in turn. */
function placeOf(index: number, count: number): { service: number; course: number } {
  return { service: index % count, course: Math.floor(index / count) % COURSES.length };
}

function dishesAt({ dishes }: MenuFacts, service: number, course: number, count: number): number {
  return Array.from({ length: dishes }, (_, index) => placeOf(index, count)).filter(
    (place) => place.service === service && place.course === course,
  ).length;
}

function dish(
  dice: Dice,
  { menu }: MenuFacts,
  pantry: Pantry,
  index: number,
  services: readonly Service[],
): Dish {
  const place = placeOf(index, services.length);
  const course = COURSES[place.course] ?? dice.oneOf(COURSES);
  const { covers = 0 } = services[place.service] ?? {};
  const drawn = dice.oneOf(course.lines).flatMap((role) => line(dice, pantry, role));
  const fallback = drawn.length > 0 ? drawn : line(dice, pantry, "vegetable");
  const cost = fallback.reduce((sum, { pence }) => sum + pence, 0);
  const stapleCost = dice.between(5, 60);
  const fixed = Math.max(6, Math.round((covers * dice.between(20, 60)) / 100));
  const later = place.service + dice.between(1, 3);
  const isOffered =
    menu === "fixed" || services[later]?.courses.some(({ name }) => name === course.name) === true;
  const again = dice.chance(25) && later < services.length && isOffered ? later : null;
  const batch =
    course.batch !== null && dice.chance(25)
      ? { portions: course.batch, halves: true, vessel: "tray" }
      : null;
  return dishOf(
    `${course.name} ${index + 1}`,
    menu === "fixed" ? fixed : null,
    fallback.map(({ line }) => line),
    {
      course: menu === "fixed" ? null : course.name,
      services: again === null ? [place.service] : [place.service, again],
      keepsDays: again !== null && dice.chance(50) ? 2 : null,
      batch: menu === "fixed" ? null : batch,
      ceiling: dice.chance(30) ? money(`${Math.round(2 * cost + stapleCost) / 100}`) : null,
      staples: staples((stapleCost / 100).toFixed(2)),
    },
  );
}

/** A line of a role that the pantry can fill, with what its dearest source costs a portion; else none. */
function line(dice: Dice, { offers }: Pantry, role: Role): { line: RecipeLine; pence: number }[] {
  if (role === "waste") return [];
  const { grams, cooked, sources } = LINES[role];
  const fit = offers.filter((offer) => offer.role === role);
  if (fit.length === 0) return [];
  const chosen: Offer[] = dice.someOf(fit, dice.between(1, sources));
  const amount = 2 * dice.between(grams[0] / 2, grams[1] / 2);
  const cookingYield = new Decimal(cooked ?? "1");
  const pence = (Math.max(...chosen.map((offer) => offer.pence)) * amount) / 1000 / cookingYield.toNumber();
  const stated = cooked === undefined ? {} : { stated: "cooked" as const, cookingYield };
  return [
    {
      line: lineOf(
        amount,
        chosen.map(({ part }) => part),
        stated,
      ),
      pence,
    },
  ];
}
