/** The word that stands for "and", "with", "/" and their like in other languages. */
export const CONNECTOR = "&";

const LETTERS: Record<string, string> = {
  ß: "ss",
  æ: "a",
  œ: "o",
  ø: "o",
  ł: "l",
  đ: "d",
  ð: "d",
  þ: "th",
  ı: "i",
};
const STOP_WORDS = new Set(
  (
    "the teh a an from for s d l de del della dello dei delle degli dell da do dos das di du des " +
    "la le les el los las lo il gli al alla aux au van het von vom der die dem den des as os"
  ).split(" "),
);
const CONNECTORS = new Set("and with plus or und mit oder et avec ou y e con com och med og met".split(" "));
const IRREGULAR: ReadonlyMap<string, string> = new Map([
  ["leaves", "leaf"],
  ["leafs", "leaf"],
  ["leave", "leaf"],
  ["halves", "half"],
  ["calves", "calf"],
  ["loaves", "loaf"],
  ["hooves", "hoof"],
  // Leaves as a vegetable, not a colour: kept apart.
  ["greens", "greens"],
]);

/**
 * One spelling for all: lower case, no accents, hyphens or signs, umlauts written either way alike, whatever
 * the script.
 */
export function fold(text: string): string {
  const letters = PLAIN.test(text) ? text : plainLetters(text);
  return letters
    .replace(/ {2,}/g, " ")
    .replace(/(?<![aeiouq])([aou])e/g, "$1")
    .trim();
}

/** Nothing to fold but umlauts; most names are, and there are thousands. */
const PLAIN = /^[a-z0-9 ]*$/;

function plainLetters(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/[\p{M}\p{Cf}]/gu, "")
    .toLowerCase()
    .replace(/[ßæœøłđðþı]/g, (letter) => LETTERS[letter] ?? letter)
    .replace(/[&+/;]/g, ` ${CONNECTOR} `)
    .replace(/[^\p{L}\p{N}&]+/gu, " ");
}

/** The folded words that carry meaning, English plurals made singular; "and" and "with" become one sign. */
export function wordsOf(text: string): string[] {
  return separateCamelCase(text)
    .split(" ")
    .filter((word) => word !== "" && !STOP_WORDS.has(word))
    .map((word) => (CONNECTORS.has(word) ? CONNECTOR : singular(word)));
}

function separateCamelCase(text: string): string {
  return fold(text.replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2"));
}

/** The English singular, by rule; words of other languages that end alike are changed alike on both sides. */
export function singular(word: string): string {
  const irregular = IRREGULAR.get(word);
  if (irregular !== undefined) return irregular;
  if (word.length < 4 || /(ss|us|is)$/.test(word)) return word;
  if (/[^aeiou]ies$/.test(word) && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(ch|sh|x|z)es$/.test(word)) return word.slice(0, -2);
  return word.endsWith("s") ? word.slice(0, -1) : word;
}

/** The word as it stands and its irregular plurals, as a cook may misspell either. */
export function surfacesOf(word: string): string[] {
  return [word, ...[...IRREGULAR].flatMap(([plural, one]) => (one === word ? [plural] : []))];
}

/** What else a word may be the plural or a case of, in the languages the tables hold. */
export function otherForms(word: string): string[] {
  if (word.length < 5) return [];
  const endings = [
    "e",
    "s",
    "n",
    "en",
    "er",
    "es",
    "ar",
    "or",
    "erna",
    "arna",
    "et",
    "nen",
    "ler",
    "lar",
    "leri",
    "lari",
  ];
  const cut = endings
    .filter((ending) => word.endsWith(ending))
    .map((ending) => word.slice(0, -ending.length));
  const stem = word.slice(0, -1);
  const plural = word.endsWith("ie") ? [`${word.slice(0, -2)}y`] : [];
  const swapped = { i: ["o", "e", "a"], e: ["a"], a: ["o"], y: ["a"] }[word.slice(-1)] ?? [];
  return [...cut.filter((form) => form.length >= 4), ...plural, ...swapped.map((ending) => stem + ending)];
}
