import {
  type Course,
  type DietCovers,
  daysBetween,
  dietText,
  type ScenarioFile,
  type Service,
} from "../kitchen/index.js";
import { Decimal, ONE, ZERO } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
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

const AND = " and ";

/** The people who need a diet, entry by entry as the file has them; "and" joins the diets that the same people need. */
export function dietsOf(
  context: Resolving,
  entry: ScenarioFile["services"][number],
  path: Path,
): DietCovers[] {
  const known = dietsOfDishes(context);
  const { covers: expected } = entry;
  const seen = new Map<string, string>();
  let isAbove = false;
  const groups = Object.entries(entry.diets ?? {}).map(([written, covers]): DietCovers => {
    const place = [...path, "diets", written];
    const { names } = dietsIn(written, known);
    const people = { diets: [...new Set(names)], covers };
    const key = [...people.diets].sort().join(AND);
    const before = seen.get(key);
    const twice = names.find((name, index) => names.indexOf(name) < index);
    if (twice !== undefined) context.atKey(place, words.dietTwice(twice));
    else if (before !== undefined) {
      context.atKey(place, words.dietsTwice(dietText(people), context.lineOf([...path, "diets", before])));
    }
    seen.set(key, before ?? written);
    if (expected !== undefined && covers > expected) {
      isAbove = true;
      context.at(place, words.dietAboveCovers(dietText(people), covers, expected));
    }
    return people;
  });
  const all = groups.reduce((sum, { covers }) => sum + covers, 0);
  if (expected !== undefined && all > expected && !isAbove) {
    context.atKey([...path, "diets"], words.dietsAboveCovers(all, expected));
  }
  return groups;
}

/** What a dish is fit for. A name that stands for two diets which other dishes state alone is refused. */
export function dietsOfDish(context: Resolving, stated: readonly string[], path: Path): string[] {
  const known = dietsOfDishes(context);
  return stated.map((written, index) => {
    const name = spaced(written);
    const { names, unknown } = dietsIn(name, { has: (other) => other !== name && known.has(other) });
    if (names.length > 1 && unknown === 0) {
      context.at(context.elementOf(path, index), words.dietsJoinedInDish(name, names));
    }
    return name;
  });
}

const DIETS_OF_DISHES = new WeakMap<ScenarioFile, ReadonlySet<string>>();

/** Gathered once for a file: every dish asks for them. */
function dietsOfDishes({ file }: Resolving): ReadonlySet<string> {
  const known =
    DIETS_OF_DISHES.get(file) ??
    new Set(Object.values(file.dishes).flatMap(({ diets }) => (diets ?? []).map(spaced)));
  DIETS_OF_DISHES.set(file, known);
  return known;
}

function spaced(text: string): string {
  return text.trim().replace(/\s+/g, " ");
}

interface Split {
  readonly names: readonly string[];
  /** How many of them no dish states. */
  readonly unknown: number;
}

/** The diets that a text joins: as few unknown ones as may be, and the longest name first that a dish states. */
function dietsIn(text: string, known: Pick<ReadonlySet<string>, "has">): Split {
  const pieces = spaced(text).split(AND);
  const from: Split[] = [{ names: [], unknown: 0 }];
  // From the last piece to the first, the best split of what follows it.
  for (let start = pieces.length - 1; start >= 0; start--) {
    let best: Split | null = null;
    for (let end = pieces.length; end > start; end--) {
      const name = pieces.slice(start, end).join(AND);
      const rest = from[pieces.length - end];
      if (rest === undefined || (!known.has(name) && end > start + 1)) continue;
      const unknown = rest.unknown + (known.has(name) ? 0 : 1);
      if (best === null || unknown < best.unknown) best = { names: [name, ...rest.names], unknown };
    }
    if (best !== null) from.push(best);
  }
  return from.at(-1) ?? { names: [], unknown: 0 };
}
