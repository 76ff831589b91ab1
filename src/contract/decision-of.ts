import type { z } from "zod";
import type { Decision, ItemEnd, Lot, LotOrigin, Scenario } from "../kitchen/index.js";
import type { Money, Weight } from "../quantity/index.js";
import { lastDayOfLot } from "../safety/index.js";
import { decode } from "./decode.js";
import type { Typed, Written } from "./figure-types.js";
import { planSchema } from "./plan.js";

/** A plan names what its scenario does not hold: it was made of another, or of this one before it was changed. */
export class PlanMismatch extends Error {
  override readonly name = "PlanMismatch";
}

/** The fields of a plan that say what is decided. */
const decidedSchema = planSchema.pick({
  scenario: true,
  onHand: true,
  purchases: true,
  cuts: true,
  preps: true,
  goings: true,
  dishes: true,
  leftovers: true,
  storageLosses: true,
});

type DecidedJson = Written<z.infer<typeof decidedSchema>>;
type Decided = Typed<z.infer<typeof decidedSchema>>;

/**
 * The decision that a plan's JSON holds, to the milligram: what `composePlan` was given. A plan that speaks of
 * services, items, parts or dishes the scenario does not have, or of other stock on hand, is a PlanMismatch.
 */
export function decisionOf(json: DecidedJson, scenario: Scenario): Decision {
  const plan = decode(decidedSchema, json);
  mustHoldItsNames(plan, scenario);
  const serviceOf = indexIn(
    "service",
    scenario.services.map(({ name }) => name),
  );
  const originOf = ({ cutFor, stock }: LotText): LotOrigin =>
    stock === null ? { kind: "cut", service: serviceOf(cutFor ?? "") } : { kind: "onHand", index: stock };
  const parts = plan.leftovers.filter(({ kind }) => kind === "part");
  const items = plan.leftovers.filter(({ kind }) => kind === "item");
  const ended = (end: "binned" | "kept"): ItemEnd[] =>
    items
      .filter((left) => left.end === end)
      .map(({ part, service, units, weight }) => ({
        item: part,
        service: serviceOf(service ?? ""),
        units,
        weight,
      }));
  return {
    purchases: plan.purchases.map(({ item, service, units, weight, cost, delivery }) => ({
      item,
      service: serviceOf(service),
      orderUnits: units,
      weight,
      cost,
      ...(delivery === undefined ? {} : { delivery }),
    })),
    cuts: plan.cuts.map(({ item, breakdown, service, units, weight, parts: given, loss }) => ({
      item,
      breakdown,
      service: serviceOf(service),
      units,
      weight,
      parts: given.map(partWeight),
      loss,
    })),
    binned: ended("binned"),
    keptItems: ended("kept"),
    ...(plan.storageLosses === undefined
      ? {}
      : { storageLosses: plan.storageLosses.map(({ item, weight }) => ({ item, weight })) }),
    preps: plan.preps.map((prep) => ({
      step: prep.step,
      from: { part: prep.from, origin: originOf(prep) },
      service: serviceOf(prep.service),
      weight: prep.weight,
      water: prep.water,
      parts: prep.parts.map(partWeight),
      loss: prep.loss,
    })),
    goings: plan.goings.map((going) => ({
      lot: { part: going.part, origin: originOf(going) },
      dish: going.dish,
      service: serviceOf(going.service),
      line: going.lineNumber - 1,
      weight: going.weight,
      pieces: going.pieces,
    })),
    cookings: plan.dishes.map(({ dish, service, portions, served, spareTo }) => ({
      dish,
      service: serviceOf(service),
      portions,
      served: served.map((sitting) => ({ service: serviceOf(sitting.service), portions: sitting.portions })),
      spare: spareTo.map((over) => ({ destination: over.destination, portions: over.portions })),
    })),
    sends: parts
      .filter(({ end }) => end === "sent")
      .map((left) => ({
        lot: { part: left.part, origin: originOf(left) },
        destination: left.destination,
        weight: left.weight,
      })),
    kept: parts
      .filter(({ end }) => end === "kept")
      .map((left) => {
        const lot: Lot = { part: left.part, origin: originOf(left) };
        return { lot, weight: left.weight, lastDay: lastDayOfLot(lot, scenario) };
      }),
  };
}

type LotText = { readonly cutFor: string | null; readonly stock: number | null };

function partWeight({ part, weight }: { readonly part: string; readonly weight: Weight }) {
  return { part, weight };
}

function indexIn(kind: string, names: readonly string[]): (name: string) => number {
  return (name) => {
    const index = names.indexOf(name);
    if (index < 0) throw missing(kind, name);
    return index;
  };
}

function missing(kind: string, name: string): PlanMismatch {
  return new PlanMismatch(`the plan speaks of the ${kind} "${name}", which the scenario does not have`);
}

/** Every name the plan uses, and its stock on hand, as the scenario has them. */
function mustHoldItsNames(plan: Decided, scenario: Scenario): void {
  if (plan.scenario !== scenario.name)
    throw new PlanMismatch(`the plan is of "${plan.scenario}", the scenario is "${scenario.name}"`);
  const must = (
    kind: string,
    known: readonly { readonly name: string }[],
    names: readonly string[],
  ): void => {
    const held = new Set(known.map(({ name }) => name));
    const stranger = names.find((name) => !held.has(name));
    if (stranger !== undefined) throw missing(kind, stranger);
  };
  must("item", scenario.items, [
    ...[...plan.purchases, ...plan.cuts, ...(plan.storageLosses ?? [])].map(({ item }) => item),
    ...plan.leftovers.filter(({ kind }) => kind === "item").map(({ part }) => part),
  ]);
  must("part", scenario.parts, [
    ...[...plan.cuts, ...plan.preps].flatMap(({ parts }) => parts.map(({ part }) => part)),
    ...plan.preps.map(({ from }) => from),
    ...plan.goings.map(({ part }) => part),
    ...plan.leftovers.filter(({ kind }) => kind === "part").map(({ part }) => part),
  ]);
  must(
    "step",
    scenario.steps,
    plan.preps.map(({ step }) => step),
  );
  must(
    "dish",
    scenario.dishes,
    [...plan.dishes, ...plan.goings].map(({ dish }) => dish),
  );
  must("destination", scenario.destinations, [
    ...plan.leftovers.filter(({ end }) => end === "sent").map(({ destination }) => destination),
    ...plan.dishes.flatMap(({ spareTo }) => spareTo.map(({ destination }) => destination)),
  ]);
  for (const { item, breakdown } of plan.cuts)
    must(`breakdown of ${item}`, scenario.items.find(({ name }) => name === item)?.breakdowns ?? [], [
      breakdown,
    ]);
  for (const { dish, line, lineNumber } of plan.goings)
    if (scenario.dishes.find(({ name }) => name === dish)?.lines[lineNumber - 1]?.name !== line)
      throw missing(`line of ${dish}`, line);
  const inHouse = namesOnHand(scenario);
  const isSame = plan.onHand.every(
    ({ kind, name }, index) => inHouse[index]?.kind === kind && inHouse[index]?.name === name,
  );
  if (!isSame || plan.onHand.length !== inHouse.length)
    throw new PlanMismatch("what is in the house (`on_hand`) is not what the plan was made with");
}

function namesOnHand({ items, partsOnHand }: Scenario): { kind: string; name: string }[] {
  return [
    ...items.flatMap(({ name, onHand }) => onHand.map(() => ({ kind: "item", name }))),
    ...partsOnHand.map(({ part }) => ({ kind: "part", name: part })),
  ];
}

/**
 * The scenario with the weights and values on hand that the plan was made with: a head may be reckoned at another
 * weight since. A plan of other stock is a PlanMismatch.
 */
export function withStockOf(json: DecidedJson, scenario: Scenario): Scenario {
  const plan = decode(decidedSchema, json);
  mustHoldItsNames(plan, scenario);
  const stock = plan.onHand.values();
  const next = <T extends { readonly weight: Weight; readonly value: Money }>(held: T): T => {
    const { value: then } = stock.next();
    return then === undefined ? held : { ...held, weight: then.weight, value: then.value };
  };
  return {
    ...scenario,
    items: scenario.items.map((item) => ({ ...item, onHand: item.onHand.map(next) })),
    partsOnHand: scenario.partsOnHand.map(next),
  };
}
