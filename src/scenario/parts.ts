import type { Part, PartClass, PartOnHand, ScenarioFile, Service, Step } from "../kitchen/index.js";
import { money, NO_MONEY, type Weight } from "../quantity/index.js";
import type { PartFact } from "./breakdowns.js";
import { type Resolving, unknownPart } from "./context.js";
import { carryOf, type ItemDraft } from "./items.js";
import type { StepDraft } from "./steps.js";
import { lastDayOf, leftTo } from "./units.js";
import { words } from "./wording/index.js";

/** Days that a part keeps where neither the scenario nor the tables say: the day it is cut, and no longer. */
const UNSTATED_KEEPS = 1;

type PartEntry = NonNullable<ScenarioFile["parts"]>[string];

/** The part names that are declared, and those of the parts that can be had. */
export interface PartsInReach {
  readonly known: ReadonlySet<string>;
  readonly parts: Parts;
}

/** Parts by full name. */
export type Parts = ReadonlyMap<string, Part>;

/** Every part that a breakdown or step in use gives, or that is on hand. */
export function resolveParts(
  context: Resolving,
  items: readonly ItemDraft[],
  steps: readonly StepDraft[],
): Parts {
  const facts = byPart(items.flatMap((draft) => draft.facts));
  const parts = new Map<string, Part>();
  const held = new Set(Object.keys(context.file.parts ?? {}).filter((name) => isHeld(context, name)));
  for (const [name, said] of facts) {
    if (!held.has(name) && !said.some(({ inUse }) => inUse)) continue;
    const sources = items.flatMap(({ item }) => (said.some((fact) => fact.item === item.name) ? [item] : []));
    parts.set(name, {
      ...describedBy(context, name, cutClass(context, name, said), cutKeeps(context, name, said)),
      inTables: said.some(({ place, class: stated }) => place === null && stated === "food"),
      item: sources[0]?.of ?? null,
      allergens: [
        ...new Set([...sources.flatMap(({ allergens }) => allergens), ...statedAllergens(context, name)]),
      ],
      pieceWeight: pieceWeightOf(context, name, said),
    });
  }
  for (const draft of inMakingOrder(steps)) addMade(context, draft, parts);
  const made = steps.map(({ step }) => step);
  spreadAllergens(made, parts);
  spreadCooked(context, made, parts);
  return parts;
}

/** Stock of parts, as the scenario states it. */
export function resolvePartsOnHand(
  context: Resolving,
  { known, parts }: PartsInReach,
  services: readonly Service[],
): PartOnHand[] {
  return Object.entries(context.file.parts ?? {}).flatMap(([name, entry]) => {
    const part = parts.get(name);
    if (part === undefined) {
      if (isHeld(context, name) && known.has(name) && !context.isUnsettled(name)) {
        context.atKey(["parts", name], words.partNotMade(name));
      }
      return [];
    }
    return (entry.on_hand ?? []).map((stock, index) => {
      const place = context.elementOf(["parts", name, "on_hand"], index);
      return {
        part: name,
        weight: stock.weight,
        value: stock.value === undefined ? NO_MONEY : money(stock.value),
        useBy: stock.use_by ?? null,
        lastDay: lastDayOf(context, services, stock.use_by, part.keepsDays, place),
        ...leftTo(context, stock.destination, place),
      };
    });
  });
}

/** Reports facts about parts that nothing declares. */
export function checkPartNames(
  context: Resolving,
  known: ReadonlySet<string>,
  had: ReadonlySet<string>,
): void {
  for (const name of Object.keys(context.file.parts ?? {})) {
    if (!known.has(name) && !context.isUnsettled(name)) {
      const others = [...had].filter((part) => part !== name);
      context.atKey(["parts", name], unknownPart(context, name, known, others));
    }
  }
}

function statedAllergens(context: Resolving, name: string): readonly string[] {
  return context.file.parts?.[name]?.allergens ?? [];
}

function byPart(facts: readonly PartFact[]): Map<string, PartFact[]> {
  const grouped = new Map<string, PartFact[]>();
  for (const fact of facts) grouped.set(fact.part, [...(grouped.get(fact.part) ?? []), fact]);
  return grouped;
}

function isHeld(context: Resolving, name: string): boolean {
  return (context.file.parts?.[name]?.on_hand ?? []).length > 0;
}

/** What the scenario's own entry for a part says, over what its source gives it. */
function describedBy(
  context: Resolving,
  name: string,
  partClass: PartClass,
  keepsDays: number | null,
): Omit<Part, "item" | "inTables" | "allergens" | "pieceWeight"> {
  const entry: PartEntry = context.file.parts?.[name] ?? {};
  return {
    name,
    class: partClass,
    isPeel: partClass !== "food" && (entry.peel ?? isNamedPeel(name)),
    keepsDays: entry.keeps ?? keepsDays,
    state: entry.state ?? "raw",
    marketValue: entry.credit === undefined ? null : money(entry.credit),
    carry: carryOf(entry.keep),
    container: entry.container ?? null,
    foodBy: entry.food_by ?? null,
  };
}

const STRICTEST_FIRST: readonly PartClass[] = ["never", "inedible", "food"];

/** The class a part has in every breakdown of every form; a part never to be eaten stays so whatever the scenario says. */
function cutClass(context: Resolving, name: string, said: readonly PartFact[]): PartClass {
  const ofTables = said.flatMap((fact) => (fact.place === null && fact.class !== null ? [fact.class] : []));
  const ofTable = STRICTEST_FIRST.find((each) => ofTables.includes(each)) ?? null;
  const own = said.filter(({ place, class: stated }) => place !== null && stated !== null);
  const override = context.file.parts?.[name]?.class;
  const [first, ...others] = own;
  for (const other of others) {
    if (other.class !== first?.class && other.place !== null) {
      context.at(other.place, words.classesDiffer(name, first?.class ?? "food", other.class ?? "food"));
    }
  }
  const stated = override ?? first?.class ?? null;
  if (ofTable === "never" && stated !== null && stated !== "never") {
    const place = override === undefined ? first?.place : ["parts", name, "class"];
    context.at(place ?? ["parts", name], words.neverStays(name));
    return "never";
  }
  return stated ?? ofTable ?? "food";
}

/** The fewest days that any form's tables give a part, so that a lot of several forms has one date. */
function cutKeeps(context: Resolving, name: string, said: readonly PartFact[]): number {
  const ofTables = said.flatMap(({ keepsDays }) => keepsDays ?? []);
  const shortest = ofTables.length === 0 ? UNSTATED_KEEPS : Math.min(...ofTables);
  return context.file.parts?.[name]?.keeps ?? shortest;
}

/** One weight a piece, the same from every breakdown in use of every form. */
function pieceWeightOf(context: Resolving, name: string, said: readonly PartFact[]): Weight | null {
  const counted = said.filter(({ inUse, pieceWeight }) => inUse && pieceWeight !== null);
  const [first] = counted;
  const other = counted.find(({ pieceWeight }) => pieceWeight !== first?.pieceWeight);
  const place = [other, first].find((fact) => fact !== undefined && fact.place !== null)?.place;
  if (first?.pieceWeight && other?.pieceWeight && place) {
    context.at(place, words.piecesDiffer(name, first.pieceWeight, other.pieceWeight));
  } else if (first?.pieceWeight && other?.pieceWeight && first.item !== other.item) {
    const later = context.formOf(other.item) === other.item ? first : other;
    context.at(
      ["items", later.item, "of"],
      words.piecesOfFormsDiffer(name, [first.item, first.pieceWeight], [other.item, other.pieceWeight]),
    );
  }
  return first?.pieceWeight ?? null;
}

function addMade(context: Resolving, { step, gives }: StepDraft, parts: Map<string, Part>): void {
  const sources = step.from.flatMap((name) => parts.get(name) ?? []);
  const shortest = sources.reduce<number | null>(
    (least, { keepsDays }) => (keepsDays === null ? least : Math.min(least ?? keepsDays, keepsDays)),
    null,
  );
  const items = new Set(sources.map(({ item }) => item));
  const [item = null] = items;
  for (const { part: name, class: partClass, state, keepsDays, place } of gives) {
    const inTables = place === null && partClass === "food";
    const earlier = parts.get(name);
    const override = context.file.parts?.[name]?.class;
    if (earlier !== undefined) {
      if (partClass !== null && override === undefined && partClass !== earlier.class && place !== null) {
        context.at(place, words.classesDiffer(name, earlier.class, partClass));
      }
      continue;
    }
    const never = partClass === "never" && place === null;
    if (never && override !== undefined && override !== "never") {
      context.at(["parts", name, "class"], words.neverStays(name));
    }
    const blend = !step.water.isZero();
    const described = describedBy(
      context,
      name,
      never ? "never" : (override ?? partClass ?? "food"),
      keepsDays ?? shortest,
    );
    parts.set(name, {
      ...described,
      state: context.file.parts?.[name]?.state ?? state ?? (blend ? "cooked" : "raw"),
      item: blend || items.size !== 1 ? null : item,
      inTables,
      allergens: statedAllergens(context, name),
      pieceWeight: null,
    });
  }
}

/** Steps so that each comes after those that make what it takes; steps in a circle come last, as written. */
function inMakingOrder(steps: readonly StepDraft[]): StepDraft[] {
  const ordered: StepDraft[] = [];
  let waiting = [...steps];
  while (waiting.length > 0) {
    const made = new Set(waiting.flatMap(({ gives }) => gives.map(({ part }) => part)));
    const ready = waiting.filter(({ step }) => !step.from.some((part) => made.has(part)));
    if (ready.length === 0) return [...ordered, ...waiting];
    ordered.push(...ready);
    waiting = waiting.filter((draft) => !ready.includes(draft));
  }
  return ordered;
}

/** A part made by a step carries the allergens of everything that may go into it. */
function spreadAllergens(steps: readonly Step[], parts: Map<string, Part>): void {
  for (let changed = true; changed; ) {
    changed = false;
    for (const { from, yields } of steps) {
      const carried = from.flatMap((name) => parts.get(name)?.allergens ?? []);
      for (const { part: name } of yields) {
        const part = parts.get(name);
        if (part === undefined) continue;
        const allergens = [...new Set([...part.allergens, ...carried])];
        if (allergens.length > part.allergens.length) {
          parts.set(name, { ...part, allergens });
          changed = true;
        }
      }
    }
  }
}

/** What is made of something cooked is cooked food still, through freezing and thawing, whatever else goes into it. */
function spreadCooked(context: Resolving, steps: readonly Step[], parts: Map<string, Part>): void {
  const cooked = new Set(
    [...parts.values()].flatMap(({ name, state }) => (state === "cooked" ? [name] : [])),
  );
  for (const source of cooked) {
    for (const { yields } of steps.filter(({ from }) => from.includes(source))) {
      for (const { part: name } of yields) {
        const part = parts.get(name);
        if (part === undefined || cooked.has(name)) continue;
        cooked.add(name);
        if (part.state !== "raw") continue;
        parts.set(name, { ...part, state: "cooked" });
        if (context.file.parts?.[name]?.state === "raw")
          context.at(["parts", name, "state"], words.cookedStays(name, source));
      }
    }
  }
}

/** Words of parts whose weight nature sets and not the knife (common practice, no source). */
const SET_BY_NATURE = new Set(
  (
    "back backbone bone bones carcass cob cobs feet frame frames gill gills gut guts head heads husk husks liver " +
    "neck pod pods scales seed seeds shell shells spent stomach stone stones"
  ).split(" "),
);

/** Whether an inedible part is peel by its name: of thick peeling there is more, of filleting a fish no less bone. */
export function isNamedPeel(part: string): boolean {
  return !part
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .some((word) => SET_BY_NATURE.has(word));
}
