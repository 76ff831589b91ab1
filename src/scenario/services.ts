import { type Course, daysBetween, type ScenarioFile, type Service } from "../kitchen/index.js";
import { Decimal, ONE, ZERO } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { dietsOf } from "./diets.js";
import { words } from "./wording/index.js";

type ServiceEntry = ScenarioFile["services"][number];

const SITTINGS = ["breakfast", "lunch", "dinner"];

export function resolveServices(context: Resolving): Service[] {
  const { services, limits } = context.file;
  const [first] = services;
  if (first === undefined) {
    if (!context.isLeftOut(["services"])) context.at(["services"], words.noServices());
    return [];
  }
  return services.map((entry, index): Service => {
    const path = ["services", index];
    const earlier = services.findIndex(({ name }) => name === entry.name);
    if (earlier < index) {
      const line = context.lineOf(["services", earlier, "name"]);
      context.at([...path, "name"], words.serviceTwice(entry.name, line));
    }
    const before = services[index - 1];
    if (before !== undefined) checkOrder(context, before, entry, path);
    return {
      name: entry.name,
      date: entry.date,
      day: daysBetween(first.date, entry.date),
      sitting: entry.sitting ?? entry.name,
      at: entry.at ?? null,
      cooks: entry.cooks ?? 1,
      covers: entry.covers ?? 0,
      courses: coursesOf(context, entry, path),
      diets: dietsOf(context, entry, path),
      overage: entry.overage ?? ZERO,
      handsMinutes: entry.hands ?? limits?.hands ?? null,
    };
  });
}

/** The index of a service by its name; null, with a problem unless one was raised already, where there is none. */
export function serviceNamed(
  context: Resolving,
  services: readonly Service[],
  name: string,
  path: Path,
): number | null {
  const index = services.findIndex((service) => service.name === name);
  if (index >= 0) return index;
  if (services.length === 0 && context.isLeftOut(["services"])) return null;
  const names = context.serviceNamesWritten();
  if (!names.includes(name)) context.at(path, words.unknownService(name, didYouMean(name, names), names));
  return null;
}

function checkOrder(context: Resolving, before: ServiceEntry, entry: ServiceEntry, path: Path): void {
  if (entry.date < before.date) {
    context.at([...path, "date"], words.serviceOutOfOrder(entry, before));
    return;
  }
  if (entry.date !== before.date) return;
  if (before.at !== undefined && entry.at !== undefined && entry.at < before.at) {
    context.at([...path, "at"], words.serviceBeforeByClock(entry.name, before.name));
    return;
  }
  const [earlier = -1, later = -1] = [before, entry].map(({ sitting }) => SITTINGS.indexOf(sitting ?? ""));
  if (earlier >= 0 && later >= 0 && later < earlier) {
    context.at([...path, "sitting"], words.serviceOutOfOrder(entry, before));
  }
}

function coursesOf(context: Resolving, entry: ServiceEntry, path: Path): Course[] {
  const courses = Object.entries(entry.courses ?? {});
  if (courses.length > 0 && entry.covers === undefined && !context.isLeftOut([...path, "covers"])) {
    context.atKey([...path, "courses"], words.noCovers(entry.name));
  }
  if (entry.covers === 0) context.at([...path, "covers"], words.zeroCovers(entry.name));
  return courses.map(([name, stated]): Course => {
    const { take_up: takeUp = ONE, dishes } = Decimal.isDecimal(stated) ? { take_up: stated } : stated;
    return {
      name,
      takeUp,
      portions: takeUp
        .times(entry.covers ?? 0)
        .ceil()
        .toNumber(),
      leastDishes: dishes?.least ?? null,
      mostDishes: dishes?.most ?? null,
    };
  });
}
