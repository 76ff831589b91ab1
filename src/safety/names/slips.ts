import distance from "leven";

const VOWELS = "aeiouy";

/** Doubled letters made single: "livver" and "liver" alike. */
export const undoubled = (word: string): string => word.replace(/(\p{L})\1+/gu, "$1");

/** Whether a word of six letters or more is a slip of the other: one letter, two in long words, or two swapped. */
export function near(word: string, other: string): boolean {
  const length = Math.min(word.length, other.length);
  if (word[0] !== other[0] || Math.abs(word.length - other.length) > 2) return false;
  if (length === 5) return other.length === 6 && distance(word, other) === 1;
  if (length < 6) return false;
  const apart = distance(word, other);
  if (apart !== 2) return apart < 2;
  return neighboursSwapped(word, other) || (length >= 9 && word.at(-1) === other.at(-1));
}

/** Whether a slip hid in the folding of umlauts: "laruel" reads "larul", one slip from "laurel" with its e back. */
export function nearUnfolded(word: string, other: string): boolean {
  if (word.length < 5 || other.length < 6) return false;
  return [...word.matchAll(/[aou]/g)].some(({ index }) =>
    oneSlip(`${word.slice(0, index + 1)}e${word.slice(index + 1)}`, other),
  );
}

/** Whether a short word, or a name of several words run together, is one slip from another that begins alike. */
export function oneSlip(word: string, other: string): boolean {
  if (word[0] !== other[0]) return false;
  if (word.length !== other.length) return distance(word, other) === 1;
  return neighboursSwapped(word, other) || oneVowelChanged(word, other);
}

function oneVowelChanged(word: string, other: string): boolean {
  const changed = [...word].flatMap((letter, at) =>
    letter === other[at] ? [] : [letter + (other[at] ?? "")],
  );
  return changed.length === 1 && [...(changed[0] ?? "")].every((letter) => VOWELS.includes(letter));
}

function neighboursSwapped(word: string, other: string): boolean {
  if (word.length !== other.length) return false;
  const at = [...word].findIndex((letter, index) => letter !== other[index]);
  return (
    word[at] === other[at + 1] && word[at + 1] === other[at] && word.slice(at + 2) === other.slice(at + 2)
  );
}
