import {
  type Buying,
  type Carry,
  daysBetween,
  type Handling,
  type Item,
  type Service,
  type Supplier,
} from "../kitchen/index.js";
import { money, NO_MONEY } from "../quantity/index.js";
import { didYouMean, type Path } from "../reading/index.js";
import { type TableItem, unitSpreadOf } from "../yields/index.js";
import { breakdownsOf, type PartFact } from "./breakdowns.js";
import type { ItemEntry, Resolving } from "./context.js";
import { type Order, onHandOf, orderOf, unitOf } from "./units.js";
import { words } from "./wording/index.js";

/** An item with what its breakdowns say of its parts. */
export interface ItemDraft {
  readonly item: Item;
  readonly facts: readonly PartFact[];
}

export function resolveItems(context: Resolving, services: readonly Service[]): ItemDraft[] {
  for (const name of context.namesWritten(["items"])) {
    if (context.file.items[name] === undefined) context.unsettledItems.add(context.formOf(name));
  }
  const entries = Object.entries(context.file.items);
  if (entries.length === 0 && !context.isLeftOut(["items"])) context.at(["items"], words.noItems());
  return entries.flatMap(([name, entry]) => resolveItem(context, services, name, entry));
}

function resolveItem(
  context: Resolving,
  services: readonly Service[],
  name: string,
  entry: ItemEntry,
): ItemDraft[] {
  const path = ["items", name];
  const table = tableItemFor(context, name, entry);
  const root = context.formOf(entry.of ?? name);
  if (entry.of !== undefined && root !== entry.of) {
    context.at([...path, "of"], words.formOfForm(entry.of, root));
  }
  if (table === undefined) context.unsettledItems.add(context.formOf(name));
  const unit = unitOf(context, name, entry, table);
  const order = orderOf(context, name, entry, unit);
  const { breakdowns, facts, settled } = breakdownsOf(context, name, entry, table ?? null, unit);
  if (!settled) {
    for (const part of [...context.ownPartsWritten(name), ...facts.map((fact) => fact.part)]) {
      context.unsettledParts.add(part);
    }
  }
  if (entry.handling !== undefined && isMilder(entry.handling, table?.handling))
    context.at([...path, "handling"], words.handlingStays(name, table?.handling ?? "plant"));
  const deliveries = deliveriesOf(context, services, entry, path);
  const keeps = keepsOf(
    context,
    services,
    name,
    entry.keeps ?? table?.keepsDays,
    table !== null,
    deliveries.early,
  );
  const item: Item = {
    name,
    of: entry.of ?? name,
    form: entry.form ?? table?.form ?? "whole",
    grade: entry.grade ?? null,
    supplier: entry.supplier ?? null,
    handling: entry.handling ?? table?.handling ?? "plant",
    inTables: table !== null && table !== undefined,
    mayContain: entry.may_contain ?? [],
    allergens: [...new Set([...(table?.allergens ?? []), ...(entry.allergens ?? [])])],
    measure: unit.measure,
    unitName: unit.name,
    unitWeight: unit.weight,
    ...(unit.measure === "whole" ? { unitSpread: unitSpreadOf(table ?? null, entry.unit_weight) } : {}),
    orderUnit: order.unit,
    buying: buyingOf(entry, order, deliveries.services),
    onHand: onHandOf(context, services, entry, unit, keeps, path),
    keepsDays: keeps,
    carry: carryOf(entry.keep),
    breakdowns,
    treatment: entry.treatment ?? table?.treatment ?? null,
    rejectIf: entry.reject_if ?? null,
    substitute: entry.substitute ?? null,
  };
  return [{ item, facts }];
}

/** What the tables call raw food of animals stays so: hygiene and dates hang on it. */
function isMilder(stated: Handling, ofTable: Handling | undefined): boolean {
  return stated === "plant" && ofTable !== undefined && ofTable !== "plant";
}

export function carryOf(keep: ItemEntry["keep"]): Carry | null {
  if (keep === undefined) return null;
  return {
    use: keep.use,
    limit: keep.limit,
    valuePerKilogram: keep.value === undefined ? NO_MONEY : money(keep.value),
  };
}

function buyingOf(entry: ItemEntry, { price, breaks }: Order, deliveries: readonly number[]): Buying | null {
  if (entry.buy === null || price === null) return null;
  return {
    price,
    ...(breaks.length === 0 ? {} : { breaks }),
    taxRate: entry.tax ?? null,
    least: entry.buy?.least ?? 0,
    most: entry.buy?.most ?? null,
    deliveries,
    orderBy: entry.order_by ?? null,
  };
}

/** The services that deliveries come before, and the most days any of them waits for its service. */
function deliveriesOf(
  context: Resolving,
  services: readonly Service[],
  entry: ItemEntry,
  path: Path,
): { services: number[]; early: number } {
  const last = services.at(-1);
  if (entry.deliveries === undefined || last === undefined) return { services: [0], early: 0 };
  const found = entry.deliveries.flatMap((date, index) => {
    const service = services.findIndex((candidate) => candidate.date >= date);
    const wait = daysBetween(date, services[service]?.date ?? date);
    if (service >= 0) return [{ service, wait }];
    if (!context.isLeftOut(["services"])) {
      context.at(context.elementOf([...path, "deliveries"], index), words.deliveryTooLate(date, last));
    }
    return [];
  });
  return {
    services: [...new Set(found.map(({ service }) => service))].sort((a, b) => a - b),
    early: Math.max(0, ...found.map(({ wait }) => wait)),
  };
}

/**
 * Days a unit keeps counted from the day of the service that its delivery comes before, so that one delivered
 * earlier has fewer left. An item of no table must say, once the services lie on more than one day.
 */
function keepsOf(
  context: Resolving,
  services: readonly Service[],
  name: string,
  stated: number | null | undefined,
  inTable: boolean,
  early: number,
): number | null {
  const path = ["items", name];
  if (stated === undefined) {
    const spans = (services.at(-1)?.day ?? 0) > 0 || context.file.items[name]?.keep !== undefined;
    if (spans && !inTable && !context.isLeftOut([...path, "keeps"])) context.atKey(path, words.noKeeps(name));
    return null;
  }
  if (stated === null) return null;
  if (stated - early >= 1) return stated - early;
  context.atKey([...path, "deliveries"], words.spoiltBeforeUse(name, stated));
  return 1;
}

/**
 * The tables' entry for an item of the scenario, or for what it is another form of: null where the scenario brings the yields itself, undefined
 * (with a problem) where nothing tells how the item yields.
 */
export function tableItemFor(
  context: Resolving,
  name: string,
  entry: ItemEntry,
): TableItem | null | undefined {
  const path = ["items", name];
  const of = entry.of ?? name;
  const forms = context.tables.items.filter((item) => item.name === of);
  const hasOwn = context.namesWritten([...path, "breakdowns"]).length > 0;
  const [only] = forms;
  if (only === undefined) {
    const tabled = [...new Set(context.tables.items.map((item) => item.name))];
    if (of !== name) return formOfOther(context, name, of, hasOwn, tabled);
    if (hasOwn) return null;
    const meant = didYouMean(name, tabled);
    if (meant !== null) context.unsettledItems.add(meant);
    context.atKey(path, words.unknownItem(name, meant));
    return undefined;
  }
  const names = forms.map(({ form }) => form);
  if (entry.form === undefined) {
    if (forms.length === 1) return only;
    if (!context.isLeftOut([...path, "form"])) context.atKey(path, words.whichForm(of, names));
    return undefined;
  }
  const found = forms.find(({ form }) => form === entry.form);
  if (found !== undefined) return found;
  if (hasOwn) return null;
  context.at([...path, "form"], words.unknownForm(of, entry.form, didYouMean(entry.form, names), names));
  return undefined;
}

/** A form of an item that no table holds: it must be another item of the scenario, and bring its own yields. */
function formOfOther(
  context: Resolving,
  name: string,
  of: string,
  hasOwn: boolean,
  tabled: readonly string[],
): null | undefined {
  const items = context.namesWritten(["items"]).filter((item) => item !== name);
  const place = ["items", name, "of"];
  if (!items.includes(of)) {
    const meant = didYouMean(of, [...items, ...tabled]);
    if (meant !== null) context.unsettledItems.add(meant);
    context.at(place, words.formOfUnknown(name, of, meant));
    return undefined;
  }
  if (hasOwn) return null;
  context.at(place, words.formWithoutYields(name, of));
  return undefined;
}

/** What suppliers ask for a delivery. A supplier that no item names is a problem, and so is a name that comes near one. */
export function resolveSuppliers(context: Resolving): Supplier[] {
  const stated = context.namesWritten(["suppliers"]);
  const items = Object.entries(context.file.items);
  const named = [...new Set(items.flatMap(([, { supplier }]) => supplier ?? []))];
  const known = stated.filter((name) => named.includes(name));
  const isSettled = context
    .namesWritten(["items"])
    .every(
      (name) => context.file.items[name] !== undefined && !context.isLeftOut(["items", name, "supplier"]),
    );
  for (const name of stated) {
    if (named.includes(name) || !isSettled) continue;
    context.atKey(["suppliers", name], words.unknownSupplier(name, didYouMean(name, named), named));
  }
  for (const [name, { supplier }] of items) {
    if (supplier === undefined || stated.includes(supplier)) continue;
    const meant = didYouMean(supplier, known);
    if (meant !== null) context.at(["items", name, "supplier"], words.supplierNotListed(supplier, meant));
  }
  return Object.entries(context.file.suppliers ?? {}).map(([name, { minimum, delivery }]) => ({
    name,
    minimum: minimum === undefined ? NO_MONEY : money(minimum),
    delivery: delivery === undefined ? NO_MONEY : money(delivery),
  }));
}
