import type { Dish, Item, LineSource, Part, RecipeLine } from "../../../src/kitchen/index.js";
import { Decimal, money, ZERO } from "../../../src/quantity/index.js";
import { dishOf, lineOf, staples } from "../small-scenario.js";
import { STEP } from "./dice.js";
import type { Sketch } from "./sketch.js";

/** One to three dishes of the parts there are. */
export function addDishes(sketch: Sketch, partsAreHeld: boolean): void {
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
              portions: dice.oneOf(2, 2, 3),
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
      mayHaveCeiling(sketch, dish, partsAreHeld)
        ? { ...dish, ceiling: money(ceilingFor(sketch, dish)) }
        : dish,
    );
  }
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
  const alone = ({ name, item }: Part) => item === null || /(stem|core|fringe|candy|frozen leaf)$/.test(name);
  const first = food[dice.between(0, food.length - 1)] as Part;
  // What is worked stands alone, or beside what it is made of.
  const others = food.filter(
    (part) => part !== first && !alone(part) && (!alone(first) || part.name.endsWith("leaf")),
  );
  const second = dice.chance(45) ? others[dice.between(0, Math.max(0, others.length - 1))] : undefined;
  // A dish of pieces takes whole ones; half of what a stem was taken from is left of it.
  const piece = first.pieceWeight === null ? null : Number(first.pieceWeight / 1000n);
  const raw = piece ?? dice.between(1, 4) * STEP * (alone(first) ? 0.5 : 1);
  const ranged = piece === null && dice.chance(20);
  const cooked = piece === null && dice.chance(15) ? new Decimal(dice.oneOf("0.5", "0.8")) : null;
  const mixed = second !== undefined && second.pieceWeight === null && piece === null;
  const extra: Partial<LineSource> =
    mixed && sketch.items.every(({ measure }) => measure === "whole") && dice.chance(20)
      ? { rate: new Decimal(dice.oneOf("2", "0.5")) }
      : mixed && dice.chance(25)
        ? dice.oneOf({ mostShare: new Decimal("0.5") }, { leastShare: new Decimal("0.5") })
        : {};
  const served = cooked === null ? raw : cooked.times(raw).toNumber();
  const most = ranged ? served + (cooked === null ? STEP : cooked.times(STEP).toNumber()) : served;
  return lineOf(
    [served, most],
    [first.name, ...(second === undefined ? [] : [{ part: second.name, ...extra }])],
    cooked === null ? {} : { stated: "cooked", cookingYield: cooked },
  );
}

/**
 * The referee knows what a dish costs where every part comes of one source only; and by trim credit, where main parts
 * go into one exact line alone.
 */
function mayHaveCeiling(sketch: Sketch, { lines }: Dish, partsAreHeld: boolean): boolean {
  const { dice, steps, services, costing } = sketch;
  const mixing = steps.some(
    ({ name }) => name === "dice down" || name === "peel by machine" || name === "split",
  );
  if (mixing || !dice.chance(costing === "edible weight" ? 25 : 85)) return false;
  if (costing !== "trim credit") return true;
  const hearts = lines.filter(({ from }) => from.some(({ part }) => part.endsWith("heart")));
  const isPlain = hearts.every(({ least, most, from }) => least === most && from.length === 1);
  return services.length === 1 && !partsAreHeld && steps.length === 0 && hearts.length < 2 && isPlain;
}

/** A ceiling finely about what the dish would cost of the first item, cut the first way. */
function ceilingFor(sketch: Sketch, dish: Dish): Decimal {
  const { dice } = sketch;
  const [item] = sketch.items as [Item];
  const food = (item.breakdowns[0]?.yields ?? [])
    .filter(({ part }) => /(heart|leaf)$/.test(part))
    .reduce((sum, { fraction }) => sum.plus(fraction), ZERO);
  const perGram = new Decimal((item.buying?.price ?? money("1")).toString())
    .div(10_000)
    .div(new Decimal(item.orderUnit.weight.toString()).div(1000))
    .div(food);
  const grams = dish.lines.reduce(
    (sum, { most, cookingYield }) => sum.plus(new Decimal(Number(most / 1000n)).div(cookingYield)),
    ZERO,
  );
  return perGram
    .times(grams)
    .times(dice.chance(30) ? dice.between(8, 30) / 10 : dice.between(90, 110) / 100)
    .plus(dish.staples[0]?.costPerPortion ?? ZERO)
    .toDecimalPlaces(2);
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
