import fc from "fast-check";
import type { Item, Part, PartOnHand, Scenario } from "../../src/kitchen/index.js";
import { Decimal, money, NO_MONEY, ZERO } from "../../src/quantity/index.js";
import { Dice, STEP } from "./random-scenario/dice.js";
import { withMoreDiets } from "./random-scenario/diets.js";
import { addDishes } from "./random-scenario/dishes.js";
import { addForm, addItem, addSteps, addSuppliers } from "./random-scenario/items.js";
import { Sketch } from "./random-scenario/sketch.js";
import { g, scenarioOf, serviceOf, withGift } from "./small-scenario.js";
import { countsOf } from "./waste-counts.js";

/** A scenario small enough to try out every plan of it. */
export interface SmallScenario {
  readonly scenario: Scenario;
  /** Step in grams at which the referee tries what is no plain flow; every weight stated is a multiple of it. */
  readonly grain: number;
}

/**
 * Scenarios of one or two items or of two forms of one, one to three dishes and one or two services, in multiples of
 * 20 g, with every kind of rule now and then: some can't be met.
 */
export function smallScenarios(): fc.Arbitrary<SmallScenario> {
  return fc.gen().map((draw) => drawn(new Sketch(new Dice(draw))));
}

function drawn(sketch: Sketch): SmallScenario {
  const { dice } = sketch;
  const aim = dice.oneOf("waste" as const, "waste" as const, "cost" as const, "balanced" as const);
  addServices(sketch);
  const second = dice.chance(45) ? dice.oneOf("another item" as const, "another form" as const) : null;
  if (dice.chance(20))
    sketch.costing = second === "another form" ? "sales value" : dice.oneOf("trim credit", "sales value");
  addItem(sketch, "leek", second === null ? 1 : 2);
  if (second === "another item") addItem(sketch, "squash", 2);
  if (second === "another form") addForm(sketch, sketch.items[0] as Item);
  // Where by-products are credited, the referee knows what dishes cost only without steps and stock.
  const isPlain = sketch.costing === "trim credit" && dice.chance(80);
  if (!isPlain) addSteps(sketch);
  addSuppliers(sketch);
  const held = isPlain ? [] : partsOnHand(sketch);
  addDishes(sketch, held.length > 0);
  const { services, parts, steps, dishes } = sketch;
  const scenario = scenarioOf({
    aim,
    wastePrice: aim === "balanced" ? money(dice.oneOf("1", "3", "8")) : NO_MONEY,
    costing: sketch.costing,
    wasteCounts: countsOf(dice.oneOf(100, 100, 50, 0), dice.oneOf(0, 0, 50, 100), dice.oneOf(0, 0, 25, 100)),
    services,
    items: sketch.items,
    suppliers: sketch.suppliers,
    parts,
    steps,
    dishes,
    partsOnHand: held,
    limits: limits(sketch),
    ...(dice.chance(30) ? { destinations: destinations(sketch) } : {}),
  });
  return { scenario: withMoreDiets(scenario, dice), grain: STEP };
}

function addServices(sketch: Sketch): void {
  const { dice } = sketch;
  const count = dice.chance(45) ? 2 : 1;
  const secondDay = dice.oneOf(1, 0, 2);
  for (let index = 0; index < count; index++) {
    const name = ["first", "second"][index] ?? "first";
    const covers = dice.between(2, count === 2 ? 3 : 5);
    const takeUp = new Decimal(dice.oneOf("1", "0.5"));
    const course = {
      name: "main",
      portions: takeUp.times(covers).ceil().toNumber(),
      takeUp,
      leastDishes: dice.chance(4) ? 2 : null,
      mostDishes: dice.chance(15) ? dice.between(1, 2) : null,
    };
    const hasCourse = dice.chance(45);
    sketch.services.push(
      serviceOf(name, index === 0 ? 0 : secondDay, {
        covers,
        courses: hasCourse ? [course] : [],
        diets: dice.chance(12) ? [{ diets: ["vegetarian"], covers: dice.between(1, 2) }] : [],
        overage: dice.chance(30) ? new Decimal(dice.oneOf("0.5", "0.34", "1")) : ZERO,
        handsMinutes: null,
      }),
    );
  }
}

function partsOnHand({ dice, parts }: Sketch): PartOnHand[] {
  if (!dice.chance(25)) return [];
  const part = parts[dice.between(0, 2)] as Part;
  const weight = part.pieceWeight ?? g(dice.between(1, 6) * STEP);
  return [
    {
      part: part.name,
      weight,
      value: money(dice.oneOf("0", "0.2")),
      useBy: null,
      lastDay: dice.oneOf(null, null, 0, 1, 3),
      ...(dice.chance(15) ? { destination: "refuse" } : {}),
    },
  ];
}

function limits({ dice, services, dishes }: Sketch): Scenario["limits"] {
  return {
    chilled: dice.chance(services.length === 2 ? 20 : 5) ? g(dice.between(4, 20) * STEP) : null,
    ...(dice.chance(4) ? { frozen: g(dice.between(1, 6) * STEP) } : {}),
    handsMinutes: dice.chance(12) ? dice.between(5, 20) : null,
    vessels:
      dishes.some(({ batch }) => batch !== null) && dice.chance(50)
        ? [{ vessel: "tray", most: dice.between(0, 2) }]
        : [],
  };
}

function destinations({ dice }: Sketch): Scenario["destinations"] {
  const takes = dice.oneOf(
    { food: true, portions: false },
    { food: false, portions: true },
    { food: true, portions: true },
  );
  return withGift(dice.oneOf(null, STEP, 2 * STEP, 6 * STEP), takes);
}
