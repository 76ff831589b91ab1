import {
  type Decision,
  type Destination,
  type Item,
  isBinFor,
  type Lot,
  type PartClass,
  type Scenario,
  stockAsFound,
} from "../../kitchen/index.js";
import { Decimal, minus, NO_WEIGHT, plus, toGrams, total, type Weight, ZERO } from "../../quantity/index.js";
import { lastDayOfLot } from "../../safety/index.js";
import { isInto, takenBy, totalWeight } from "../decision-weights.js";

/** Destinations take what they are for: food, inedible parts or portions; people no inedible part, animals no poison. */
export function takenFaults({ sends, cookings }: Decision, scenario: Scenario): string[] {
  const named = (name: string): Destination | undefined =>
    scenario.destinations.find((destination) => destination.name === name);
  return [
    ...sends.flatMap(({ lot, destination: name }) => {
      const kind = scenario.parts.find((part) => part.name === lot.part)?.class;
      const destination = named(name);
      if (kind === undefined || destination === undefined) return [];
      const stated = stockAsFound(lot, scenario)?.destination ?? name;
      if (destination.end === "given away" && stated !== name)
        return [`${lot.part} is stated to go to ${stated}`];
      return mayTake(destination, kind) ? [] : [`${name} does not take ${lot.part}`];
    }),
    ...cookings.flatMap(({ dish, spare }) =>
      spare.flatMap(({ destination: name }) =>
        named(name)?.takes.portions === false ? [`${name} does not take portions of ${dish}`] : [],
      ),
    ),
  ];
}

function mayTake(destination: Destination, kind: PartClass): boolean {
  if (destination.end === "given away") return kind === "food" && destination.takes.food;
  return isBinFor(kind, destination);
}

/** Portions are wasted only out of whole batches: a single one would not be cooked to be thrown away. */
export function wastedPortionFaults({ cookings }: Decision, scenario: Scenario): string[] {
  const isWaste = (name: string): boolean =>
    scenario.destinations.some((destination) => destination.name === name && destination.end === "waste");
  return cookings.flatMap(({ dish: name, spare }) => {
    const dish = scenario.dishes.find((entry) => entry.name === name);
    const wasted = spare.some(({ destination, portions }) => portions > 0 && isWaste(destination));
    return wasted && dish?.batch === null ? [`${name}: portions are cooked to be wasted`] : [];
  });
}

/** Destinations take no more than their limit, but for half a step of the scale for each going into spare portions. */
export function destinationFaults(decision: Decision, scenario: Scenario): string[] {
  const halfStep = new Decimal(scenario.scaleStep.toString()).div(2);
  return scenario.destinations.flatMap((destination) => {
    const { name, limit } = destination;
    if (limit === null) return [];
    const spared = decision.cookings.filter(({ spare }) => spare.some((to) => to.destination === name));
    const slack = spared
      .map((cooking) => decision.goings.filter((going) => isInto(going, cooking)).length)
      .reduce((sum, goings) => sum.plus(halfStep.times(goings)), ZERO);
    const over = takenBy(destination, decision, scenario).minus(limit.toString());
    return over.gt(slack) ? [`${name}: ${over.div(1000)} g over its limit`] : [];
  });
}

/** What is kept past the plan may be, is still good then, and stays within its limit. */
export function keptFaults(decision: Decision, scenario: Scenario): string[] {
  const last = scenario.services.length - 1;
  const lastPlanDay = scenario.services[last]?.day ?? 0;
  const keptOf = (list: readonly { name: string; weight: Weight }[], name: string): Weight =>
    totalWeight(list.filter((entry) => entry.name === name));
  const items = decision.keptItems.map(({ item, weight }) => ({ name: item, weight }));
  const parts = decision.kept
    .filter(({ lot }) => !mayStay(lot, scenario))
    .map(({ lot, weight }) => ({ name: lot.part, weight }));
  return [
    ...decision.keptItems.flatMap(({ item, service }) =>
      service === last ? [] : [`${item}: kept before the plan is over`],
    ),
    ...scenario.items.flatMap((item) =>
      overKept(item.name, keptOf(items, item.name), mostKept(item, decision)),
    ),
    ...scenario.parts.flatMap(({ name, carry }) =>
      overKept(name, keptOf(parts, name), carry?.limit ?? NO_WEIGHT),
    ),
    ...decision.kept.flatMap(({ lot, lastDay }) => {
      const good = lastDayOfLot(lot, scenario);
      return [
        ...(good !== null && good <= lastPlanDay ? [`${lot.part}: kept past its last day`] : []),
        ...(good !== lastDay ? [`${lot.part}: kept under another last day than its own`] : []),
      ];
    }),
  ];
}

/** Stock on hand that is left as it was found needs no permission, unless it is stated where it goes. */
function mayStay(lot: Lot, scenario: Scenario): boolean {
  const stock = stockAsFound(lot, scenario);
  return stock !== undefined && stock.destination === undefined;
}

/** What of an item may be left whole: all that came in, but for what is stated to go elsewhere. */
function mostKept({ name, onHand }: Item, { purchases }: Decision): Weight {
  const weight = (list: readonly { readonly weight: Weight }[]): Weight =>
    total(list.map((each) => each.weight));
  const held = weight(onHand.filter(({ destination }) => destination === undefined));
  return plus(held, weight(purchases.filter(({ item }) => item === name)));
}

function overKept(name: string, found: Weight, most: Weight): string[] {
  if (most === NO_WEIGHT && found > NO_WEIGHT) return [`${name}: kept where nothing may be`];
  return found > most ? [`${name} kept: ${toGrams(minus(found, most))} g over its limit`] : [];
}
