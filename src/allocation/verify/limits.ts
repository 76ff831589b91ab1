import type { Decision, Scenario } from "../../kitchen/index.js";
import {
  larger,
  minus,
  NO_WEIGHT,
  plus,
  times,
  toGrams,
  toKilograms,
  total,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import { portionWeights, totalWeight } from "../decision-weights.js";
import { lotBooks } from "./flows.js";

const SLACK_MINUTES = 1;

/** Pots are over by no more than a step of the scale for each thing put in. */
export function potFaults(decision: Decision, scenario: Scenario): string[] {
  return scenario.steps.flatMap(({ name, capacity }) => {
    if (capacity === null) return [];
    return scenario.services.flatMap((service, index) => {
      const drawn = decision.preps.filter((prep) => prep.step === name && prep.service === index);
      const slack = plus(capacity, total(drawn.map(() => scenario.scaleStep)));
      const over = minus(totalWeight(drawn), slack);
      return over > NO_WEIGHT ? [`${name} for ${service.name}: ${toGrams(over)} g over its limit`] : [];
    });
  });
}

/** Hands-on minutes before each service; a step of the scale for each further step, and a minute, are for rounding. */
export function handsFaults(decision: Decision, scenario: Scenario): string[] {
  return scenario.services.flatMap((service, index) => {
    const limit = service.handsMinutes ?? scenario.limits.handsMinutes;
    if (limit === null) return [];
    const cuts = decision.cuts.map(({ item: name, breakdown, service: at, weight }) => {
      const item = scenario.items.find((entry) => entry.name === name);
      const minutes = item?.breakdowns.find((entry) => entry.name === breakdown)?.minutes ?? ZERO;
      return at === index && item !== undefined
        ? minutes.times(toGrams(weight)).div(toGrams(item.unitWeight))
        : ZERO;
    });
    const preps = decision.preps.map(({ step: name, service: at, weight }) => {
      const step = scenario.steps.find((entry) => entry.name === name);
      const surely = larger(NO_WEIGHT, minus(weight, scenario.scaleStep));
      return at === index ? (step?.minutesPerKilogram ?? ZERO).times(toKilograms(surely)) : ZERO;
    });
    const cookings = decision.cookings.map(({ dish: name, service: at, portions }) => {
      const dish = scenario.dishes.find((entry) => entry.name === name);
      const each = dish?.minutesPerBatch ?? ZERO;
      return at === index ? each.times(portions).div(dish?.batch?.portions ?? 1) : ZERO;
    });
    const over = [...cuts, ...preps, ...cookings]
      .reduce((sum, minutes) => sum.plus(minutes), ZERO)
      .minus(limit);
    return over.gt(SLACK_MINUTES)
      ? [`hands before ${service.name}: ${over.toFixed(1)} minutes too much`]
      : [];
  });
}

/** No more batches are cooked for a service than there are vessels for. */
export function vesselFaults(decision: Decision, scenario: Scenario): string[] {
  return scenario.limits.vessels.flatMap(({ vessel, most }) =>
    scenario.services.flatMap(({ name }, index) => {
      const taken = decision.cookings.reduce((sum, { dish, service, portions }) => {
        const batch = scenario.dishes.find((entry) => entry.name === dish)?.batch;
        return service === index && batch?.vessel === vessel
          ? sum + Math.ceil(portions / batch.portions)
          : sum;
      }, 0);
      return taken > most ? [`${vessel} for ${name}: ${taken} taken of ${most}`] : [];
    }),
  );
}

type Store = "chilled" | "frozen";

interface Held {
  readonly weight: Weight;
  /** Movements that rounding to the scale may have raised by a step. */
  readonly rounded: number;
}

/** After each service, the last one too, no more is in the cold room than it holds, but for a step of the scale each. */
export function coldRoomFaults(decision: Decision, scenario: Scenario): string[] {
  const { chilled } = scenario.limits;
  if (chilled === null) return [];
  return scenario.services.flatMap(({ name }, after) => {
    const parts = partsHeld("chilled", after, decision, scenario);
    const items = itemsHeld(after, decision, scenario);
    const waiting = portionsWaiting(after, decision, scenario);
    const weight = total([parts, items, waiting].map((held) => held.weight));
    return over(
      `cold room after ${name}`,
      { weight, rounded: parts.rounded + waiting.rounded },
      chilled,
      scenario,
    );
  });
}

/** The same of the freezer, which holds frozen parts. */
export function freezerFaults(decision: Decision, scenario: Scenario): string[] {
  const { frozen } = scenario.limits;
  if (frozen === undefined) return [];
  return scenario.services.flatMap(({ name }, after) =>
    over(`freezer after ${name}`, partsHeld("frozen", after, decision, scenario), frozen, scenario),
  );
}

function over(where: string, { weight, rounded }: Held, limit: Weight, { scaleStep }: Scenario): string[] {
  return weight > plus(limit, times(scaleStep, rounded))
    ? [`${where}: ${toGrams(minus(weight, limit))} g too much`]
    : [];
}

/** Of each lot, what is used, worked or kept later than a service, less what comes into it later. */
function partsHeld(store: Store, after: number, decision: Decision, scenario: Scenario): Held {
  const later = <T extends { service: number }>(list: readonly T[]): T[] =>
    list.filter(({ service }) => service > after);
  const weights: Weight[] = [];
  let rounded = 0;
  for (const { lot, made, goings, drawn, kept } of lotBooks(decision, scenario).values()) {
    const isFrozen = scenario.parts.some(({ name, state }) => name === lot.part && state === "frozen");
    const isThere = lot.origin.kind === "onHand" || lot.origin.service <= after;
    if (!isThere || isFrozen !== (store === "frozen")) continue;
    const out = [...later(goings), ...later(drawn)];
    const wanted = plus(totalWeight(out), kept);
    const held = minus(wanted, totalWeight(later(made)));
    if (held <= NO_WEIGHT) continue;
    weights.push(held);
    rounded += out.length + (kept > NO_WEIGHT ? 1 : 0);
  }
  return { weight: total(weights), rounded };
}

/** Whole items neither cut nor binned by then; after the last service, those that are kept. */
function itemsHeld(after: number, decision: Decision, { items }: Scenario): Held {
  const by = (list: readonly { service: number; weight: Weight }[]): Weight =>
    totalWeight(list.filter(({ service }) => service <= after));
  const held = total(items.flatMap(({ onHand }) => onHand.map(({ weight }) => weight)));
  const gone = plus(by(decision.cuts), by(decision.binned));
  return { weight: minus(plus(held, by(decision.purchases)), gone), rounded: 0 };
}

function portionsWaiting(after: number, decision: Decision, scenario: Scenario): Held {
  const weights: Weight[] = [];
  let rounded = 0;
  for (const cooking of decision.cookings) {
    if (cooking.service > after) continue;
    const { served } = portionWeights(cooking, decision.goings, scenario);
    const waiting = served.filter((_, index) => (cooking.served[index]?.service ?? 0) > after);
    if (waiting.length === 0) continue;
    weights.push(...waiting);
    rounded += decision.goings.filter(
      ({ dish, service }) => dish === cooking.dish && service === cooking.service,
    ).length;
  }
  return { weight: total(weights), rounded };
}
