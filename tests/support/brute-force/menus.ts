import type { Course, Dish, Scenario } from "../../../src/kitchen/index.js";
import { LEGAL_DAYS } from "./lots.js";
import { Ratio, wholeGrams } from "./whole.js";

/** One way to meet every service: whole portions of every dish, where they are eaten and where spare ones go. */
export interface Menu {
  readonly cookings: readonly MenuCooking[];
}

export interface MenuCooking {
  readonly dish: Dish;
  readonly service: number;
  readonly portions: number;
  readonly eaten: readonly { readonly service: number; readonly portions: number }[];
  readonly given: readonly { readonly destination: string; readonly portions: number }[];
  readonly wasted: number;
}

interface Site {
  readonly dish: Dish;
  readonly service: number;
  /** Services that may eat what is cooked here. */
  readonly reaches: readonly number[];
}

type Eating = Map<Site, Map<number, number>>;

/** Every menu that keeps to covers, take-up, stated portions, diets, numbers of dishes, batches and overage. */
export function everyMenu(scenario: Scenario): Menu[] {
  const sites = scenario.dishes.flatMap((dish) =>
    dish.services.map((service): Site => ({ dish, service, reaches: reachedFrom(dish, service, scenario) })),
  );
  const menus: Menu[] = [];
  for (const eating of everyEating(0, new Map(sites.map((site) => [site, new Map()])), sites, scenario)) {
    for (const menu of everySpare(sites, 0, eating, [], scenario)) menus.push(menu);
  }
  return menus;
}

function reachedFrom(dish: Dish, service: number, scenario: Scenario): number[] {
  const cooked = dayOf(service, scenario);
  return dish.services.filter((at) => {
    if (at <= service) return at === service;
    return (
      dish.keepsDays !== null &&
      dayOf(at, scenario) < cooked + Math.min(dish.keepsDays, LEGAL_DAYS[scenario.rules])
    );
  });
}

function dayOf(service: number, scenario: Scenario): number {
  return scenario.services[service]?.day ?? 0;
}

function courseOf(dish: Dish, service: number, scenario: Scenario): Course | undefined {
  return scenario.services[service]?.courses.find(({ name }) => name === dish.course);
}

function* everyEating(
  service: number,
  eating: Eating,
  sites: readonly Site[],
  scenario: Scenario,
): Generator<Eating> {
  if (service === scenario.services.length) {
    yield eating;
    return;
  }
  const dishes = scenario.dishes.filter(({ services }) => services.includes(service));
  for (const served of everyServing(dishes, 0, new Map(), service, scenario)) {
    for (const split of everySource([...served], 0, service, eating, sites)) {
      yield* everyEating(service + 1, split, sites, scenario);
    }
  }
}

/** Portions of each dish eaten at one service. */
function* everyServing(
  dishes: readonly Dish[],
  index: number,
  served: Map<Dish, number>,
  service: number,
  scenario: Scenario,
): Generator<Map<Dish, number>> {
  const dish = dishes[index];
  if (dish === undefined) {
    if (serviceIsMet(served, service, scenario)) yield served;
    return;
  }
  const course = courseOf(dish, service, scenario);
  const taken = [...served].reduce(
    (sum, [other, portions]) => (course !== undefined && other.course === dish.course ? sum + portions : sum),
    0,
  );
  const most = Math.min(dish.portions?.most ?? Infinity, (course?.portions ?? Infinity) - taken);
  if (most === Infinity) throw new RangeError(`${dish.name} states no portions and is in no course`);
  const least = dish.portions?.least ?? 0;
  for (let portions = 0; portions <= most; portions++) {
    if (portions < least && !(dish.optional && portions === 0)) continue;
    yield* everyServing(dishes, index + 1, new Map(served).set(dish, portions), service, scenario);
  }
}

function serviceIsMet(served: ReadonlyMap<Dish, number>, index: number, scenario: Scenario): boolean {
  const service = scenario.services[index];
  if (service === undefined) return false;
  const count = (fits: (dish: Dish) => boolean): number =>
    [...served].reduce((sum, [dish, portions]) => (fits(dish) ? sum + portions : sum), 0);
  for (const course of service.courses) {
    if (count((dish) => dish.course === course.name) !== course.portions) return false;
    const shown = [...served].filter(
      ([dish, portions]) => dish.course === course.name && portions > 0,
    ).length;
    if (shown < (course.leastDishes ?? 0) || shown > (course.mostDishes ?? Infinity)) return false;
  }
  // Whoever of those with diets sits down together finds as many portions that one of them may eat as they take: of
  // every course, or of all dishes where there are no courses.
  const tables = service.courses.length === 0 ? [null] : service.courses;
  return everyCompany(service.diets).every((company) => {
    const people = company.reduce((sum, { covers }) => sum + covers, 0);
    return tables.every((course) => {
      const fit = count(
        (dish) =>
          (course === null || dish.course === course.name) &&
          company.some(({ diets }) => diets.every((diet) => dish.diets.includes(diet))),
      );
      return course === null ? fit >= people : course.takeUp.times(people).lessThanOrEqualTo(fit);
    });
  });
}

/** Every way to leave some of these out, all left out and none left out among them. */
function everyCompany<T>([first, ...others]: readonly T[]): T[][] {
  if (first === undefined) return [[]];
  return everyCompany(others).flatMap((company) => [company, [first, ...company]]);
}

/** Which cooking each portion eaten comes from: the service's own, or an earlier one of a dish that keeps. */
function* everySource(
  served: readonly [Dish, number][],
  index: number,
  service: number,
  eating: Eating,
  sites: readonly Site[],
): Generator<Eating> {
  const entry = served[index];
  if (entry === undefined) {
    yield eating;
    return;
  }
  const [dish, portions] = entry;
  const sources = sites.filter((site) => site.dish === dish && site.reaches.includes(service));
  for (const split of everySplit(portions, sources.length)) {
    const next: Eating = new Map([...eating].map(([site, eaten]) => [site, new Map(eaten)]));
    sources.forEach((site, source) => {
      if ((split[source] ?? 0) > 0) next.get(site)?.set(service, split[source] ?? 0);
    });
    yield* everySource(served, index + 1, service, next, sites);
  }
}

/** Every way to write a whole number as a sum of so many whole numbers in order. */
export function* everySplit(whole: number, ways: number): Generator<number[]> {
  if (ways === 0) {
    if (whole === 0) yield [];
    return;
  }
  if (ways === 1) {
    yield [whole];
    return;
  }
  for (let first = 0; first <= whole; first++) {
    for (const rest of everySplit(whole - first, ways - 1)) yield [first, ...rest];
  }
}

/** Portions cooked over those eaten, to whole or half batches, and who is given them. */
function* everySpare(
  sites: readonly Site[],
  index: number,
  eating: Eating,
  cookings: readonly MenuCooking[],
  scenario: Scenario,
): Generator<Menu> {
  const site = sites[index];
  if (site === undefined) {
    if (overageIsKept(cookings, scenario) && vesselsDo(cookings, scenario)) yield { cookings };
    return;
  }
  const { dish, service } = site;
  const eaten = [...(eating.get(site) ?? [])].map(([at, portions]) => ({ service: at, portions }));
  const wanted = eaten.reduce((sum, { portions }) => sum + portions, 0);
  const takers = scenario.destinations.filter(({ end, takes }) => end === "given away" && takes.portions);
  for (let spare = 0; spare <= mostSpare(dish, service, scenario); spare++) {
    const portions = wanted + spare;
    if (!wholeBatches(dish, portions)) continue;
    if (portions === 0) {
      yield* everySpare(sites, index + 1, eating, cookings, scenario);
      continue;
    }
    for (const [wasted = 0, ...given] of everySplit(spare, takers.length + 1)) {
      // A single portion is not cooked to be thrown away; of a whole batch some may be over.
      if (wasted > 0 && dish.batch === null) continue;
      const cooking: MenuCooking = {
        dish,
        service,
        portions,
        eaten,
        wasted,
        given: takers.map(({ name }, taker) => ({ destination: name, portions: given[taker] ?? 0 })),
      };
      yield* everySpare(sites, index + 1, eating, [...cookings, cooking], scenario);
    }
  }
}

function mostSpare(dish: Dish, service: number, scenario: Scenario): number {
  const base = courseOf(dish, service, scenario)?.portions ?? dish.portions?.most ?? 0;
  return scenario.services[service]?.overage.times(base).floor().toNumber() ?? 0;
}

function wholeBatches({ batch }: Dish, portions: number): boolean {
  if (batch === null) return true;
  return batch.halves ? (2 * portions) % batch.portions === 0 : portions % batch.portions === 0;
}

/** The dishes of a course share its overage; a dish outside the courses has its own. */
function overageIsKept(cookings: readonly MenuCooking[], scenario: Scenario): boolean {
  return scenario.services.every((service, index) =>
    service.courses.every((course) => {
      const spare = cookings
        .filter((cooking) => cooking.service === index && cooking.dish.course === course.name)
        .reduce(
          (sum, { portions, eaten }) => sum + portions - eaten.reduce((all, at) => all + at.portions, 0),
          0,
        );
      return spare <= service.overage.times(course.portions).floor().toNumber();
    }),
  );
}

/** Each batch, and what is over whole ones, takes a vessel of its own. */
function vesselsDo(cookings: readonly MenuCooking[], { limits, services }: Scenario): boolean {
  return limits.vessels.every(({ vessel, most }) =>
    services.every((_, index) => {
      let taken = 0;
      for (const { dish, service, portions } of cookings) {
        if (service !== index || dish.batch?.vessel !== vessel) continue;
        for (let rest = portions; rest > 0; rest -= dish.batch.portions) taken++;
      }
      return taken <= most;
    }),
  );
}

/** Least grams that a portion can weigh, raw lines raw and cooked lines cooked. */
export function leastPortionGrams(dish: Dish): number {
  return dish.lines.reduce(
    (sum, { least, from }) => sum + wholeGrams(least) / Math.max(...from.map(({ rate }) => rate.toNumber())),
    0,
  );
}

/** Ten-millionths of the currency unit that the staples of so many portions cost. */
export function stapleCost(dish: Dish, portions: number): number {
  return dish.staples.reduce((sum, { name, costPerPortion }) => {
    const cost = Ratio.of(costPerPortion.times(1e7).times(portions));
    if (cost.under !== 1n) throw new RangeError(`${name} has too many decimals for the referee`);
    return sum + Number(cost.over);
  }, 0);
}
