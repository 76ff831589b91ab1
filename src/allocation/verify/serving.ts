import {
  type Course,
  type Decision,
  type DietCovers,
  type Dish,
  dietText,
  isFitFor,
  type RecipeLine,
  type Scenario,
  type Service,
} from "../../kitchen/index.js";
import { Decimal, ONE, toGrams, ZERO } from "../../quantity/index.js";
import { lastOfferDayOf } from "../../safety/index.js";

/** Every recipe line gets what its portions ask for, from allowed parts in allowed shares. */
export function lineFaults(decision: Decision, scenario: Scenario): string[] {
  const strays = decision.goings.filter(
    ({ dish, service }) =>
      !decision.cookings.some((cooking) => cooking.dish === dish && cooking.service === service),
  );
  return [
    ...strays.map(({ lot, dish }) => `${lot.part} goes into ${dish}, which is not cooked`),
    ...cookedLineFaults(decision, scenario),
  ];
}

function cookedLineFaults(decision: Decision, scenario: Scenario): string[] {
  return decision.cookings.flatMap(({ dish: name, service, portions }) => {
    const dish = scenario.dishes.find((entry) => entry.name === name);
    if (dish === undefined) return [];
    return dish.lines.flatMap((line, index) =>
      oneLineFaults(decision, scenario, { dish, line, index, service, portions }),
    );
  });
}

interface CookedLine {
  readonly dish: Dish;
  readonly line: RecipeLine;
  readonly index: number;
  readonly service: number;
  readonly portions: number;
}

function oneLineFaults(decision: Decision, scenario: Scenario, cooked: CookedLine): string[] {
  const { dish, line, index, service, portions } = cooked;
  const where = `${dish.name}, ${line.name}`;
  const faults: string[] = [];
  const goings = decision.goings.filter(
    (going) => going.dish === dish.name && going.service === service && going.line === index,
  );
  const halfStep = toGrams(scenario.scaleStep).div(2);
  let sum = ZERO;
  let allowed = ZERO;
  const byPart = new Map<string, Decimal>();
  for (const { lot, weight } of goings) {
    const source = line.from.find(({ part }) => part === lot.part);
    if (source === undefined) {
      faults.push(`${where}: ${lot.part} is not allowed in it`);
      continue;
    }
    const counted = toGrams(weight).times(source.rate).times(line.cookingYield);
    sum = sum.plus(counted);
    allowed = allowed.plus(halfStep.times(source.rate).times(line.cookingYield));
    byPart.set(lot.part, (byPart.get(lot.part) ?? ZERO).plus(counted));
  }
  const least = toGrams(line.least).times(portions);
  const most = toGrams(line.most).times(portions);
  if (sum.plus(allowed).lt(least)) faults.push(`${where}: ${least.minus(sum)} g too little`);
  if (sum.minus(allowed).gt(most)) faults.push(`${where}: ${sum.minus(most)} g too much`);
  for (const { part, leastShare, mostShare } of line.from) {
    const got = byPart.get(part) ?? ZERO;
    if (leastShare.gt(0) && got.plus(allowed).lt(sum.times(leastShare))) {
      faults.push(`${where}: ${sum.times(leastShare).minus(got)} g too little ${part} for its share`);
    }
    if (mostShare.lt(ONE) && got.minus(allowed).gt(sum.times(mostShare))) {
      faults.push(`${where}: ${got.minus(sum.times(mostShare))} g too much ${part} for its share`);
    }
  }
  return faults;
}

/** Portions of each cooking are whole and all accounted for, in whole batches, and eaten while good where offered. */
export function cookingFaults(decision: Decision, scenario: Scenario): string[] {
  const faults: string[] = [];
  const sites = decision.cookings.map(({ dish, service }) => `${dish} ${service}`);
  for (const [index, site] of sites.entries())
    if (sites.indexOf(site) !== index)
      faults.push(`${decision.cookings[index]?.dish}: cooked twice for one service`);
  for (const { dish: name, service, portions, served, spare } of decision.cookings) {
    const dish = scenario.dishes.find((entry) => entry.name === name);
    const counts = [...served, ...spare].map((entry) => entry.portions);
    if (counts.some((count) => !Number.isInteger(count) || count < 0))
      faults.push(`${name}: portions that are no whole number`);
    const going = counts.reduce((sum, count) => sum + count, 0);
    if (going !== portions) faults.push(`${name}: ${portions - going} portions unaccounted for`);
    if (dish === undefined) continue;
    if (!dish.services.includes(service)) faults.push(`${name}: cooked for a service that does not offer it`);
    if (
      dish.batch !== null &&
      portions % (dish.batch.halves ? dish.batch.portions / 2 : dish.batch.portions) !== 0
    ) {
      faults.push(`${name}: ${portions} portions are no whole number of batches`);
    }
    const inIt = decision.goings.filter((going) => going.dish === name && going.service === service);
    const lots = inIt.filter(({ weight }) => weight > 0n).map(({ lot }) => lot);
    const last = lastOfferDayOf(dish, service, lots, scenario);
    for (const { service: at } of served) {
      const late = dish.keepsDays === null || (scenario.services[at]?.day ?? 0) > last;
      if (at < service || (at > service && late)) faults.push(`${name}: eaten when it is not good`);
      if (at !== service && !dish.services.includes(at))
        faults.push(`${name}: eaten at a service that does not offer it`);
    }
  }
  return faults;
}

/** Services from one on get their courses, diets and dishes, and no more spares than their overage. */
export function servicesFaults(decision: Decision, scenario: Scenario, from = 0): string[] {
  return scenario.services.flatMap((_, service) =>
    service < from ? [] : serviceFaults(service, decision, scenario),
  );
}

function serviceFaults(index: number, decision: Decision, scenario: Scenario): string[] {
  const service = scenario.services[index];
  if (service === undefined) return [];
  const faults: string[] = [];
  const eatenOf = (fits: (dish: Dish) => boolean): number =>
    scenario.dishes.filter(fits).reduce((sum, dish) => sum + eaten(dish, index, decision), 0);
  for (const course of service.courses) {
    const inCourse = (dish: Dish): boolean => dish.course === course.name;
    const found = eatenOf(inCourse);
    if (found !== course.portions)
      faults.push(`${course.name} at ${service.name}: ${found} of ${course.portions} portions`);
    const cooked = scenario.dishes.filter((dish) => inCourse(dish) && eaten(dish, index, decision) > 0);
    const waiting = (service.waiting ?? []).filter((each) => each.course === course.name);
    const shown = new Set([...cooked.map(({ name }) => name), ...waiting.map(({ dish }) => dish)]).size;
    if (shown < (course.leastDishes ?? 0) || shown > (course.mostDishes ?? shown)) {
      faults.push(`${course.name} at ${service.name}: ${shown} dishes`);
    }
  }
  const portions = scenario.dishes.map((dish) => [dish, eaten(dish, index, decision)] as const);
  faults.push(...dietFaults(service, new Map(portions)));
  for (const dish of scenario.dishes.filter(({ services }) => services.includes(index))) {
    const found = eaten(dish, index, decision);
    if (dish.portions === null || (dish.optional && found === 0)) continue;
    if (found < dish.portions.least || found > dish.portions.most)
      faults.push(`${dish.name} at ${service.name}: ${found} portions`);
  }
  return [...faults, ...overageFaults(index, decision, scenario)];
}

function eaten(dish: Dish, service: number, decision: Decision): number {
  return decision.cookings
    .filter((cooking) => cooking.dish === dish.name)
    .flatMap(({ served }) => served)
    .filter((entry) => entry.service === service)
    .reduce((sum, { portions }) => sum + portions, 0);
}

function overageFaults(index: number, decision: Decision, scenario: Scenario): string[] {
  const service = scenario.services[index];
  const spareBy = new Map<string, { spare: number; most: number }>();
  for (const { dish: name, spare } of decision.cookings.filter((cooking) => cooking.service === index)) {
    const dish = scenario.dishes.find((entry) => entry.name === name);
    const course = service?.courses.find((entry) => entry.name === dish?.course);
    const base = course?.portions ?? dish?.portions?.most ?? 0;
    const key = course?.name ?? name;
    const group = spareBy.get(key) ?? {
      spare: 0,
      most: Number(new Decimal(base).times(service?.overage ?? ZERO).floor()),
    };
    group.spare += spare.reduce((sum, { portions }) => sum + portions, 0);
    spareBy.set(key, group);
  }
  return [...spareBy].flatMap(([key, { spare, most }]) =>
    spare > most ? [`${key} at ${service?.name}: ${spare} spare portions, ${most} allowed`] : [],
  );
}

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
export function dietFaults(service: Service, eaten: ReadonlyMap<Dish, number>): string[] {
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

function courseFaults(course: Course | null, service: Service, plates: readonly Plate[]): string[] {
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
