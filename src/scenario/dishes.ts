import type { Dish, ScenarioFile, Service } from "../kitchen/index.js";
import { money } from "../quantity/index.js";
import { didYouMean } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { resolveLine, resolveStaples } from "./lines.js";
import type { PartsInReach } from "./parts.js";
import { dietsOfDish, serviceNamed } from "./services.js";
import { words } from "./wording/index.js";

type DishEntry = ScenarioFile["dishes"][string];

export function resolveDishes(context: Resolving, services: readonly Service[], reach: PartsInReach): Dish[] {
  const entries = Object.entries(context.file.dishes);
  if (entries.length === 0 && !context.isLeftOut(["dishes"])) context.at(["dishes"], words.noDishes());
  return entries.map(([name, entry]) => resolveDish(context, services, reach, name, entry));
}

function resolveDish(
  context: Resolving,
  services: readonly Service[],
  reach: PartsInReach,
  name: string,
  entry: DishEntry,
): Dish {
  const path = ["dishes", name];
  const lines = (entry.lines ?? []).flatMap((line, index) => {
    const resolved = resolveLine(context, line, reach, [...path, "lines", index]);
    return resolved === null ? [] : [resolved];
  });
  if ((entry.lines ?? []).length === 0 && !context.isLeftOut([...path, "lines"])) {
    context.atKey(path, words.noLines(name));
  }
  const staples = resolveStaples(context, entry.staples ?? {}, [...path, "staples"]);
  const carried = lines.flatMap(({ from }) =>
    from.flatMap(({ part }) => reach.parts.get(part)?.allergens ?? []),
  );
  return {
    name,
    course: entry.course ?? null,
    services: offeredAt(context, services, name, entry),
    portions: portionsOf(context, name, entry),
    optional: entry.optional ?? false,
    batch: batchOf(context, name, entry),
    ceiling: entry.ceiling === undefined ? null : money(entry.ceiling),
    diets: dietsOfDish(context, entry.diets ?? [], [...path, "diets"]),
    allergens: [
      ...new Set([...(entry.allergens ?? []), ...carried, ...staples.flatMap((staple) => staple.allergens)]),
    ],
    mayContain: entry.may_contain ?? [],
    shares: entry.shares ?? [],
    lines,
    staples,
    keepsDays: entry.keeps ?? null,
    minutesPerBatch: entry.minutes ?? null,
    rawEgg: entry.raw_egg ?? false,
    method: entry.method ?? [],
    treatments: entry.treatments ?? [],
    cooking: {
      equipment: entry.cooking?.equipment ?? null,
      time: entry.cooking?.time ?? null,
      coreTemperature: entry.cooking?.core ?? null,
      portioning: entry.cooking?.portioning ?? null,
    },
  };
}

/**
 * The services that offer a dish: those it names; else, with a course alone, every service that has the course;
 * else, with portions of its own, the first of these, or the first service of all.
 */
function offeredAt(
  context: Resolving,
  services: readonly Service[],
  name: string,
  entry: DishEntry,
): number[] {
  const path = ["dishes", name];
  const { course } = entry;
  const withCourse = services.flatMap(({ courses }, index) =>
    courses.some((offered) => offered.name === course) ? [index] : [],
  );
  const counted = entry.portions !== undefined || context.isLeftOut([...path, "portions"]);
  if (course === undefined && !counted) {
    if (!context.isLeftOut([...path, "course"])) context.atKey(path, words.dishWithoutCourse(name));
    return [];
  }
  if (entry.services !== undefined) {
    const named = entry.services.flatMap((service, index) => {
      const place = context.elementOf([...path, "services"], index);
      const found = serviceNamed(context, services, service, place);
      return found === null ? [] : [{ found, place }];
    });
    if (course !== undefined && !counted) {
      for (const { found, place } of named) checkCourse(context, services, course, found, name, place);
    }
    if (entry.services.length === 0) context.at([...path, "services"], words.offeredNowhere(name));
    return [...new Set(named.map(({ found }) => found))].sort((a, b) => a - b);
  }
  if (context.isLeftOut([...path, "services"]) || context.isLeftOut(["services"])) return withCourse;
  if (counted) return services.length === 0 ? [] : [withCourse[0] ?? 0];
  if (withCourse.length === 0 && course !== undefined) {
    const courses = courseNames(services);
    context.at([...path, "course"], words.unknownCourse(course, didYouMean(course, courses), courses));
  }
  return withCourse;
}

function checkCourse(
  context: Resolving,
  services: readonly Service[],
  course: string,
  index: number,
  dish: string,
  place: readonly (string | number)[],
): void {
  const service = services[index];
  if (service === undefined || service.courses.some(({ name }) => name === course)) return;
  if (context.isLeftOut(["services"])) return;
  const courses = courseNames(services);
  if (courses.includes(course)) context.at(place, words.courseNotAtService(course, service, dish));
  else
    context.at(["dishes", dish, "course"], words.unknownCourse(course, didYouMean(course, courses), courses));
}

function courseNames(services: readonly Service[]): string[] {
  return [...new Set(services.flatMap(({ courses }) => courses.map(({ name }) => name)))];
}

function portionsOf(context: Resolving, name: string, { portions }: DishEntry): Dish["portions"] {
  if (portions === undefined) return null;
  if (portions.most === 0) context.at(["dishes", name, "portions"], words.noPortions(name));
  return portions;
}

function batchOf(context: Resolving, name: string, { batch }: DishEntry): Dish["batch"] {
  if (batch === undefined) return null;
  const place = ["dishes", name, "batch", "portions"];
  const halves = batch.halves ?? false;
  if (batch.portions === 0) context.at(place, words.emptyBatch());
  else if (halves && batch.portions % 2 === 1) context.at(place, words.oddBatch(batch.portions));
  return { portions: batch.portions, halves, vessel: batch.vessel ?? "batch" };
}
