import {
  type Course,
  type DietCovers,
  type Dish,
  dietText,
  isFitFor,
  type Service,
} from "../../kitchen/index.js";
import { Decimal, ONE } from "../../quantity/index.js";
import type { Fault } from "./index.js";

/** Portions that are fit for some diets, who has which of them, and how many nobody with a diet has. */
interface Plate {
  readonly diets: readonly string[];
  readonly portions: number;
  left: bigint;
  readonly given: Map<DietCovers, bigint>;
}

interface Move {
  readonly plate: Plate;
  readonly eater: DietCovers;
}

/**
 * Gives everybody who needs a diet a portion that is fit for it and nobody else's: in every course by its take-up, or
 * in all dishes where there is no course. Says which people are short of portions together.
 */
export function dietFaults(service: Service, eaten: ReadonlyMap<Dish, number>): Fault[] {
  const courses = service.courses.length === 0 ? [null] : service.courses;
  return courses.flatMap((course) => courseFaults(course, service, platesOf(course, service, eaten)));
}

function platesOf(course: Course | null, service: Service, eaten: ReadonlyMap<Dish, number>): Plate[] {
  const isOfIt = (of: { readonly course: string | null }): boolean =>
    course === null || of.course === course.name;
  const cooked = [...eaten].map(([{ course: of, diets }, portions]) => ({ course: of, diets, portions }));
  return [...cooked, ...(service.waiting ?? [])].filter(isOfIt).map(({ diets, portions }) => ({
    diets,
    portions,
    left: scaled(new Decimal(portions), course),
    given: new Map(),
  }));
}

function courseFaults(course: Course | null, service: Service, plates: readonly Plate[]): Fault[] {
  const takeUp = course?.takeUp ?? ONE;
  return service.diets.flatMap((people) => {
    const short = feed(people, scaled(takeUp.times(people.covers), course), plates);
    if (short.length === 0) return [];
    const covers = short.reduce((sum, each) => sum + each.covers, 0);
    const fit = plates.filter((plate) => short.some((each) => isFitFor(each, plate)));
    const found = fit.reduce((sum, { portions }) => sum + portions, 0);
    const where = course === null ? service.name : `${service.name}, ${course.name}`;
    return [
      `${short.map(dietText).join(", or ")} at ${where}: ${found} of ${takeUp.times(covers).ceil()} portions fit`,
    ];
  });
}

/** Portions in units so small that a take-up gives whole numbers of them. */
function scaled(portions: Decimal, course: Course | null): bigint {
  return BigInt(portions.times(new Decimal(10).pow(course?.takeUp.decimalPlaces() ?? 0)).toFixed(0));
}

/** Feeds people, who may have others eat of another plate; where some stay unfed, all who stand in one another's way. */
function feed(people: DietCovers, amount: bigint, plates: readonly Plate[]): readonly DietCovers[] {
  let hungry = amount;
  while (hungry > 0n) {
    const { way, reached } = wayToFood(people, plates);
    const [last] = way;
    if (last === undefined) return reached;
    let most = hungry;
    if (last.plate.left < most) most = last.plate.left;
    for (const [index, { eater }] of way.slice(0, -1).entries()) {
      const had = way[index + 1]?.plate.given.get(eater) ?? 0n;
      if (had < most) most = had;
    }
    hungry -= most;
    last.plate.left -= most;
    way.forEach(({ plate, eater }, index) => {
      plate.given.set(eater, (plate.given.get(eater) ?? 0n) + most);
      const before = way[index + 1]?.plate;
      before?.given.set(eater, (before.given.get(eater) ?? 0n) - most);
    });
  }
  return [];
}

/**
 * The shortest way from a plate with something left to these people: each eater on it takes of its plate and gives up
 * as much of the next one, the last of them being these people, who give up nothing.
 */
function wayToFood(
  people: DietCovers,
  plates: readonly Plate[],
): { way: readonly Move[]; reached: readonly DietCovers[] } {
  const ways = new Map<DietCovers, readonly Move[]>([[people, []]]);
  for (const [eater, way] of ways) {
    for (const plate of plates.filter((each) => isFitFor(eater, each))) {
      const further = [{ plate, eater }, ...way];
      if (plate.left > 0n) return { way: further, reached: [] };
      for (const [other, amount] of plate.given) {
        if (amount > 0n && !ways.has(other)) ways.set(other, further);
      }
    }
  }
  return { way: [], reached: [...ways.keys()] };
}
