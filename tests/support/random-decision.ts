import fc from "fast-check";
import type {
  Cooking,
  Cut,
  Decision,
  Dish,
  Item,
  ItemEnd,
  KeptPart,
  Lot,
  LotOrigin,
  Part,
  PartUse,
  Prep,
  Purchase,
  Scenario,
  Send,
  Step,
} from "../../src/kitchen/index.js";
import {
  Decimal,
  milligrams,
  plus,
  scale,
  splitByShares,
  tenThousandths,
  total,
  type Weight,
} from "../../src/quantity/index.js";
import {
  aBreakdown,
  aDecision,
  aDish,
  aLine,
  anItem,
  aPart,
  aScenario,
  aService,
  aStaple,
  aStep,
  REFUSE,
  STAFF_MEAL,
} from "./nouns.js";
import { COUNTS_NO_PEEL, COUNTS_PEEL } from "./waste-counts.js";

type Generator = fc.GeneratorValue;

/** A random scenario and a decision about it that closes, if not a wise one. */
export interface RandomPlan {
  readonly scenario: Scenario;
  readonly decision: Decision;
}

const CLASSES = ["food", "food", "food", "inedible", "never"] as const;
const COOKING_YIELDS = [null, null, "0.75", "0.3333", "1", "1.37", "2.6"];
const WATERS = ["0", "0", "0.3", "1", "2.5"];
const DESTINATIONS = [
  REFUSE,
  STAFF_MEAL,
  { ...REFUSE, name: "compost", limit: milligrams(1_000_000n) },
  { ...STAFF_MEAL, name: "dog biscuits", takes: { food: false, inedible: true, portions: false } },
];

export function randomPlan(): fc.Arbitrary<RandomPlan> {
  return fc.gen().map((g) => {
    const scenario = randomScenario(g);
    return { scenario, decision: randomDecision(scenario, g) };
  });
}

function randomScenario(g: Generator): Scenario {
  const services = ["Friday dinner", "Saturday lunch", "Sunday lunch"]
    .slice(0, int(g, 1, 3))
    .map((name, day) => aService(name, day));
  const itemNames = ["root", "bird", "leaf"].slice(0, int(g, 1, 3));
  const ownParts = itemNames.flatMap((item) =>
    ["heart", "trim", "peel", "core"].map((part) => randomPart(g, `${item} ${part}`, item)),
  );
  const blends = ["green trim", "stock", "puree", "dregs"].map((name) => randomPart(g, name, null));
  const parts = [...ownParts, ...blends];
  return aScenario({
    services,
    costing: "edible weight",
    wasteCounts: g(fc.boolean) ? COUNTS_PEEL : COUNTS_NO_PEEL,
    items: itemNames.map((name) => randomItem(g, name, int(g, 0, 3) === 0 ? "root" : name)),
    parts,
    steps: randomSteps(g, parts),
    dishes: ["bake", "soup", "salad"].slice(0, int(g, 1, 3)).map((name) => randomDish(g, name, parts)),
    destinations: DESTINATIONS,
    partsOnHand: Array.from({ length: int(g, 0, 2) }, () => ({
      part: pick(g, parts).name,
      weight: weight(g),
      value: money(g),
      useBy: null,
      lastDay: null,
    })),
  });
}

function randomPart(g: Generator, name: string, item: string | null): Part {
  const marketValue = pick(g, [null, null, null, 0n, 5_000n, 31_333n]);
  return aPart(name, pick(g, CLASSES), {
    item,
    marketValue: marketValue === null ? null : tenThousandths(marketValue),
    carry: g(fc.boolean) ? { use: "Monday soup", limit: weight(g), valuePerKilogram: money(g) } : null,
  });
}

function randomItem(g: Generator, name: string, of: string): Item {
  const own = ["heart", "trim", "peel", "core"].map((part) => `${of} ${part}`);
  return anItem({
    name,
    of,
    unitWeight: weight(g),
    onHand: Array.from({ length: int(g, 0, 2) }, () => ({
      units: new Decimal(1),
      weight: weight(g),
      value: money(g),
      lastDay: null,
    })),
    breakdowns: ["thin", "thick", "rough"].slice(0, int(g, 1, 3)).map((cut) => {
      const kinds = [...some(g, own), ...(int(g, 0, 3) === 0 ? ["green trim"] : [])];
      const [loss = new Decimal(1), ...fractions] = shares(g, kinds.length + 1);
      return aBreakdown(cut, record(kinds, fractions), loss);
    }),
  });
}

/** Steps that only lead from a part to parts later in the list, so that none runs in a circle. */
function randomSteps(g: Generator, parts: readonly Part[]): Step[] {
  return ["peel", "pick", "pot", "mash"].slice(0, int(g, 0, 4)).map((name) => {
    const last = int(g, 0, parts.length - 2);
    const from = parts.slice(0, last + 1).map((part) => part.name);
    const later = parts.slice(last + 1).map((part) => part.name);
    const made = some(g, later).slice(0, 3);
    const [loss = new Decimal(1), ...fractions] = shares(g, made.length + 1);
    const water = new Decimal(pick(g, WATERS));
    const wet = (fraction: Decimal) => fraction.times(water.plus(1));
    return aStep(name, from, record(made, fractions.map(wet)), {
      loss: wet(loss),
      water,
    });
  });
}

function randomDish(g: Generator, name: string, parts: readonly Part[]): Dish {
  const lines = Array.from({ length: int(g, 1, 3) }, () =>
    aLine("100", pick(g, parts).name, pick(g, COOKING_YIELDS)),
  );
  const staples = ["oil", "flour", "salt"]
    .slice(0, int(g, 0, 3))
    .map((staple) => aStaple(staple, new Decimal(int(g, 0, 700)).div(int(g, 1, 999))));
  return aDish(name, lines, staples);
}

function randomDecision(scenario: Scenario, g: Generator): Decision {
  const purchases: Purchase[] = [];
  const cuts: Cut[] = [];
  const binned: ItemEnd[] = [];
  const keptItems: ItemEnd[] = [];
  for (const item of scenario.items) {
    for (let count = int(g, 0, 2); count > 0; count--)
      purchases.push({
        item: item.name,
        service: service(g, scenario),
        orderUnits: 1,
        weight: weight(g),
        cost: money(g),
      });
    const bought = purchases.filter((purchase) => purchase.item === item.name);
    const stock = total([...bought, ...item.onHand].map((entry) => entry.weight));
    for (const taken of split(g, stock, int(g, 1, 5))) {
      const end = { item: item.name, service: service(g, scenario), units: null, weight: taken };
      const kind = int(g, 0, 5);
      if (kind === 0) binned.push(end);
      else if (kind === 1) keptItems.push(end);
      else {
        const { name, yields, loss } = pick(g, item.breakdowns);
        const pieces = splitByShares(taken, [loss, ...yields.map(({ fraction }) => fraction)]);
        cuts.push({
          ...end,
          breakdown: name,
          loss: pieces[0] ?? milligrams(0n),
          parts: yields.map(({ part }, index) => ({ part, weight: pieces[index + 1] ?? milligrams(0n) })),
        });
      }
    }
  }
  const flows = randomFlows(scenario, cuts, g);
  return aDecision({
    purchases,
    cuts,
    binned,
    keptItems,
    ...flows,
    cookings: randomCookings(scenario, flows.goings, g),
  });
}

/** Sends every gram of every lot somewhere, lots that steps feed after those they take from. */
function randomFlows(scenario: Scenario, cuts: readonly Cut[], g: Generator) {
  const stock = new Map<string, { lot: Lot; weight: Weight }>();
  const receive = (part: string, origin: LotOrigin, came: Weight): void => {
    const key = JSON.stringify([part, origin]);
    const before = stock.get(key)?.weight ?? milligrams(0n);
    stock.set(key, { lot: { part, origin }, weight: plus(before, came) });
  };
  for (const cut of cuts)
    for (const part of cut.parts) receive(part.part, { kind: "cut", service: cut.service }, part.weight);
  scenario.partsOnHand.forEach((held, index) => {
    receive(held.part, { kind: "onHand", index }, held.weight);
  });
  const preps: Prep[] = [];
  const goings: PartUse[] = [];
  const sends: Send[] = [];
  const kept: KeptPart[] = [];
  for (const part of scenario.parts) {
    const steps = scenario.steps.filter(({ from }) => from.includes(part.name));
    for (const { lot, weight: held } of [...stock.values()].filter((entry) => entry.lot.part === part.name)) {
      for (const taken of split(g, held, int(g, 1, 5))) {
        const kind = int(g, 0, 6);
        const step = kind < 3 && steps.length > 0 ? pick(g, steps) : null;
        if (step !== null) {
          const prep = prepOf(step, lot, taken, service(g, scenario));
          preps.push(prep);
          for (const given of prep.parts) receive(given.part, lot.origin, given.weight);
        } else if (kind < 5 && part.class === "food") {
          const dish = pick(g, scenario.dishes);
          const line = int(g, 0, dish.lines.length - 1);
          goings.push({
            lot,
            dish: dish.name,
            service: service(g, scenario),
            line,
            weight: taken,
            pieces: null,
          });
        } else if (kind === 5) kept.push({ lot, weight: taken, lastDay: null });
        else sends.push({ lot, destination: pick(g, scenario.destinations).name, weight: taken });
      }
    }
  }
  return { preps, goings, sends, kept };
}

function prepOf(step: Step, from: Lot, taken: Weight, at: number): Prep {
  const water = scale(taken, step.water);
  const pieces = splitByShares(plus(taken, water), [
    step.loss,
    ...step.yields.map(({ fraction }) => fraction),
  ]);
  return {
    step: step.name,
    from,
    service: at,
    weight: taken,
    water,
    loss: pieces[0] ?? milligrams(0n),
    parts: step.yields.map(({ part }, index) => ({ part, weight: pieces[index + 1] ?? milligrams(0n) })),
  };
}

function randomCookings(scenario: Scenario, goings: readonly PartUse[], g: Generator): Cooking[] {
  return scenario.dishes.flatMap((dish) =>
    scenario.services.flatMap((_, at): Cooking[] => {
      const filled = goings.some((going) => going.dish === dish.name && going.service === at);
      if (!filled && int(g, 0, 2) > 0) return [];
      const later = scenario.services.map((_, index) => index).slice(at);
      const served = later.map((index) => ({ service: index, portions: int(g, 0, 12) }));
      const spare = some(g, scenario.destinations).map(({ name }) => ({
        destination: name,
        portions: int(g, 0, 5),
      }));
      const portions = [...served, ...spare].reduce((sum, entry) => sum + entry.portions, 0);
      if (portions > 0) return [{ dish: dish.name, service: at, portions, served, spare }];
      return [
        { dish: dish.name, service: at, portions: 1, served: [{ service: at, portions: 1 }], spare: [] },
      ];
    }),
  );
}

function int(g: Generator, min: number, max: number): number {
  return g(fc.integer, { min, max });
}

function pick<T>(g: Generator, from: readonly [T, ...T[]] | readonly T[]): T {
  return g(fc.constantFrom<T[]>, ...from);
}

function some<T>(g: Generator, from: readonly T[]): T[] {
  return g(fc.subarray<T>, [...from]);
}

/** From a single milligram to tens of kilograms, with awkward ones between. */
function weight(g: Generator): Weight {
  return milligrams(g(fc.bigInt, { min: 1n, max: pick(g, [3n, 1_000n, 777_777n, 40_000_000n]) }));
}

function money(g: Generator) {
  return tenThousandths(g(fc.bigInt, { min: 0n, max: pick(g, [0n, 7n, 100_000n, 2_000_000n]) }));
}

function service(g: Generator, scenario: Scenario): number {
  return int(g, 0, scenario.services.length - 1);
}

/** Fractions that add up to one; some may be nothing. */
function shares(g: Generator, count: number): Decimal[] {
  const weights = Array.from({ length: count }, () => Math.max(0, int(g, -3, 20)));
  const sum = weights.reduce((acc, share) => acc + share, 0);
  return weights.map((share, index) =>
    sum === 0 ? new Decimal(index === 0 ? 1 : 0) : new Decimal(share).div(sum),
  );
}

function split(g: Generator, whole: Weight, ways: number): Weight[] {
  return splitByShares(whole, shares(g, ways)).filter((piece) => piece > 0n);
}

function record(names: readonly string[], fractions: readonly Decimal[]): Record<string, Decimal> {
  return Object.fromEntries(names.map((name, index) => [name, fractions[index] ?? new Decimal(0)]));
}
