import type { Decision, Dish, RecipeLine, Scenario } from "../../kitchen/index.js";
import { Decimal, ONE, toGrams, ZERO } from "../../quantity/index.js";
import { lastOfferDayOf } from "../../safety/index.js";
import { dietFaults } from "./diets.js";
import type { Fault } from "./index.js";

/** Every recipe line gets what its portions ask for, from allowed parts in allowed shares. */
export function lineFaults(decision: Decision, scenario: Scenario): Fault[] {
  const strays = decision.goings.filter(
    ({ dish, service }) =>
      !decision.cookings.some((cooking) => cooking.dish === dish && cooking.service === service),
  );
  return [
    ...strays.map(({ lot, dish }) => `${lot.part} goes into ${dish}, which is not cooked`),
    ...cookedLineFaults(decision, scenario),
  ];
}

function cookedLineFaults(decision: Decision, scenario: Scenario): Fault[] {
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

function oneLineFaults(decision: Decision, scenario: Scenario, cooked: CookedLine): Fault[] {
  const { dish, line, index, service, portions } = cooked;
  const where = `${dish.name}, ${line.name}`;
  const faults: Fault[] = [];
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
export function cookingFaults(decision: Decision, scenario: Scenario): Fault[] {
  const faults: Fault[] = [];
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
export function servicesFaults(decision: Decision, scenario: Scenario, from = 0): Fault[] {
  return scenario.services.flatMap((_, service) =>
    service < from ? [] : serviceFaults(service, decision, scenario),
  );
}

function serviceFaults(index: number, decision: Decision, scenario: Scenario): Fault[] {
  const service = scenario.services[index];
  if (service === undefined) return [];
  const faults: Fault[] = [];
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

function overageFaults(index: number, decision: Decision, scenario: Scenario): Fault[] {
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
