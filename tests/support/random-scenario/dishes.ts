import type { Dish, Item, LineSource, Part, RecipeLine } from "../../../src/kitchen/index.js";
import { Decimal, money, ZERO } from "../../../src/quantity/index.js";
import { dishOf, lineOf, staples } from "../small-scenario.js";
import { STEP } from "./dice.js";
import type { Sketch } from "./sketch.js";

/** One to three dishes of the parts there are. */
export function addDishes(sketch: Sketch): void {
  const { dice } = sketch;
  const count = dice.between(1, 3);
  const withCourse = sketch.services.flatMap(({ courses }, service) => (courses.length > 0 ? [service] : []));
  for (let index = 0; index < count; index++) {
    const name = ["tart", "pie", "soup"][index] ?? "tart";
    // The first dish is one that every course may take, but for a few times.
    const first = index === 0 && withCourse.length > 0 && !dice.chance(5);
    const services = first ? withCourse : sketch.services.length === 1 ? [0] : dice.oneOf([0], [1], [0, 1]);
    const inCourse = services.every((service) => withCourse.includes(service)) && (first || dice.chance(70));
    const lines = dice.chance(20) ? 2 : 1;
    const portions = first ? null : portionsOf(sketch, inCourse);
    const dish = dishOf(
      name,
      portions,
      Array.from({ length: lines }, () => line(sketch)),
      {
        services,
        course: inCourse ? "main" : null,
        optional: portions !== null && dice.chance(15),
        diets: dice.chance(first ? 80 : 50) ? ["vegetarian"] : [],
        batch: dice.chance(18)
          ? {
              portions: 2,
              halves: typeof portions === "number" && portions % 2 === 1 ? !dice.chance(10) : dice.chance(50),
              vessel: "tray",
            }
          : null,
        keepsDays: services.length > 1 && dice.chance(60) ? dice.between(1, 3) : null,
        staples: staples(dice.oneOf("0", "0.1", "0.25")),
        minutesPerBatch: dice.chance(20) ? new Decimal(dice.between(1, 4)) : null,
      },
    );
    sketch.dishes.push(
      mayHaveCeiling(sketch, dish) ? { ...dish, ceiling: money(ceilingFor(sketch, dish)) } : dish,
    );
  }
  withoutSpareOfUnclearWeight(sketch);
  withoutDietsNobodyCooksFor(sketch);
}

function portionsOf(sketch: Sketch, inCourse: boolean): number | [number, number] | null {
  const { dice } = sketch;
  if (inCourse && dice.chance(80)) return null;
  const least = dice.between(1, inCourse ? 1 : 3);
  return dice.chance(25) ? [dice.between(0, least), least + dice.between(0, 1)] : least;
}

function line(sketch: Sketch): RecipeLine {
  const { dice } = sketch;
  const food = sketch.parts.filter((part) => part.class === "food");
  const alone = (part: Part | undefined) => part?.name.endsWith("stem") || part?.name === "stock";
  const first = food[dice.between(0, food.length - 1)] as Part;
  const others = food.filter((part) => part !== first && !alone(part) && !alone(first));
  const second = dice.chance(45) ? others[dice.between(0, Math.max(0, others.length - 1))] : undefined;
  // A dish of pieces takes whole ones; half of what a stem was taken from is left of it.
  const piece = first.pieceWeight === null ? null : Number(first.pieceWeight / 1000n);
  const raw = piece ?? dice.between(1, 4) * STEP * (alone(first) ? 0.5 : 1);
  const ranged = piece === null && dice.chance(20);
  const cooked = piece === null && dice.chance(15) ? new Decimal(dice.oneOf("0.5", "0.8")) : null;
  const mixed = second !== undefined && second.pieceWeight === null && piece === null;
  const extra: Partial<LineSource> =
    mixed && sketch.awkwardChance(20)
      ? { rate: new Decimal(dice.oneOf("2", "0.5")) }
      : mixed && (ranged ? sketch.awkwardChance(25) : dice.chance(25))
        ? dice.oneOf({ mostShare: new Decimal("0.5") }, { leastShare: new Decimal("0.5") })
        : {};
  if (Object.keys(extra).length > 0 || alone(first)) sketch.grain = STEP / 2;
  const served = cooked === null ? raw : cooked.times(raw).toNumber();
  const most = ranged ? served + (cooked === null ? STEP : cooked.times(STEP).toNumber()) : served;
  return lineOf(
    [served, most],
    [first.name, ...(second === undefined ? [] : [{ part: second.name, ...extra }])],
    cooked === null ? {} : { stated: "cooked", cookingYield: cooked },
  );
}

/** What a dish costs is known only with every going known: so few goings, and nothing else to try. */
function mayHaveCeiling(sketch: Sketch, { lines }: Dish): boolean {
  const isPlain = lines.every(
    ({ least, most, from }) => least === most && (from.length === 1 || sketch.services.length === 1),
  );
  return isPlain && (sketch.awkward === 2 || sketch.services.length === 2) && sketch.awkwardChance(50);
}

/** A ceiling about what the dish would cost. */
function ceilingFor(sketch: Sketch, dish: Dish): Decimal {
  const { dice } = sketch;
  const [item] = sketch.items as [Item];
  const perGram = new Decimal((item.buying?.price ?? money("1")).toString())
    .div(10_000)
    .div(new Decimal(item.orderUnit.weight.toString()).div(1000));
  const grams = dish.lines.reduce((sum, line) => sum + Number(line.most / 1000n), 0);
  return perGram
    .times(grams)
    .times(dice.between(8, 30))
    .div(10)
    .plus(dish.staples[0]?.costPerPortion ?? ZERO)
    .toDecimalPlaces(2);
}

/** Spare portions are weighed, so where there may be some, lines are exact and count gram for gram. */
function withoutSpareOfUnclearWeight(sketch: Sketch): void {
  const unclear = sketch.dishes.some(({ lines }) =>
    lines.some(({ least, most, from }) => least !== most || from.some(({ rate }) => !rate.equals(1))),
  );
  if (!unclear) return;
  sketch.services.forEach((service, index) => {
    sketch.services[index] = { ...service, overage: ZERO };
  });
}

/** Nearly always, a diet that is asked for is one that some dish of the service is fit for. */
function withoutDietsNobodyCooksFor(sketch: Sketch): void {
  sketch.services.forEach((service, index) => {
    const isCookedFor = sketch.dishes.some(
      (dish) => dish.services.includes(index) && dish.diets.length > 0 && (dish.portions?.most ?? 2) > 1,
    );
    if (!isCookedFor && !sketch.dice.chance(10)) sketch.services[index] = { ...service, diets: [] };
  });
}
