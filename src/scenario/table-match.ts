import type { ScenarioFile } from "../kitchen/index.js";
import { didYouMean } from "../reading/index.js";
import type { TableItem } from "../yields/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

export type ItemEntry = ScenarioFile["items"][string];

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
