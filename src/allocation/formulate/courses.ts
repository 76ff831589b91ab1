import { type Course, type Dish, serviceName } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { mostEaten, overagePortions } from "../demand.js";
import type { BuildContext } from "./context.js";
import { addDiets } from "./diets.js";
import { countsTowards, eatenSum } from "./dishes.js";

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
  const eaten = eatenSum(service, context, (site) => countsTowards(site, service, course.name, context));
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
