import type { Decision, Scenario } from "../../kitchen/index.js";
import { minus, NO_WEIGHT, plus, times, toGrams, total, type Weight } from "../../quantity/index.js";
import { portionWeights } from "../cooked-weights.js";
import { lotBooks } from "./flows.js";
import type { Fault } from "./index.js";

type Store = "chilled" | "frozen";

interface Held {
  readonly weight: Weight;
  /** Movements that rounding to the scale may have raised by a step. */
  readonly rounded: number;
}

/** After each service, the last one too, no more is in the cold room than it holds, but for a step of the scale each. */
export function coldRoomFaults(decision: Decision, scenario: Scenario): Fault[] {
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
export function freezerFaults(decision: Decision, scenario: Scenario): Fault[] {
  const { frozen } = scenario.limits;
  if (frozen === undefined) return [];
  return scenario.services.flatMap(({ name }, after) =>
    over(`freezer after ${name}`, partsHeld("frozen", after, decision, scenario), frozen, scenario),
  );
}

function over(where: string, { weight, rounded }: Held, limit: Weight, { scaleStep }: Scenario): Fault[] {
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
    const wanted = plus(total(out.map(({ weight }) => weight)), kept);
    const held = minus(wanted, total(later(made).map(({ weight }) => weight)));
    if (held <= NO_WEIGHT) continue;
    weights.push(held);
    rounded += out.length + (kept > NO_WEIGHT ? 1 : 0);
  }
  return { weight: total(weights), rounded };
}

/** Whole items neither cut nor binned by then; after the last service, those that are kept. */
function itemsHeld(after: number, decision: Decision, { items }: Scenario): Held {
  const by = (list: readonly { service: number; weight: Weight }[]): Weight =>
    total(list.filter(({ service }) => service <= after).map(({ weight }) => weight));
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
