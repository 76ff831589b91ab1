import { z } from "zod";
import type { Dish, Item, RecipeLine, Scenario, Service, Step, Yield } from "../kitchen/index.js";
import { type Decimal, ONE, ZERO } from "../quantity/index.js";
import { usableParts } from "../waste/index.js";
import { decimal } from "./decimals.js";
import type { Written } from "./figure-types.js";
import { gramsText, moneyText } from "./figures.js";

const names = z.array(z.string());
const whole = z.number();
const given = z.array(z.object({ part: z.string(), fraction: decimal }));

/** For one portion, as the recipe states it. */
const lineSchema = z.object({
  line: z.string(),
  least: decimal,
  most: decimal,
  stated: z.enum(["raw", "cooked"]),
  cookingYield: decimal,
  from: z.array(z.object({ part: z.string(), rate: decimal, leastShare: decimal, mostShare: decimal })),
});

/**
 * What a plan was asked to keep to, for whoever checks it by its JSON alone: weights in grams, money in currency units,
 * shares with 1 being whole, minutes hands-on. Null where there is no limit.
 */
export const askedSchema = z.object({
  scaleStep: decimal,
  wastePrice: decimal.describe("For a kilogram, in the balanced aim."),
  limits: z.object({
    chilled: decimal.nullable(),
    frozen: decimal.nullable(),
    vessels: z.array(z.object({ vessel: z.string(), most: whole })),
  }),
  services: z.array(
    z.object({
      service: z.string(),
      hands: decimal.nullable(),
      overage: decimal,
      courses: z.array(
        z.object({
          course: z.string(),
          portions: whole,
          takeUp: decimal,
          leastDishes: whole.nullable(),
          mostDishes: whole.nullable(),
        }),
      ),
      diets: z
        .array(z.object({ diets: names, covers: whole }))
        .describe("Groups of people apart from one another, each fit only for dishes of all its diets."),
    }),
  ),
  suppliers: z.array(z.object({ supplier: z.string(), minimum: decimal, delivery: decimal })),
  items: z.array(
    z.object({
      item: z.string(),
      family: z.string().describe("What its parts are named after: forms of one item are of one family."),
      supplier: z.string().nullable(),
      unitWeight: decimal,
      buying: z
        .object({
          least: whole,
          most: whole.nullable(),
          deliveries: names,
          prices: z
            .array(z.object({ from: whole, price: decimal }))
            .describe("For one order unit, by the least that are bought in one delivery."),
        })
        .nullable()
        .describe("Null where buying is off."),
      keep: z.object({ limit: decimal, value: decimal }).nullable(),
      breakdowns: z.array(z.object({ breakdown: z.string(), gives: given, loss: decimal, minutes: decimal })),
    }),
  ),
  parts: z.array(
    z.object({
      part: z.string(),
      class: z.enum(["food", "inedible", "never"]),
      peel: z.boolean(),
      usable: z.boolean().describe("Inedible, and some step makes food of it."),
      frozen: z.boolean(),
      keep: z.object({ limit: decimal, value: decimal }).nullable(),
    }),
  ),
  steps: z.array(
    z.object({
      step: z.string(),
      from: names,
      gives: given,
      loss: decimal,
      water: decimal,
      capacity: decimal.nullable(),
      minutesPerKilogram: decimal,
    }),
  ),
  dishes: z.array(
    z.object({
      dish: z.string(),
      course: z.string().nullable(),
      services: names,
      portions: z
        .object({ least: whole, most: whole })
        .nullable()
        .describe("At each service that offers it; null where the course alone decides."),
      optional: z.boolean(),
      ceiling: decimal.nullable(),
      diets: names,
      batch: z.object({ portions: whole, halves: z.boolean(), vessel: z.string() }).nullable(),
      minutes: decimal.describe("For a batch, or for a portion where there is none."),
      lines: z.array(lineSchema),
    }),
  ),
  destinations: z.array(
    z.object({
      destination: z.string(),
      end: z.enum(["given away", "waste"]),
      takes: z.object({ food: z.boolean(), inedible: z.boolean(), portions: z.boolean() }),
      limit: decimal.nullable(),
    }),
  ),
});

export type AskedJson = Written<z.infer<typeof askedSchema>>;

/** What the scenario asks, as the contract writes it. */
export function askedOf(scenario: Scenario): AskedJson {
  const { limits, parts } = scenario;
  const usable = usableParts(scenario);
  return {
    scaleStep: gramsText(scenario.scaleStep),
    wastePrice: moneyText(scenario.wastePrice),
    limits: {
      chilled: limits.chilled === null ? null : gramsText(limits.chilled),
      frozen: limits.frozen === undefined ? null : gramsText(limits.frozen),
      vessels: limits.vessels.map(({ vessel, most }) => ({ vessel, most })),
    },
    services: scenario.services.map((service) => serviceAsked(service, scenario)),
    suppliers: (scenario.suppliers ?? []).map(({ name, minimum, delivery }) => ({
      supplier: name,
      minimum: moneyText(minimum),
      delivery: moneyText(delivery),
    })),
    items: scenario.items.map((item) => itemAsked(item, scenario)),
    parts: parts.map(({ name, class: kind, isPeel, state, carry }) => ({
      part: name,
      class: kind,
      peel: isPeel,
      usable: usable.has(name),
      frozen: state === "frozen",
      keep: keepAsked(carry),
    })),
    steps: scenario.steps.map(stepAsked),
    dishes: scenario.dishes.map((dish) => dishAsked(dish, scenario)),
    destinations: scenario.destinations.map(({ name, end, takes, limit }) => ({
      destination: name,
      end,
      takes: { ...takes },
      limit: limit === null ? null : gramsText(limit),
    })),
  };
}

function serviceAsked(
  { name, handsMinutes, overage, courses, diets }: Service,
  { limits }: Scenario,
): AskedJson["services"][number] {
  const hands = handsMinutes ?? limits.handsMinutes;
  return {
    service: name,
    hands: hands === null ? null : String(hands),
    overage: text(overage),
    courses: courses.map(({ name: course, portions, takeUp, leastDishes, mostDishes }) => ({
      course,
      portions,
      takeUp: text(takeUp),
      leastDishes,
      mostDishes,
    })),
    diets: diets.map(({ diets: all, covers }) => ({ diets: [...all], covers })),
  };
}

function itemAsked(item: Item, { services }: Scenario): AskedJson["items"][number] {
  const { buying } = item;
  return {
    item: item.name,
    family: item.of,
    supplier: item.supplier,
    unitWeight: gramsText(item.unitWeight),
    buying:
      buying === null
        ? null
        : {
            least: buying.least,
            most: buying.most,
            deliveries: buying.deliveries.map((service) => services[service]?.name ?? ""),
            prices: [{ from: 1, price: buying.price }, ...(buying.breaks ?? [])].map(({ from, price }) => ({
              from,
              price: moneyText(price),
            })),
          },
    keep: keepAsked(item.carry),
    breakdowns: item.breakdowns.map(({ name, yields, loss, minutes }) => ({
      breakdown: name,
      gives: yields.map(yieldText),
      loss: text(loss),
      minutes: text(minutes ?? ZERO),
    })),
  };
}

function stepAsked({
  name,
  from,
  yields,
  loss,
  water,
  capacity,
  minutesPerKilogram,
}: Step): AskedJson["steps"][number] {
  return {
    step: name,
    from: [...from],
    gives: yields.map(yieldText),
    loss: text(loss),
    water: text(water),
    capacity: capacity === null ? null : gramsText(capacity),
    minutesPerKilogram: text(minutesPerKilogram ?? ZERO),
  };
}

function dishAsked(dish: Dish, { services }: Scenario): AskedJson["dishes"][number] {
  const { portions, batch, ceiling } = dish;
  return {
    dish: dish.name,
    course: dish.course,
    services: dish.services.map((service) => services[service]?.name ?? ""),
    portions: portions === null ? null : { least: portions.least, most: portions.most },
    optional: dish.optional,
    ceiling: ceiling === null ? null : moneyText(ceiling),
    diets: [...dish.diets],
    batch: batch === null ? null : { portions: batch.portions, halves: batch.halves, vessel: batch.vessel },
    minutes: text(dish.minutesPerBatch ?? ZERO),
    lines: dish.lines.map(lineAsked),
  };
}

function lineAsked({ name, least, most, stated, cookingYield, from }: RecipeLine) {
  return {
    line: name,
    least: gramsText(least),
    most: gramsText(most),
    stated,
    cookingYield: text(stated === "cooked" ? cookingYield : ONE),
    from: from.map(({ part, rate, leastShare, mostShare }) => ({
      part,
      rate: text(rate),
      leastShare: text(leastShare),
      mostShare: text(mostShare),
    })),
  };
}

function keepAsked(carry: Item["carry"]): { limit: string; value: string } | null {
  return carry === null ? null : { limit: gramsText(carry.limit), value: moneyText(carry.valuePerKilogram) };
}

function yieldText({ part, fraction }: Yield): { part: string; fraction: string } {
  return { part, fraction: text(fraction) };
}

function text(value: Decimal): string {
  return value.toFixed();
}
