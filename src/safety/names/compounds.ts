import { CONNECTOR, otherForms, singular } from "./fold.js";

/** A name of one word in the tables, and whether it names an item, a part or both. */
export interface SingleWord {
  readonly word: string;
  readonly item: boolean;
  readonly part: boolean;
}

/** The word itself or what it may be the plural or a case of, where the vocabulary holds it. */
export function formIn(vocabulary: ReadonlySet<string>, word: string): string | null {
  if (word === CONNECTOR) return word;
  return [word, ...otherForms(word)].find((form) => vocabulary.has(form)) ?? null;
}

const spaced = (word: string): boolean =>
  /^[\p{Script=Latin}\p{Script=Cyrillic}\p{Script=Greek}\p{N}]+$/u.test(word);

const leastItem = (word: string): number => (spaced(word) ? 4 : 2);

/** "Rhabarberblatt" as item and part; null where the word holds no two such. The longest item name in it counts. */
export function splitCompound(
  word: string,
  singles: readonly SingleWord[],
  vocabulary: ReadonlySet<string>,
): string[] | null {
  const least = leastItem(word);
  for (const { word: item } of singles.filter((single) => single.item && single.word.length >= least)) {
    const at = word.indexOf(item);
    if (at < 0) continue;
    const after = partIn(word.slice(at + item.length), singles, vocabulary);
    const part = after ?? (spaced(word) ? null : partIn(word.slice(0, at), singles, vocabulary));
    if (part !== null) return [item, part];
  }
  return null;
}

/** "Kidneybohneneintopf" and "Gartenrhabarber" as an item and the rest. */
export function itemAtAnEnd(word: string, singles: readonly SingleWord[]): string[] | null {
  const least = spaced(word) ? 6 : 2;
  const items = singles.filter((single) => single.item && single.word.length >= least);
  const item = items.find((single) => word.startsWith(single.word) || word.endsWith(single.word))?.word;
  if (item === undefined) return null;
  return word.startsWith(item) ? [item, word.slice(item.length)] : [word.slice(0, -item.length), item];
}

/** The part a compound ends in, after the letters that join ("Aprikose-n-kern"), or else a longer one within. */
function partIn(
  rest: string,
  singles: readonly SingleWord[],
  vocabulary: ReadonlySet<string>,
): string | null {
  const parts = singles.filter(({ part }) => part);
  for (const joint of ["", "n", "en", "s", "es", "e", "の", "的"]) {
    if (!rest.startsWith(joint)) continue;
    const form = formIn(vocabulary, singular(rest.slice(joint.length)));
    if (form !== null && parts.some(({ word }) => word === form)) return form;
  }
  const least = spaced(rest) ? 4 : 1;
  return parts.find(({ word }) => word.length >= least && rest.includes(word))?.word ?? null;
}
