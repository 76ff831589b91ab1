import {
  type Course,
  type DietCovers,
  type Dish,
  dietText,
  isFitFor,
  serviceName,
} from "../../kitchen/index.js";
import { ONE } from "../../quantity/index.js";
import { mostEaten, overagePortions } from "../demand.js";
import { rate } from "../floats.js";
import { Sum, type Tag } from "../model.js";
import type { BuildContext } from "./context.js";
import { eatenSum } from "./dishes.js";

/** What each service asks for: covers by course, how many dishes a course shows, diets, and no more than the overage. */
export function addCourses(context: BuildContext): void {
  const { services, dishes } = context.scenario;
  services.forEach((service, index) => {
    for (const dish of dishes) if (dish.services.includes(index)) addDishAtService(dish, index, context);
    for (const course of service.courses) addCourse(course, index, context);
    addDiets(index, context);
  });
  addOverages(context);
}

function addDishAtService(dish: Dish, service: number, context: BuildContext): void {
  const { scenario, builder } = context;
  const sources = context.sites.filter((site) => site.dish === dish && site.eatenAt.includes(service));
  const course = scenario.services[service]?.courses.find(({ name }) => name === dish.course);
  const counted = course !== undefined && (course.leastDishes !== null || course.mostDishes !== null);
  const least = dish.portions?.least ?? 0;
  const most = Math.min(
    mostEaten(dish, service, scenario),
    sources.reduce((sum, { mostPortions }) => sum + mostPortions, 0),
  );
  const where = `${dish.name} at ${serviceName(scenario, service)}`;
  const tag = { dish: dish.name, service };
  const eaten = eatenSum(service, context, (site) => site.dish === dish);
  if (counted || (dish.optional && least > 0)) {
    const lower = dish.optional || least === 0 ? 0 : 1;
    const made = builder.variable({ family: "made", ...tag }, `${where} made`, 1, { lower, integer: true });
    const all = course?.mostDishes === 1 ? course.portions : 0;
    // Said as one equation, solvers find the number of portions by themselves.
    if (all > 0 && least <= all && all <= most) {
      const short = new Sum().addSum(eaten).add(made, -all);
      builder.row({ family: "all or none", ...tag }, `${where}, all or none`, short, { lower: 0, upper: 0 });
      return;
    }
    const atMost = new Sum().addSum(eaten).add(made, -most);
    const atLeast = new Sum().addSum(eaten).add(made, -Math.max(1, least));
    builder.row({ family: "made", ...tag }, `${where}, none unless made`, atMost, { upper: 0 });
    builder.row({ family: "made", ...tag }, `${where}, least when made`, atLeast, { lower: 0 });
  } else if (dish.portions !== null && sources.length > 1) {
    builder.row({ family: "dish", ...tag }, `${where}, portions`, eaten, { lower: least, upper: most });
  }
}

function addCourse(course: Course, service: number, context: BuildContext): void {
  const { scenario, builder } = context;
  const where = `${course.name} at ${serviceName(scenario, service)}`;
  const tag = { course: course.name, service };
  const eaten = eatenSum(service, context, (site) => isOfCourse(site.dish, course));
  builder.row({ family: "course", ...tag }, `${where}, portions`, eaten, {
    lower: course.portions,
    upper: course.portions,
  });
  if (course.leastDishes === null && course.mostDishes === null) return;
  const shown = (scenario.services[service]?.waiting ?? [])
    .filter((waiting) => waiting.course === course.name)
    .map(({ dish }) => dish);
  const made = madeSum(course, service, shown, context);
  builder.row({ family: "course dishes", ...tag }, `${where}, dishes`, made, {
    lower: Math.max(0, (course.leastDishes ?? 0) - shown.length),
    upper: Math.max(0, (course.mostDishes ?? Number.POSITIVE_INFINITY) - shown.length),
  });
}

/** A service offers each of its courses once, so a dish counts towards the one of its name. */
function isOfCourse(dish: Dish, course: Course): boolean {
  return dish.course === course.name;
}

/** Dishes of a course made, beside those that it shows already. */
function madeSum(
  course: Course,
  service: number,
  shown: readonly string[],
  { scenario, builder }: BuildContext,
): Sum {
  const sum = new Sum();
  builder.variablesTagged("made").forEach(({ tag, index }) => {
    const dish = scenario.dishes.find(({ name }) => name === tag.dish);
    if (tag.service !== service || dish?.course !== course.name || shown.includes(dish.name)) return;
    sum.add(index, 1);
  });
  return sum;
}

/** Spare portions of a course, or of a dish outside the courses, stay within the overage. */
function addOverages(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const groups = new Map<string, { sum: Sum; upper: number; service: number; size: number }>();
  for (const { site, variable } of handles.spares) {
    const { dish, service } = site;
    const course = scenario.services[service]?.courses.find(({ name }) => name === dish.course);
    const key = `${course?.name ?? dish.name} at ${serviceName(scenario, service)}`;
    const upper = overagePortions(dish, service, scenario);
    const group = groups.get(key) ?? { sum: new Sum(), upper, service, size: 0 };
    group.sum.add(variable, 1);
    group.size += 1;
    groups.set(key, group);
  }
  for (const [name, { sum, upper, service, size }] of groups) {
    if (size < 2) continue;
    builder.row({ family: "overage", service }, `${name}, spare portions`, sum, { upper });
  }
}

/** Most rows for the unions of one course; where there would be more, who eats what is said in full. */
const MOST_UNIONS = 64;

/** All that is eaten of one course, or where there is no course, and the people it must be fit for. */
interface Table {
  readonly service: number;
  readonly course: Course | null;
  readonly where: string;
  readonly tag: Tag;
  readonly groups: readonly Group[];
  readonly offers: readonly Offer[];
}

interface Group {
  readonly people: DietCovers;
  /** The offers that are fit for it, one bit each. */
  readonly fit: bigint;
}

/** Dishes that are fit for the same people. */
interface Offer {
  readonly fits: readonly DietCovers[];
  readonly eaten: Sum;
  readonly waiting: number;
}

/**
 * Portions fit for the people who need a diet, each counted once in every course, by its take-up. For any of the
 * groups together there are as many portions fit for one of them as they take, rounded up: by Hall's theorem (1935)
 * each group then has its own.
 */
export function addDiets(service: number, context: BuildContext): void {
  const courses = context.scenario.services[service]?.courses ?? [];
  for (const course of courses.length === 0 ? [null] : courses) {
    const table = tableOf(service, course, context);
    const alone = new Set(table.groups.map(({ fit }) => fit));
    const unions = unionsOf(alone);
    for (const fit of unions ?? alone) addUnion(fit, table, context);
    if (unions === null) addEaters(table, context);
  }
}

function tableOf(service: number, course: Course | null, context: BuildContext): Table {
  const { scenario } = context;
  const people = (scenario.services[service]?.diets ?? []).filter(({ covers }) => covers > 0);
  const offers = offersOf(people, service, course, context);
  const groups = people.map((each): Group => {
    const bits = offers.map(({ fits }, bit) => (fits.includes(each) ? 1n << BigInt(bit) : 0n));
    return { people: each, fit: bits.reduce((all, bit) => all | bit, 0n) };
  });
  const name = serviceName(scenario, service);
  return {
    service,
    course,
    where: course === null ? name : `${name}, ${course.name}`,
    tag: { family: "diet", service, ...(course === null ? {} : { course: course.name }) },
    groups,
    offers,
  };
}

function offersOf(
  people: readonly DietCovers[],
  service: number,
  course: Course | null,
  context: BuildContext,
): Offer[] {
  const { dishes, services } = context.scenario;
  const waiting = (services[service]?.waiting ?? []).filter(
    (each) => course === null || each.course === course.name,
  );
  const keyOf = (dish: { readonly diets: readonly string[] }): string =>
    people.map((each) => (isFitFor(each, dish) ? "1" : "0")).join("");
  const keys = new Set([...dishes, ...waiting].map(keyOf));
  return [...keys].map((key) => ({
    fits: people.filter((_, index) => key[index] === "1"),
    eaten: eatenSum(
      service,
      context,
      (site) => keyOf(site.dish) === key && (course === null || isOfCourse(site.dish, course)),
    ),
    waiting: waiting.reduce((sum, each) => (keyOf(each) === key ? sum + each.portions : sum), 0),
  }));
}

/**
 * What is fit for a group, and for groups together whose offers overlap: others need no row of their own, as theirs
 * add up to it. Null where there are too many.
 */
function unionsOf(alone: ReadonlySet<bigint>): Set<bigint> | null {
  const unions = new Set(alone);
  // A set is walked to its end with what is added on the way.
  for (const union of unions) {
    for (const fit of alone) if ((union & fit) !== 0n) unions.add(union | fit);
    if (unions.size > Math.max(MOST_UNIONS, alone.size)) return null;
  }
  return unions;
}

/** Enough of these offers for all the groups that can eat of nothing else. */
function addUnion(union: bigint, { groups, offers, course, where, tag }: Table, context: BuildContext): void {
  const bound = groups.filter(({ fit }) => fit === union || (fit !== 0n && (fit & ~union) === 0n));
  const covers = bound.reduce((sum, { people }) => sum + people.covers, 0);
  const eaten = new Sum();
  let lower = Math.ceil(rate((course?.takeUp ?? ONE).times(covers)));
  offers.forEach((offer, bit) => {
    if ((union & (1n << BigInt(bit))) === 0n) return;
    eaten.addSum(offer.eaten);
    lower -= offer.waiting;
  });
  if (lower <= 0) return;
  const name = `${bound.map(({ people }) => dietText(people)).join(", or ")} at ${where}`;
  context.builder.row(tag, name, eaten, { lower });
}

/** Who eats of what: no more of an offer than there is, and all that each group takes. Portions are whole, so shares do. */
function addEaters({ groups, offers, course, where, tag }: Table, { builder }: BuildContext): void {
  const given = offers.map(({ eaten }) => new Sum().addSum(eaten, -1));
  for (const { people, fit } of groups) {
    const had = new Sum();
    const taken = rate((course?.takeUp ?? ONE).times(people.covers));
    offers.forEach((_, bit) => {
      if ((fit & (1n << BigInt(bit))) === 0n) return;
      const name = `${dietText(people)} at ${where}, of offer ${bit + 1}`;
      const eats = builder.variable(tag, name, taken);
      given[bit]?.add(eats, 1);
      had.add(eats, 1);
    });
    builder.row(tag, `${dietText(people)} at ${where}, all fed`, had, { lower: taken });
  }
  given.forEach((sum, bit) => {
    const upper = offers[bit]?.waiting ?? 0;
    builder.row(tag, `offer ${bit + 1} at ${where}, to those with diets`, sum, { upper });
  });
}
