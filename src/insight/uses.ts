import {
  buildLotGraph,
  cookedAtATime,
  type LotNode,
  leastLotCosts,
  mostEaten,
  usableAt,
} from "../allocation/index.js";
import type { DishUse, LastResort, Need, Uses } from "../contract/index.js";
import { addDays, type Dish, type Scenario, type Step } from "../kitchen/index.js";
import { Decimal, ONE, toGrams, ZERO } from "../quantity/index.js";
import { allergensOfDish, checkSafety, criticalSteps } from "../safety/index.js";

/** The uses of one entry of the scenario's stock of parts. Today is taken to be the day of the first service. */
export function usesOf(stock: number, scenario: Scenario): Uses {
  const held = scenario.partsOnHand[stock];
  if (held === undefined) throw new RangeError(`there is no part on hand ${stock}`);
  const routes = routesFrom(stock, scenario);
  const own = routes.find(({ lot }) => lot.part === held.part);
  const weight = toGrams(held.weight);
  const dishes = scenario.dishes.flatMap((dish) => dishUse(dish, weight, routes, scenario));
  const dateOf = (day: number | null | undefined): string | null =>
    day == null ? null : addDays(scenario.firstDate, day);
  const resorts = routes
    .flatMap(({ lot, yield: part, steps }): (LastResort & { day: number })[] => {
      const last = steps.at(-1);
      if (last === undefined) return [];
      const kind = lot.kind.state === "frozen" ? "frozen" : last.water.isZero() ? null : "stock";
      // What a step gives beside is no use of its own: spent bones of a stock.
      if (kind === null || lot.kind.class !== "food") return [];
      const names = steps.map(({ name }) => name);
      const keepsUntil = dateOf(lot.lastDay);
      return [
        {
          kind,
          part: lot.part,
          steps: names,
          grams: weight.times(part),
          keepsUntil,
          day: lot.lastDay ?? Number.POSITIVE_INFINITY,
        },
      ];
    })
    .sort((a, b) => b.day - a.day)
    .map(({ day: _, ...resort }) => resort);
  return {
    part: held.part,
    weight: held.weight,
    useBy: dateOf(own?.lot.lastDay),
    dishes: dishes.sort((a, b) => b.takes.cmp(a.takes) || a.costPerPortion.cmp(b.costPerPortion)),
    resorts,
    cautions: cautionsOf(routes, scenario),
    givenTo: own?.lot.kind.class === "food" ? givenTo(scenario) : [],
  };
}

function cautionsOf(routes: readonly Route[], scenario: Scenario): string[] {
  return checkSafety(scenario).warnings.flatMap(({ text, source, part, dish }) => {
    if (dish !== null || !routes.some(({ lot }) => lot.part === part)) return [];
    return [text.includes(source) ? text : `${text} (${source})`];
  });
}

function givenTo({ destinations }: Scenario): string[] {
  return destinations.filter(({ end, takes }) => end === "given away" && takes.food).map(({ name }) => name);
}

/** One of the dish's lines that may take it, by the way that puts most of it into a portion. */
interface LineUse {
  readonly line: number;
  readonly route: Route;
  /** Most grams of the offcut in a portion, and grams of the line that these stand for, before cooking. */
  readonly perPortion: Decimal;
  readonly counts: Decimal;
}

function dishUse(dish: Dish, held: Decimal, routes: readonly Route[], scenario: Scenario): DishUse[] {
  const lines = dish.lines.flatMap((_, line) => lineUse(dish, line, routes, scenario));
  const services = dish.services.filter((service) =>
    lines.every(({ route }) => usableAt(route.lot, service, scenario)),
  );
  const perPortion = lines.reduce((sum, use) => sum.plus(use.perPortion), ZERO);
  if (services.length === 0 || perPortion.isZero()) return [];
  const pots = lines.flatMap(({ route }) => route.most ?? []).map((most) => most.times(services.length));
  const weight = Decimal.min(held, ...pots);
  const atATime = cookedAtATime(dish);
  const wanted = services.reduce((sum, service) => sum + mostEaten(dish, service, scenario), 0);
  const most = Math.max(atATime, Math.floor(wanted / atATime) * atATime);
  const full = Math.min(most, weight.div(perPortion).div(atATime).floor().times(atATime).toNumber());
  const cooked = Math.max(full, atATime, Math.min(most, dish.optional ? 0 : (dish.portions?.least ?? 0)));
  // What a whole portion does not use up goes into more portions, where another part may make up for the rest.
  const spreads = lines.every(({ line }) => (dish.lines[line]?.from.length ?? 0) > 1);
  const takes = Decimal.min(weight, perPortion.times(spreads ? most : Math.max(full, cooked)));
  const portions = spreads ? Math.max(cooked, roundedUp(takes.div(perPortion), atATime, most)) : cooked;
  return [
    {
      dish: dish.name,
      services,
      takes,
      leaves: held.minus(takes),
      portions: full,
      cooked: portions,
      steps: [...new Set(lines.flatMap(({ route }) => route.steps.map(({ name }) => name)))],
      needs: needsOf(dish, portions, takes.div(perPortion), lines),
      costPerPortion: costOf(dish, portions, takes.div(perPortion), lines, scenario),
      allergens: [...allergensOfDish(scenario, dish).allergens, ...allergensOfDish(scenario, dish).others],
      critical: criticalSteps(scenario, dish).map(({ text }) => text),
    },
  ];
}

function roundedUp(portions: Decimal, atATime: number, most: number): number {
  return Math.min(most, portions.div(atATime).ceil().times(atATime).toNumber());
}

function lineUse(dish: Dish, index: number, routes: readonly Route[], scenario: Scenario): LineUse[] {
  const line = dish.lines[index];
  if (line === undefined) return [];
  const uses = line.from.flatMap(({ part, rate, mostShare }): LineUse[] => {
    const route = routes.find(({ lot }) => lot.part === part);
    const inTime = route !== undefined && dish.services.some((at) => usableAt(route.lot, at, scenario));
    if (!inTime) return [];
    const counts = mostShare.times(toGrams(line.most)).div(line.cookingYield);
    return [{ line: index, route, counts, perPortion: counts.div(rate).div(route.yield) }];
  });
  const [best] = uses.sort((a, b) => b.perPortion.cmp(a.perPortion));
  return best === undefined || best.perPortion.isZero() ? [] : [best];
}

/** Grams of each line that the offcut does not make, for so many portions of which `filled` have all they may take. */
function stillNeeded(
  dish: Dish,
  portions: number,
  filled: Decimal,
  lines: readonly LineUse[],
): { line: number; grams: Decimal }[] {
  return dish.lines.map((line, index) => {
    const whole = toGrams(line.least).div(line.cookingYield).times(portions);
    const given = lines.find((use) => use.line === index)?.counts.times(filled) ?? ZERO;
    return { line: index, grams: Decimal.max(0, whole.minus(given)) };
  });
}

function needsOf(dish: Dish, portions: number, filled: Decimal, lines: readonly LineUse[]): Need[] {
  const parts = stillNeeded(dish, portions, filled, lines).flatMap(({ line, grams }): Need[] =>
    grams.isZero()
      ? []
      : [{ kind: "part", parts: dish.lines[line]?.from.map(({ part }) => part) ?? [], grams }],
  );
  const staples = dish.staples.map(
    ({ name, amount }): Need => ({
      kind: "staple",
      name,
      amount: amount === null ? null : { value: amount.value.times(portions), unit: amount.unit },
    }),
  );
  return [...parts, ...staples];
}

function costOf(
  dish: Dish,
  portions: number,
  filled: Decimal,
  lines: readonly LineUse[],
  scenario: Scenario,
): Decimal {
  const costs = leastLotCosts({ ...scenario, partsOnHand: [] });
  const parts = stillNeeded(dish, portions, filled, lines).reduce((sum, { line, grams }) => {
    const sources = dish.lines[line]?.from ?? [];
    const perKilogram = Math.min(
      ...sources.map(
        ({ part, rate }) => costs({ part, origin: { kind: "cut", service: 0 } }) / rate.toNumber(),
      ),
    );
    return sum.plus(grams.div(1000).times(perKilogram.toFixed(6)));
  }, ZERO);
  const staples = dish.staples.reduce((sum, { costPerPortion }) => sum.plus(costPerPortion), ZERO);
  return staples.plus(parts.div(Decimal.max(ONE, portions)));
}

/** A part that an offcut is, or can be made into by allowed steps, with its own last day. */
interface Route {
  readonly lot: LotNode;
  /** Grams of it from one gram of the offcut. */
  readonly yield: Decimal;
  /** The steps on the way, in order; none where it goes as it is. */
  readonly steps: readonly Step[];
  /** Most grams of the offcut that the steps can take before one service; null where no pot limits it. */
  readonly most: Decimal | null;
}

/** Everything one entry of the stock on hand can become, by the way that loses least of it. */
function routesFrom(stock: number, scenario: Scenario): Route[] {
  const part = scenario.partsOnHand[stock]?.part ?? "";
  const routes = new Map<string, Route>();
  // In cutting order a step's source comes before what it gives, so one pass finds every best way.
  for (const lot of buildLotGraph(scenario).lots) {
    if (lot.origin.kind !== "onHand" || lot.origin.index !== stock) continue;
    if (lot.part === part) routes.set(part, { lot, yield: ONE, steps: [], most: null });
    for (const step of scenario.steps) {
      const given = step.yields.find((made) => made.part === lot.part);
      if (given === undefined || given.fraction.isZero()) continue;
      for (const source of step.from) {
        const before = routes.get(source);
        if (before === undefined) continue;
        const found = {
          lot,
          yield: before.yield.times(given.fraction),
          steps: [...before.steps, step],
          most: smaller(before.most, step.capacity && toGrams(step.capacity).div(before.yield)),
        };
        const known = routes.get(lot.part);
        if (known === undefined || found.yield.gt(known.yield)) routes.set(lot.part, found);
      }
    }
  }
  return [...routes.values()];
}

function smaller(one: Decimal | null, other: Decimal | null): Decimal | null {
  return one === null || other === null ? (one ?? other) : Decimal.min(one, other);
}
