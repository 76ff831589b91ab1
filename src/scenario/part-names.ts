import { didYouMean, type Wording } from "../reading/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

/**
 * What to say of a part name that nothing declares: the part it stands for, one that can be had here before any
 * other, or the parts of the item it names.
 */
export function unknownPart(
  context: Resolving,
  name: string,
  known: ReadonlySet<string>,
  had: readonly string[],
): Wording {
  const items = Object.keys(context.file.items);
  const ofItem = items.includes(name)
    ? [...known].filter((part) => part.startsWith(`${context.formOf(name)} `))
    : [];
  if (ofItem.length > 0) return words.itemForPart(name, ofItem);
  const named = items.find((item) => context.formOf(item) !== item && name.startsWith(`${item} `));
  const short = named === undefined ? name : name.slice(named.length + 1);
  const stems = new Set((named === undefined ? items : [named]).map((item) => context.formOf(item)));
  const [whole, ...others] = [...stems].map((stem) => `${stem} ${short}`).filter((part) => known.has(part));
  const meant =
    whole !== undefined && others.length === 0
      ? whole
      : (didYouMean(name, had) ?? didYouMean(name, [...known]));
  return words.unknownPart(name, meant);
}
