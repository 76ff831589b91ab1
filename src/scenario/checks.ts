import {
  COSTING_METHODS,
  DEFAULT_COSTING,
  type Dish,
  type Item,
  isFitFor,
  type Service,
  type Step,
} from "../kitchen/index.js";
import { Decimal, grams, ONE, scale, times, toCurrency } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { leastCosts, leastPerKilogram } from "./least-cost.js";
import type { Parts } from "./parts.js";
import type { StepDraft } from "./steps.js";
import { words } from "./wording/index.js";

/** What the checks of a scenario as a whole look at. */
export interface Drafted {
  readonly services: readonly Service[];
  readonly items: readonly Item[];
  readonly steps: readonly StepDraft[];
  readonly parts: Parts;
  readonly dishes: readonly Dish[];
}

type Check = (context: Resolving, drafted: Drafted) => void;

const CHECKS: readonly Check[] = [
  stepsRunInNoCircle,
  keepingOutlivesThePlan,
  keepingIsValuedBelowCost,
  wasteHasAPrice,
  creditsAreStated,
  coursesHaveDishes,
  dietsHaveDishes,
  vesselsAreUsed,
  linesShowOnTheScale,
];

export function checkScenario(context: Resolving, drafted: Drafted): void {
  for (const check of CHECKS) check(context, drafted);
}

function stepsRunInNoCircle(context: Resolving, { steps }: Drafted): void {
  const made = new Map<string, string[]>();
  const reported = new Set<string>();
  for (const { step, gives, path } of steps) {
    for (const from of step.from) {
      for (const { part } of gives) {
        const way = wayBetween(made, part, from);
        if (way === null) made.set(from, [...(made.get(from) ?? []), part]);
        else if (path !== null && !reported.has(step.name)) {
          reported.add(step.name);
          context.atKey(path, words.circle([...way, part]));
        }
      }
    }
  }
}

/** The parts on a way from one to another by the steps noted so far, both ends included. */
function wayBetween(made: ReadonlyMap<string, readonly string[]>, from: string, to: string): string[] | null {
  const ways: string[][] = [[from]];
  const seen = new Set([from]);
  for (let way = ways.shift(); way !== undefined; way = ways.shift()) {
    const last = way.at(-1) ?? from;
    if (last === to) return way;
    for (const next of made.get(last) ?? []) {
      if (!seen.has(next)) ways.push([...way, next]);
      seen.add(next);
    }
  }
  return null;
}

function keepingOutlivesThePlan(context: Resolving, { items, parts }: Drafted): void {
  for (const { name, carry, keepsDays } of items) {
    if (carry !== null && keepsDays === 1) context.atKey(["items", name, "keep"], words.keepsTooShort(name));
  }
  for (const { name, carry, keepsDays } of parts.values()) {
    if (carry !== null && keepsDays === 1) context.atKey(["parts", name, "keep"], words.keepsTooShort(name));
  }
}

function keepingIsValuedBelowCost(context: Resolving, { items, steps, parts }: Drafted): void {
  const report = (path: Path, value: Decimal, cost: Decimal | null | undefined) => {
    if (cost && value.greaterThan(cost))
      context.at([...path, "keep", "value"], words.keepAboveCost(value, cost));
  };
  for (const item of items) {
    if (item.carry !== null) {
      report(["items", item.name], toCurrency(item.carry.valuePerKilogram), leastPerKilogram(item));
    }
  }
  const made: Step[] = steps.map(({ step }) => step);
  const least = leastCosts(items, made, parts, COSTING_METHODS[context.file.costing ?? DEFAULT_COSTING]);
  for (const { name, carry } of parts.values()) {
    if (carry !== null) report(["parts", name], toCurrency(carry.valuePerKilogram), least.get(name));
  }
}

function wasteHasAPrice(context: Resolving): void {
  if (context.file.aim !== "balanced" || context.file.waste_price !== undefined) return;
  if (!context.isLeftOut(["waste_price"])) context.at(["aim"], words.noWastePrice());
}

function creditsAreStated(context: Resolving, { parts }: Drafted): void {
  const { costing = DEFAULT_COSTING } = context.file;
  if (COSTING_METHODS[costing].needsValueOf === "no part") return;
  const stated = [...parts.values()].some(({ marketValue }) => marketValue !== null);
  if (!stated && !context.isLeftOut(["parts"])) context.at(["costing"], words.noCredits(costing));
}

function coursesHaveDishes(context: Resolving, { services, dishes }: Drafted): void {
  const has = (index: number, course: string | null) =>
    services[index]?.courses.some(({ name }) => name === course) ?? false;
  const misplaced = dishes.some(
    ({ course, services: at, portions }) =>
      portions === null && (at.length === 0 || !at.every((index) => has(index, course))),
  );
  if (misplaced || dishesUnsettled(context)) return;
  services.forEach((service, index) => {
    for (const { name, portions } of service.courses) {
      const offered = dishes.some((dish) => dish.course === name && dish.services.includes(index));
      if (portions > 0 && !offered) {
        context.atKey(["services", index, "courses", name], words.courseWithoutDish(name, service.name));
      }
    }
  });
}

function dietsHaveDishes(context: Resolving, { services, dishes }: Drafted): void {
  if (dishesUnsettled(context)) return;
  const known = [...new Set(dishes.flatMap(({ diets }) => diets))];
  services.forEach((service, index) => {
    const written = Object.keys(context.file.services[index]?.diets ?? {});
    service.diets.forEach((people, entry) => {
      const fit = dishes.filter((dish) => isFitFor(people, dish));
      const offered = fit.some((dish) => dish.services.includes(index));
      const unsettled = fit.some((dish) => dish.services.length === 0);
      if (people.covers === 0 || offered || unsettled) return;
      const unknown = people.diets.find((diet) => !known.includes(diet));
      const meant = unknown === undefined ? null : didYouMean(unknown, known);
      context.atKey(
        ["services", index, "diets", written[entry] ?? ""],
        words.dietWithoutDish(unknown === undefined ? people.diets : [unknown], service.name, meant),
      );
    });
  });
}

function vesselsAreUsed(context: Resolving, { dishes }: Drafted): void {
  if (dishesUnsettled(context)) return;
  const known = [...new Set(dishes.flatMap(({ batch }) => (batch === null ? [] : [batch.vessel])))];
  for (const vessel of context.namesWritten(["limits", "vessels"])) {
    if (known.includes(vessel)) continue;
    context.atKey(
      ["limits", "vessels", vessel],
      words.unusedVessel(vessel, didYouMean(vessel, known), known),
    );
  }
}

/** What the most portions take of a line is no less than the scale shows: pieces are counted, all else is weighed. */
function linesShowOnTheScale(context: Resolving, { services, dishes, parts }: Drafted): void {
  if (dishesUnsettled(context) || context.isLeftOut(["services"]) || context.isLeftOut(["scale_step"]))
    return;
  const step = context.file.scale_step ?? grams("1");
  for (const dish of dishes) {
    const portions = mostPortions(dish, services);
    const isWhole = context.file.dishes[dish.name]?.lines?.length === dish.lines.length;
    if (!isWhole || portions === 0) continue;
    dish.lines.forEach(({ most, cookingYield, from }, index) => {
      if (from.some(({ part, rate }) => parts.get(part)?.pieceWeight || rate.isZero())) return;
      if (cookingYield.isZero() || most === 0n) return;
      const least = from.reduce((rate, source) => Decimal.min(rate, source.rate), from[0]?.rate ?? ONE);
      const all = scale(times(most, portions), ONE.div(cookingYield.times(least)));
      const place = ["dishes", dish.name, "lines", index, "amount"];
      if (all < step) context.at(place, words.lessThanTheScaleShows(portions, all, step));
    });
  }
}

/** Most portions of one cooking: all that a service may ask for and its overage, and later ones where the rest keeps. */
function mostPortions(
  { course, portions, services: at, keepsDays }: Dish,
  services: readonly Service[],
): number {
  const asked = at.flatMap((index) => {
    const service = services[index];
    if (service === undefined) return [];
    const ofCourse = service.courses.find(({ name }) => name === course)?.portions;
    const eaten = Math.min(portions?.most ?? ofCourse ?? 0, ofCourse ?? portions?.most ?? 0);
    return [
      eaten +
        service.overage
          .times(ofCourse ?? portions?.most ?? 0)
          .floor()
          .toNumber(),
    ];
  });
  return keepsDays === null ? Math.max(0, ...asked) : asked.reduce((sum, each) => sum + each, 0);
}

/** Whether what some dish is, is fit for, or is offered at could not be read. */
function dishesUnsettled(context: Resolving): boolean {
  const names = context.namesWritten(["dishes"]);
  if (names.length === 0) return context.isLeftOut(["dishes"]);
  return names.some(
    (name) =>
      context.file.dishes[name] === undefined ||
      ["course", "diets", "services", "batch"].some((key) => context.isLeftOut(["dishes", name, key])),
  );
}
