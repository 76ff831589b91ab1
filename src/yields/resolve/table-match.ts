import type { ScenarioFile } from "../../kitchen/index.js";
import { didYouMean } from "../../reading/index.js";
import type { TableItem } from "../tables.js";
import type { Resolving } from "./context.js";
import * as words from "./wording/index.js";

export type ItemEntry = ScenarioFile["items"][string];

/**
 * The tables' entry for an item of the scenario: null where the scenario brings the yields itself, undefined
 * (with a problem) where nothing tells how the item yields.
 */
export function tableItemFor(
  context: Resolving,
  name: string,
  entry: ItemEntry,
): TableItem | null | undefined {
  const path = ["items", name];
  const forms = context.tables.items.filter((item) => item.name === name);
  const hasOwn = context.namesWritten([...path, "breakdowns"]).length > 0;
  const [only] = forms;
  if (only === undefined) {
    if (hasOwn) return null;
    const known = [...new Set(context.tables.items.map((item) => item.name))];
    const meant = didYouMean(name, known);
    if (meant !== null) context.unsettledItems.add(meant);
    context.atKey(path, words.unknownItem(name, meant));
    return undefined;
  }
  const names = forms.map(({ form }) => form);
  if (entry.form === undefined) {
    if (forms.length === 1) return only;
    if (!context.isLeftOut([...path, "form"])) context.atKey(path, words.whichForm(name, names));
    return undefined;
  }
  const found = forms.find(({ form }) => form === entry.form);
  if (found !== undefined) return found;
  if (hasOwn) return null;
  context.at([...path, "form"], words.unknownForm(name, entry.form, didYouMean(entry.form, names), names));
  return undefined;
}
