import { atLeast, atMost, compare, Decimal, ONE, sumOf, type Value } from "./figures.js";
import { dishNamed, serviceAt } from "./lots.js";
import type { AskedDish, AskedService, PrintedDish, PrintedPlan } from "./printed.js";

/** What is cooked and eaten: portions and batches, courses, diets, what is cooked over, ceilings, and last days. */
export function servingFaults(plan: PrintedPlan): string[] {
  return [
    ...plan.dishes.flatMap((cooking) => cookingFaults(cooking, plan)),
    ...plan.asked.services.flatMap((service) => [
      ...portionFaults(service, plan),
      ...courseFaults(service, plan),
      ...dietFaults(service, plan),
      ...overageFaults(service, plan),
    ]),
    ...dateFaults(plan),
  ];
}

function cookingFaults(cooking: PrintedDish, plan: PrintedPlan): string[] {
  const { dish: name, service, portions, served, spareTo } = cooking;
  const what = `${name} @ ${service}`;
  const dish = dishNamed(name, plan);
  if (dish === undefined) return [`${what}: no dish is so named`];
  const eaten = sumOf(served, (at) => at.portions);
  const spare = sumOf(spareTo, (at) => at.portions);
  const { batch } = dish;
  const least = batch === null ? ONE : new Decimal(batch.portions).div(batch.halves ? 2 : 1);
  return [
    ...compare(`${what} eaten`, cooking.eaten, eaten),
    ...compare(`${what} spare`, cooking.spare, spare),
    ...compare(`${what} portions`, portions, eaten.plus(spare)),
    ...(new Decimal(portions).mod(least).isZero() ? [] : [`${what}: ${portions} are no whole batches`]),
    ...[service, ...served.map((at) => at.service)]
      .filter((at) => !dish.services.includes(at))
      .map((at) => `${what}: is not offered at ${at}`),
    ...served
      .filter((at) => serviceAt(at.service, plan) < serviceAt(service, plan))
      .map((at) => `${what}: is eaten at ${at.service}, before it is cooked`),
    ...(dish.ceiling === null
      ? []
      : atMost(`ceiling of ${what}`, cooking.cost, new Decimal(dish.ceiling).times(portions))),
  ];
}

/** Portions eaten at a service of the dishes that fit. */
function eatenAt(service: string, fits: (dish: AskedDish) => boolean, plan: PrintedPlan): Decimal {
  const cooked = plan.dishes.filter((cooking) => {
    const dish = dishNamed(cooking.dish, plan);
    return dish !== undefined && fits(dish);
  });
  return sumOf(
    cooked.flatMap(({ served }) => served.filter((at) => at.service === service)),
    ({ portions }) => portions,
  );
}

function portionFaults({ service }: AskedService, plan: PrintedPlan): string[] {
  return plan.asked.dishes.flatMap((dish) => {
    const { portions, optional, dish: name } = dish;
    if (portions === null || !dish.services.includes(service)) return [];
    const eaten = eatenAt(service, (each) => each.dish === name, plan);
    if (optional && eaten.isZero()) return [];
    const what = `portions of ${name} at ${service}`;
    return [...atLeast(what, eaten, portions.least), ...atMost(what, eaten, portions.most)];
  });
}

function courseFaults({ service, courses }: AskedService, plan: PrintedPlan): string[] {
  return courses.flatMap(({ course, portions, leastDishes, mostDishes }) => {
    const inCourse = (dish: AskedDish): boolean => dish.course === course;
    const shown = plan.asked.dishes.filter(
      (dish) => inCourse(dish) && eatenAt(service, (each) => each.dish === dish.dish, plan).greaterThan(0),
    ).length;
    const dishes = `dishes of ${course} at ${service}`;
    return [
      ...compare(`${course} at ${service}`, portions, eatenAt(service, inCourse, plan)),
      ...atLeast(dishes, shown, leastDishes),
      ...atMost(dishes, shown, mostDishes),
    ];
  });
}

/**
 * For any of the groups together as many portions fit for one of them as their people take, rounded up: by Hall's
 * theorem (1935) that is when everybody has one.
 */
function dietFaults({ service, courses, diets }: AskedService, plan: PrintedPlan): string[] {
  const unions: (typeof diets)[] = [[]];
  for (const group of diets) unions.push(...unions.map((union) => [...union, group]));
  return (courses.length === 0 ? [{ course: null, takeUp: "1" }] : courses).flatMap(({ course, takeUp }) =>
    unions.slice(1).flatMap((union) => {
      const fits = (dish: AskedDish): boolean =>
        (course === null || dish.course === course) &&
        union.some((group) => group.diets.every((diet) => dish.diets.includes(diet)));
      const people = sumOf(union, ({ covers }) => covers);
      const who = union.map((group) => group.diets.join(" and ")).join(", or ");
      return atLeast(
        `${who} at ${service}${course === null ? "" : `, ${course}`}`,
        eatenAt(service, fits, plan),
        new Decimal(takeUp).times(people).ceil(),
      );
    }),
  );
}

/** Of a course's portions, or of the most of a dish without one. */
function overageFaults({ service, courses, overage }: AskedService, plan: PrintedPlan): string[] {
  const cooked = plan.dishes.filter((cooking) => cooking.service === service);
  const spareOf = (fits: (dish: AskedDish) => boolean): Decimal =>
    sumOf(
      cooked.filter(({ dish }) => plan.asked.dishes.some((each) => each.dish === dish && fits(each))),
      ({ spareTo }) => sumOf(spareTo, ({ portions }) => portions),
    );
  const mostOf = (portions: Value): Decimal => new Decimal(portions).times(overage).floor();
  const inNone = plan.asked.dishes.filter(
    (dish) => !courses.some(({ course }) => course === dish.course) && dish.services.includes(service),
  );
  return [
    ...courses.flatMap(({ course, portions }) =>
      atMost(
        `over of ${course} at ${service}`,
        spareOf((dish) => dish.course === course),
        mostOf(portions),
      ),
    ),
    ...inNone.flatMap(({ dish: name, portions }) =>
      atMost(
        `over of ${name} at ${service}`,
        spareOf((dish) => dish.dish === name),
        mostOf(portions?.most ?? 0),
      ),
    ),
  ];
}

/** Nothing goes into a dish before it is cut or after its last day, and no dish is eaten after its own. */
function dateFaults(plan: PrintedPlan): string[] {
  const { goings, preps, dishes, services } = plan;
  const dateOf = (name: string): string => services.find((service) => service.name === name)?.date ?? "";
  return [
    ...goings
      .filter(({ useBy, service }) => useBy !== null && dateOf(service) > useBy)
      .map(({ part, dish, useBy }) => `${part} goes into ${dish} after ${useBy}`),
    ...goings
      .filter(({ cutFor, service }) => serviceAt(cutFor, plan) > serviceAt(service, plan))
      .map(({ part, dish }) => `${part} goes into ${dish} before it is cut`),
    ...preps
      .filter(({ cutFor, service }) => serviceAt(cutFor, plan) > serviceAt(service, plan))
      .map(({ from, step }) => `${from} is worked by ${step} before it is cut`),
    ...dishes.flatMap(({ dish, service, served, useBy }) =>
      served
        .filter((at) => at.service !== service && (useBy === null || dateOf(at.service) > useBy))
        .map((at) => `${dish} is eaten at ${at.service}, after ${useBy ?? service}`),
    ),
  ];
}
