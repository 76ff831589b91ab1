import { type DietCovers, dietText, type ScenarioFile } from "../kitchen/index.js";
import type { Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

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
