import fc from "fast-check";
import type {
  Breakdown,
  Carry,
  Dish,
  Item,
  LineSource,
  Part,
  PartOnHand,
  RecipeLine,
  Scenario,
  Service,
  Step,
} from "../../src/kitchen/index.js";
import { Decimal, money, NO_MONEY, ONE, ZERO } from "../../src/quantity/index.js";
import {
  breakdownOf,
  dishOf,
  g,
  itemOf,
  lineOf,
  partOf,
  scenarioOf,
  serviceOf,
  staples,
  stepOf,
  withGift,
} from "./small-scenario.js";

/** A scenario small enough to try out every plan of it. */
export interface SmallScenario {
  readonly scenario: Scenario;
  /** Step in grams at which the referee tries what is no plain flow; every weight stated is a multiple of it. */
  readonly grain: number;
}

/** Draws one thing after another; everything drawn shrinks towards the plainest scenario. */
class Dice {
  constructor(private readonly draw: fc.GeneratorValue) {}

  between(least: number, most: number): number {
    return this.draw(fc.integer, { min: least, max: most });
  }

  /** True so many times in a hundred; false is the plain case. */
  chance(percent: number): boolean {
    return this.between(0, 99) >= 100 - percent;
  }

  oneOf<T>(first: T, ...others: T[]): T {
    return [first, ...others][this.between(0, others.length)] ?? first;
  }
}

const STEP = 20;

/**
 * Scenarios of one or two items, one to three dishes and one or two services, in multiples of 20 g, with every
 * kind of rule now and then: some can't be met.
 */
export function smallScenarios(): fc.Arbitrary<SmallScenario> {
  return fc.gen().map((draw) => new Sketch(new Dice(draw)).scenario());
}

/** Everything drawn so far, on the way to one scenario. */
class Sketch {
  private readonly items: Item[] = [];
  private readonly parts: Part[] = [];
  private readonly steps: Step[] = [];
  private readonly services: Service[] = [];
  private readonly dishes: Dish[] = [];
  private grain = STEP;
  /** How many more rules that the referee must try amount by amount may come in. */
  private awkward = 2;

  constructor(private readonly dice: Dice) {}

  scenario(): SmallScenario {
    const { dice } = this;
    const aim = dice.oneOf("waste" as const, "waste" as const, "cost" as const, "balanced" as const);
    this.addServices();
    if (this.services.length === 2) this.awkward = 1;
    const items = dice.chance(30) ? 2 : 1;
    for (let index = 0; index < items; index++) this.addItem(["leek", "squash"][index] ?? "leek", items);
    this.addSteps();
    this.addDishes();
    const limits = this.limits();
    return {
      scenario: scenarioOf({
        aim,
        wastePrice: aim === "balanced" ? money(dice.oneOf("1", "3", "8")) : NO_MONEY,
        countAvoidablePeel: !dice.chance(30),
        services: this.services,
        items: this.items,
        parts: this.parts,
        steps: this.steps,
        dishes: this.dishes,
        partsOnHand: this.partsOnHand(),
        limits,
        ...(dice.chance(30)
          ? {
              destinations: withGift(
                dice.oneOf(null, 2 * STEP, 6 * STEP),
                dice.oneOf(
                  { food: true, portions: false },
                  { food: false, portions: true },
                  { food: true, portions: true },
                ),
              ),
            }
          : {}),
      }),
      grain: this.grain,
    };
  }

  private addServices(): void {
    const { dice } = this;
    const count = dice.chance(40) ? 2 : 1;
    const secondDay = dice.oneOf(1, 0, 2);
    for (let index = 0; index < count; index++) {
      const name = ["first", "second"][index] ?? "first";
      const covers = dice.between(2, count === 2 ? 3 : 5);
      const takeUp = new Decimal(dice.oneOf("1", "0.5"));
      const course = {
        name: "main",
        portions: takeUp.times(covers).ceil().toNumber(),
        takeUp,
        leastDishes: dice.chance(10) ? 2 : null,
        mostDishes: dice.chance(15) ? dice.between(1, 2) : null,
      };
      const hasCourse = dice.chance(45);
      this.services.push(
        serviceOf(name, index === 0 ? 0 : secondDay, {
          covers,
          courses: hasCourse ? [course] : [],
          diets: dice.chance(12) ? [{ diet: "vegetarian", covers: dice.between(1, 2) }] : [],
          overage: dice.chance(25) ? new Decimal(dice.oneOf("0.5", "0.34")) : ZERO,
          handsMinutes: null,
        }),
      );
    }
  }

  /** Like a chance, but for rules that cost the referee much. */
  private awkwardChance(percent: number): boolean {
    if (this.awkward === 0 || !this.dice.chance(percent)) return false;
    this.awkward--;
    return true;
  }

  private addItem(name: string, items: number): void {
    const { dice } = this;
    const pieces = this.awkwardChance(15);
    const first = dice.between(3, 8) * STEP;
    const loose = !pieces && dice.chance(8);
    const weights = {
      [`${name} heart`]: first,
      [`${name} leaf`]: dice.between(1, 6) * STEP,
      [`${name} peel`]: dice.between(0, 3) * STEP,
    };
    const unit = Object.values(weights).reduce((sum, weight) => sum + weight, dice.between(0, 2) * STEP);
    const minutes = () => ({ minutes: dice.chance(50) ? new Decimal(dice.between(1, 4)) : null });
    const breakdowns: Breakdown[] = [breakdownOf("plain", unit, positive(weights), minutes())];
    if (dice.chance(55) && !loose) breakdowns.push(this.otherCut(name, unit, weights, pieces, minutes()));
    const most =
      items === 2
        ? dice.between(2, this.services.length === 2 ? 2 : 3)
        : dice.between(3, this.services.length === 2 ? 4 : 6);
    const price = new Decimal(dice.between(2, 30)).div(10).toString();
    this.items.push(
      loose
        ? looseItem(name, price, dice.between(1, 3), dice)
        : { ...itemOf(name, unit, price, most, breakdowns), ...this.wholeItem(unit, price, most) },
    );
    const keeps = () => dice.oneOf(null, null, 1, 2, 3);
    this.parts.push(
      partOf(`${name} heart`, name, "food", {
        keepsDays: keeps(),
        ...(pieces ? { pieceWeight: g(first) } : { carry: this.carry(price, unit) }),
      }),
      partOf(`${name} leaf`, name, "food", { keepsDays: keeps(), carry: this.carry(price, unit) }),
      partOf(`${name} peel`, name, dice.chance(10) ? "never" : "inedible", { keepsDays: keeps() }),
    );
  }

  /** Another way of cutting the same unit: thicker or thinner peeling, more or less of the heart. */
  private otherCut(
    name: string,
    unit: number,
    weights: Readonly<Record<string, number>>,
    pieces: boolean,
    minutes: { minutes: Decimal | null },
  ): Breakdown {
    const { dice } = this;
    const heart = weights[`${name} heart`] ?? 0;
    const room = unit - (pieces ? 0 : dice.between(0, 3) * STEP);
    const peel = Math.min(room, dice.between(0, 4) * STEP);
    const less = pieces || heart > room - peel ? 0 : dice.between(1, heart / STEP) * STEP;
    return breakdownOf(
      "other",
      unit,
      positive({ [`${name} heart`]: less, [`${name} leaf`]: room - peel - less, [`${name} peel`]: peel }),
      minutes,
    );
  }

  private wholeItem(unit: number, price: string, most: number): Partial<Item> {
    const { dice } = this;
    const size = dice.chance(20) ? 2 : 1;
    const last = this.services.length - 1;
    const deliveries = last === 0 ? [0] : dice.oneOf([0], [0, 1], [0, 1], [1]);
    const held = dice.chance(15) ? dice.between(1, 2) : 0;
    return {
      keepsDays: dice.oneOf(null, null, 1, 2, 3),
      orderUnit: { name: `${size}`, size: new Decimal(size), weight: g(size * unit) },
      buying:
        held > 0 && dice.chance(20)
          ? null
          : {
              price: money(new Decimal(price).times(size)),
              taxRate: null,
              least: dice.chance(8) ? 1 : 0,
              most: Math.max(1, Math.floor(most / size)),
              deliveries,
              orderBy: null,
            },
      onHand:
        held === 0
          ? []
          : [
              {
                units: new Decimal(held),
                weight: g(held * unit),
                value: money(dice.oneOf("0", "0.5")),
                lastDay: dice.oneOf(null, 0, 1),
              },
            ],
      carry: dice.chance(8)
        ? { use: "later", limit: g(unit), valuePerKilogram: valueBelow(price, unit, 4) }
        : null,
    };
  }

  private carry(price: string, unit: number): Carry | null {
    const { dice } = this;
    if (!dice.chance(12)) return null;
    return {
      use: "later",
      limit: g(dice.between(1, 4) * STEP),
      valuePerKilogram: valueBelow(price, unit, 2),
    };
  }

  private addSteps(): void {
    const { dice } = this;
    const [{ name }] = this.items as [Item];
    if (dice.chance(25)) this.steps.push(stepOf("dice down", [`${name} heart`], { [`${name} leaf`]: "1" }));
    if (this.awkwardChance(15)) {
      this.parts.push(
        partOf(`${name} stem`, name, "food", { keepsDays: dice.oneOf(null, 1, 2) }),
        partOf(`${name} skin`, name, "inedible"),
      );
      this.steps.push(
        stepOf("peel", [`${name} leaf`], { [`${name} stem`]: "0.5", [`${name} skin`]: "0.25" }, this.work()),
      );
    }
    const isBone = this.parts.some((part) => part.name === `${name} peel` && part.class === "inedible");
    if (isBone && this.awkwardChance(12)) {
      this.parts.push(
        partOf("stock", null, "food", { carry: this.carry("1", 1000) }),
        partOf("solids", null, "inedible"),
      );
      this.steps.push(
        stepOf("pot", [`${name} peel`], { stock: "1", solids: "1" }, { water: ONE, ...this.work() }),
      );
    }
  }

  private work(): Partial<Step> {
    const { dice } = this;
    return {
      capacity: dice.chance(30) ? g(dice.between(2, 6) * STEP) : null,
      minutesPerKilogram: dice.chance(30) ? new Decimal(50) : null,
    };
  }

  private addDishes(): void {
    const { dice } = this;
    const count = dice.between(1, 3);
    const withCourse = this.services.flatMap(({ courses }, service) => (courses.length > 0 ? [service] : []));
    for (let index = 0; index < count; index++) {
      const name = ["tart", "pie", "soup"][index] ?? "tart";
      // The first dish is one that every course may take, but for a few times.
      const first = index === 0 && withCourse.length > 0 && !dice.chance(5);
      const services = first ? withCourse : this.services.length === 1 ? [0] : dice.oneOf([0], [1], [0, 1]);
      const inCourse =
        services.every((service) => withCourse.includes(service)) && (first || dice.chance(70));
      const lines = dice.chance(20) ? 2 : 1;
      const portions = first ? null : this.portions(inCourse);
      const dish = dishOf(
        name,
        portions,
        Array.from({ length: lines }, () => this.line()),
        {
          services,
          course: inCourse ? "main" : null,
          optional: portions !== null && dice.chance(15),
          diets: dice.chance(first ? 80 : 50) ? ["vegetarian"] : [],
          batch: dice.chance(15) ? { portions: 2, halves: !dice.chance(30), vessel: "tray" } : null,
          keepsDays: services.length > 1 && dice.chance(40) ? dice.between(1, 3) : null,
          staples: staples(dice.oneOf("0", "0.1", "0.25")),
          minutesPerBatch: dice.chance(20) ? new Decimal(dice.between(1, 4)) : null,
        },
      );
      this.dishes.push(this.mayHaveCeiling(dish) ? { ...dish, ceiling: money(this.ceilingFor(dish)) } : dish);
    }
    this.withoutSpareOfUnclearWeight();
  }

  private portions(inCourse: boolean): number | [number, number] | null {
    const { dice } = this;
    if (inCourse && dice.chance(80)) return null;
    const least = dice.between(1, 3);
    return dice.chance(25) ? [dice.between(0, least), least + dice.between(0, 1)] : least;
  }

  private line(): RecipeLine {
    const { dice } = this;
    const food = this.parts.filter((part) => part.class === "food");
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
      mixed && this.awkwardChance(20)
        ? { rate: new Decimal(dice.oneOf("2", "0.5")) }
        : mixed && (ranged ? this.awkwardChance(25) : dice.chance(25))
          ? dice.oneOf({ mostShare: new Decimal("0.5") }, { leastShare: new Decimal("0.5") })
          : {};
    if (Object.keys(extra).length > 0 || alone(first)) this.grain = STEP / 2;
    const served = cooked === null ? raw : cooked.times(raw).toNumber();
    const most = ranged ? served + (cooked === null ? STEP : cooked.times(STEP).toNumber()) : served;
    return lineOf(
      [served, most],
      [first.name, ...(second === undefined ? [] : [{ part: second.name, ...extra }])],
      cooked === null ? {} : { stated: "cooked", cookingYield: cooked },
    );
  }

  /** What a dish costs is known only with every going known: so few goings, and nothing else to try. */
  private mayHaveCeiling({ lines }: Dish): boolean {
    const isPlain = lines.every(
      ({ least, most, from }) => least === most && (from.length === 1 || this.services.length === 1),
    );
    return isPlain && (this.awkward === 2 || this.services.length === 2) && this.awkwardChance(50);
  }

  /** A ceiling about what the dish would cost. */
  private ceilingFor(dish: Dish): Decimal {
    const { dice } = this;
    const [item] = this.items as [Item];
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
  private withoutSpareOfUnclearWeight(): void {
    const unclear = this.dishes.some(({ lines }) =>
      lines.some(({ least, most, from }) => least !== most || from.some(({ rate }) => !rate.equals(1))),
    );
    if (!unclear) return;
    this.services.forEach((service, index) => {
      this.services[index] = { ...service, overage: ZERO };
    });
  }

  private partsOnHand(): PartOnHand[] {
    const { dice } = this;
    if (!dice.chance(20)) return [];
    const part = this.parts[dice.between(0, 1)] as Part;
    const weight = part.pieceWeight ?? g(dice.between(1, 6) * STEP);
    return [
      {
        part: part.name,
        weight,
        value: money(dice.oneOf("0", "0.2")),
        useBy: null,
        lastDay: dice.oneOf(null, 0, 1),
      },
    ];
  }

  private limits(): Scenario["limits"] {
    const { dice } = this;
    const isLoose = this.items.some(({ measure }) => measure === "loose");
    const isClear =
      !isLoose && this.dishes.every(({ lines }) => lines.every(({ least, most }) => least === most));
    return {
      chilled:
        this.services.length === 2 && isClear && this.awkwardChance(20)
          ? g(dice.between(2, 20) * STEP)
          : null,
      handsMinutes: dice.chance(12) ? dice.between(5, 20) : null,
    };
  }
}

function positive(weights: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(weights).filter(([, weight]) => weight > 0));
}

/** A loose item, half of it heart, bought in steps of 200 g. */
function looseItem(name: string, price: string, most: number, dice: Dice): Item {
  return itemOf(
    name,
    1000,
    price,
    most,
    [breakdownOf("plain", 1000, { [`${name} heart`]: 500, [`${name} leaf`]: 300, [`${name} peel`]: 100 })],
    {
      measure: "loose",
      unitName: "kg",
      orderUnit: { name: "200 g", size: new Decimal("0.2"), weight: g(200) },
      keepsDays: dice.oneOf(null, 1, 2),
    },
  );
}

/** A value for a kilogram, well below what a kilogram cost. */
function valueBelow(price: string, unit: number, part: number): Carry["valuePerKilogram"] {
  return money(new Decimal(price).div(unit).times(1000).div(part).toDecimalPlaces(2));
}
