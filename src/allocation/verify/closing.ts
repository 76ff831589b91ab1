import { type Decision, type Item, type Lot, lotKey, type Scenario } from "../../kitchen/index.js";
import {
  minus,
  NO_WEIGHT,
  plus,
  scale,
  smaller,
  times,
  toGrams,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import { lastDayOfLot } from "../../safety/index.js";
import { totalWeight } from "../decision-weights.js";

/** Every item, cut, step and lot gives out exactly what it takes in, and nothing before it is there. */
export function closingFaults(decision: Decision, scenario: Scenario): string[] {
  return [
    ...scenario.items.flatMap((item) => itemFaults(item, decision, scenario)),
    ...decision.cuts.flatMap((cut) =>
      differs(`cut of ${cut.item}`, cut.weight, plus(totalWeight(cut.parts), cut.loss)),
    ),
    ...decision.preps.flatMap((prep) =>
      differs(prep.step, plus(prep.weight, prep.water), plus(totalWeight(prep.parts), prep.loss)),
    ),
    ...lotFaults(decision, scenario),
  ];
}

/**
 * Cuts and steps give each part by its yield, to the milligram that splitting without loss allows, and take up their
 * water. Those for services before `from` are done: they gave what they gave.
 */
export function yieldFaults({ cuts, preps }: Decision, scenario: Scenario, from: number): string[] {
  const isToCome = ({ service }: { service: number }): boolean => service >= from;
  const made = [
    ...cuts.filter(isToCome).map(({ item, breakdown, weight, parts }) => ({
      what: `cut of ${item}`,
      weight,
      parts,
      yields:
        scenario.items.find(({ name }) => name === item)?.breakdowns.find(({ name }) => name === breakdown)
          ?.yields ?? [],
    })),
    ...preps.filter(isToCome).map(({ step, weight, parts }) => ({
      what: step,
      weight,
      parts,
      yields: scenario.steps.find(({ name }) => name === step)?.yields ?? [],
    })),
  ];
  const wet = preps.filter(isToCome).flatMap(({ step, weight, water }) => {
    const stated = scenario.steps.find(({ name }) => name === step)?.water ?? ZERO;
    return water === scale(weight, stated)
      ? []
      : [`${step}: ${toGrams(water)} g of water is not what it takes up`];
  });
  const given = made.flatMap(({ what, weight, parts, yields }) =>
    yields.length === 0
      ? []
      : Array.from({ length: Math.max(yields.length, parts.length) }, (_, index) => {
          const stated = yields[index];
          const found = parts[index];
          if (stated === undefined || stated.part !== found?.part)
            return `${what}: gives ${found?.part ?? "nothing"} for ${stated?.part ?? "nothing"}`;
          const off = minus(found.weight, scale(weight, stated.fraction));
          return off < -1n || off > 1n ? `${what}: ${toGrams(off)} g of ${found.part} beside its yield` : "";
        }).filter((fault) => fault !== ""),
  );
  return [...given, ...wet];
}

function differs(what: string, expected: Weight, found: Weight): string[] {
  if (expected === found) return [];
  return [`${what}: ${toGrams(minus(expected, found))} g unaccounted for`];
}

function itemFaults(item: Item, decision: Decision, scenario: Scenario): string[] {
  const faults: string[] = [];
  let stock = totalWeight(item.onHand);
  const weightAt = (
    list: readonly { item: string; service: number; weight: Weight }[],
    service: number,
  ): Weight => totalWeight(list.filter((entry) => entry.item === item.name && entry.service === service));
  for (let service = 0; service < scenario.services.length; service++) {
    stock = plus(stock, weightAt(decision.purchases, service));
    for (const list of [decision.cuts, decision.binned, decision.keptItems])
      stock = minus(stock, weightAt(list, service));
    if (stock < NO_WEIGHT)
      faults.push(`${item.name}: ${toGrams(stock)} g in stock after service ${service + 1}`);
  }
  if (stock !== NO_WEIGHT) faults.push(`${item.name}: ${toGrams(stock)} g left over and not accounted for`);
  return faults;
}

/** Whole items are cut, binned and kept by the unit, each at its weight; loose ones by weight alone. */
export function unitFaults({ cuts, binned, keptItems }: Decision, { items }: Scenario): string[] {
  return [...cuts, ...binned, ...keptItems].flatMap(({ item: name, units, weight }) => {
    const item = items.find((entry) => entry.name === name);
    if (item === undefined) return [];
    const isRight =
      item.measure === "loose"
        ? units === null
        : units !== null && Number.isInteger(units) && times(item.unitWeight, units) === weight;
    return isRight ? [] : [`${name}: units and weight differ`];
  });
}

function lotFaults(decision: Decision, scenario: Scenario): string[] {
  const balance = new Map<string, Weight>();
  const add = (lot: Lot, weight: Weight): void => {
    balance.set(lotKey(lot), plus(balance.get(lotKey(lot)) ?? NO_WEIGHT, weight));
  };
  const take = (lot: Lot, weight: Weight): void => add(lot, minus(NO_WEIGHT, weight));
  scenario.partsOnHand.forEach(({ part, weight }, index) => {
    add({ part, origin: { kind: "onHand", index } }, weight);
  });
  for (const { service, parts } of decision.cuts) {
    for (const { part, weight } of parts) add({ part, origin: { kind: "cut", service } }, weight);
  }
  for (const { from, weight, parts } of decision.preps) {
    take(from, weight);
    for (const made of parts) add({ part: made.part, origin: from.origin }, made.weight);
  }
  for (const { lot, weight } of [...decision.goings, ...decision.sends, ...decision.kept]) take(lot, weight);
  return [...balance].flatMap(([lot, weight]) => differs(lot, weight, NO_WEIGHT));
}

/** Nothing goes into a dish or a step before it is cut or after its last day. */
export function dateFaults(decision: Decision, scenario: Scenario): string[] {
  const dayOf = (service: number): number => scenario.services[service]?.day ?? 0;
  const faults: string[] = decision.preps.flatMap(({ from, step, service }) => {
    const lastDay = lastDayOfLot(from, scenario);
    const early = from.origin.kind === "cut" && from.origin.service > service;
    const late = lastDay !== null && dayOf(service) > lastDay;
    return [
      ...(early ? [`${from.part} is worked by ${step} before it is cut`] : []),
      ...(late ? [`${from.part} is worked by ${step} ${dayOf(service) - lastDay} days after its last`] : []),
    ];
  });
  for (const { lot, dish, service } of decision.goings) {
    const { origin } = lot;
    const lastDay = lastDayOfLot(lot, scenario);
    if (origin.kind === "cut" && origin.service > service)
      faults.push(`${lot.part} goes into ${dish} before it is cut`);
    if (lastDay !== null && dayOf(service) > lastDay) {
      faults.push(`${lot.part} goes into ${dish} ${dayOf(service) - lastDay} days after its last`);
    }
  }
  return faults;
}

/** What must never be eaten goes into no dish. */
export function neverFaults({ goings }: Decision, { parts }: Scenario): string[] {
  return goings.flatMap(({ lot, dish }) =>
    parts.some(({ name, class: kind }) => name === lot.part && kind === "never")
      ? [`${lot.part} must never go into ${dish}`]
      : [],
  );
}

/** No item is cut or kept after its last day. */
export function lifeFaults(decision: Decision, scenario: Scenario): string[] {
  return scenario.items.flatMap((item) => itemLifeFaults(item, decision, scenario));
}

/**
 * What is cut or binned is taken from what goes off first, which leaves as much as can be for later: then nothing is
 * left of what came in when its last day is over.
 */
function itemLifeFaults(item: Item, decision: Decision, scenario: Scenario): string[] {
  const dayOf = (service: number): number => scenario.services[service]?.day ?? 0;
  const lots = [
    ...item.onHand.map(({ weight, lastDay }) => ({ weight, from: 0, lastDay })),
    ...decision.purchases
      .filter((purchase) => purchase.item === item.name)
      .map(({ weight, service }) => ({
        weight,
        from: service,
        lastDay: item.keepsDays === null ? null : dayOf(service) + item.keepsDays - 1,
      })),
  ].flatMap(({ lastDay, ...lot }) => (lastDay === null ? [] : [{ ...lot, lastDay, left: lot.weight }]));
  lots.sort((a, b) => a.lastDay - b.lastDay);
  const ends = [...decision.cuts, ...decision.binned]
    .filter((entry) => entry.item === item.name)
    .sort((a, b) => a.service - b.service);
  let gone = 0;
  for (const { service, weight } of ends) {
    const day = dayOf(service);
    while ((lots[gone]?.lastDay ?? day) < day || lots[gone]?.left === NO_WEIGHT) gone++;
    let rest = weight;
    for (let at = gone; at < lots.length && rest > NO_WEIGHT; at++) {
      const lot = lots[at];
      if (lot === undefined || lot.from > service) continue;
      const taken = smaller(lot.left, rest);
      lot.left = minus(lot.left, taken);
      rest = minus(rest, taken);
    }
  }
  const lastDay = dayOf(scenario.services.length - 1);
  return lots
    .filter((lot) => lot.lastDay <= lastDay && lot.left > NO_WEIGHT)
    .map((lot) => `${item.name}: ${toGrams(lot.left)} g kept past day ${lot.lastDay + 1}`);
}
