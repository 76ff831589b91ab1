import type { Supplier } from "../kitchen/index.js";
import { money, NO_MONEY } from "../quantity/index.js";
import { didYouMean } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

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
