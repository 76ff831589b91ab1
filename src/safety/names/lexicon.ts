import { formIn, itemAtAnEnd, type SingleWord, splitCompound } from "./compounds.js";
import { CONNECTOR, surfacesOf, wordsOf } from "./fold.js";
import { near, nearUnfolded, oneSlip, undoubled } from "./slips.js";

/** What a name stands for, and whether as an item, as a part of one or as a word without weight. */
export interface Meaning {
  readonly kind: "item" | "part" | "word";
  readonly key: string;
}

/** One name found in a text: what it may stand for, and which of the text's words it takes up. */
export interface Found<M extends Meaning> {
  readonly meanings: readonly M[];
  readonly at: number;
  readonly length: number;
}

/** A text as its words, and the names found in it from left to right. */
export interface Reading<M extends Meaning> {
  readonly words: readonly string[];
  readonly found: readonly Found<M>[];
}

export interface Lexicon<M extends Meaning> {
  read(text: string): Reading<M>;
}

/** A name as its folded words; `fixed` where they may not be turned round: "vine tomato" is not "tomato vine". */
export interface Name {
  readonly text: string;
  readonly words: readonly string[];
  readonly fixed: boolean;
}

/** A name as a table has it, "=" before one that fixes the order of its words. */
export function nameOf(text: string): Name {
  return { text, words: wordsOf(text), fixed: text.startsWith("=") };
}

interface Phrase<M extends Meaning> {
  readonly words: readonly string[];
  readonly meanings: M[];
  readonly fixed: boolean;
}

/** Names of one meaning; those spelt "exactly" are not what a slip of the pen is taken for. */
interface Row<M extends Meaning> {
  readonly meanings: readonly M[];
  readonly names: readonly Name[];
  readonly spelt?: "exactly";
}

/** The fewest letters of a name written in more or fewer words ("fox glove", "panthercap") or with a slip. */
const JOINED_LENGTH = 7;
/** The same, where each of its words is one the tables know: "arec nut". */
const SURE_JOINED_LENGTH = 10;

/** Shorter words are guessed at a slip of the pen only where they are among a row's first, commonest names. */
const SURE_LENGTH = 8;

/**
 * A lexicon of names in many languages. The words of a name may stand either way round ("potato, sweet"), unless
 * their order is fixed. The longest name wins. Slips in words of four and five letters ("eldar") are guessed at only
 * where asked: "stick" is near "stock".
 */
export function makeLexicon<M extends Meaning>(
  rows: readonly Row<M>[],
  { shortSlips = false }: { readonly shortSlips?: boolean } = {},
): Lexicon<M> {
  const phrases = new Map<string, Phrase<M>[]>();
  const vocabulary = new Set<string>();
  const slippable = new Map<string, string>();
  const joinable: Phrase<M>[] = [];
  let longest = 1;
  for (const { meanings, names, spelt } of rows) {
    for (const [rank, { words, fixed }] of names.entries()) {
      longest = Math.max(longest, words.length);
      for (const word of words) {
        vocabulary.add(word);
        if (spelt === undefined && (rank < 4 || word.length >= SURE_LENGTH))
          for (const surface of surfacesOf(word)) slippable.set(surface, word);
      }
      const phrase = { words, meanings: [...meanings], fixed };
      addPhrase(phrases, phrase);
      if (spelt === undefined && meanings.some(({ kind }) => kind === "item")) joinable.push(phrase);
    }
  }
  const singles = singleWords(phrases);
  const surfaces = [...slippable];
  const single = new Map(surfaces.map(([surface, word]) => [undoubled(surface), word]));
  const shortItems = singles.filter(({ word, item }) => item && word.length === 5 && slippable.has(word));
  const joined = byFirstLetter(joinable);
  const known = new Map<string, string[]>();

  /** A long word one letter off is no compound: "chiaberry" is not the berry of chia. */
  function plainSlipOf(word: string): string[] | null {
    if (word.length < SURE_LENGTH) return null;
    const meant = surfaces.find(([other]) => other.length > SURE_LENGTH && oneSlip(word, other))?.[1];
    return meant === undefined ? null : [meant];
  }

  function slipOf(word: string): string[] | null {
    const among = (isSlip: (other: string) => boolean): string | undefined =>
      surfaces.find(([surface]) => isSlip(surface))?.[1];
    const short = shortSlips && (word.length === 4 || word.length === 5);
    const meant =
      (word.length >= 4 ? single.get(undoubled(word)) : undefined) ??
      among((other) => near(word, other) || near(`${word}s`, other)) ??
      among((other) => nearUnfolded(word, other)) ??
      (short ? shortItems.find((other) => oneSlip(word, other.word))?.word : undefined);
    return meant === undefined ? null : [meant];
  }

  function resolve(word: string): string[] {
    const earlier = known.get(word);
    if (earlier !== undefined) return earlier;
    const form = formIn(vocabulary, word);
    const words =
      form === null
        ? (plainSlipOf(word) ??
          splitCompound(word, singles, vocabulary) ??
          slipOf(word) ??
          itemAtAnEnd(word, singles) ?? [word])
        : [form];
    known.set(word, words);
    return words;
  }

  function readOnce(text: string): Reading<M> {
    const words = wordsOf(text).flatMap(resolve);
    const found: Found<M>[] = [];
    for (let at = 0; at < words.length; ) {
      const hit = longestAt(phrases, words, at, longest) ?? joinedAt(words, at);
      if (hit !== null) found.push(hit);
      at += hit?.length ?? 1;
    }
    return { words, found };
  }

  /** A name of an item, written in other words than the tables have it or with one slip in the whole. */
  function joinedAt(words: readonly string[], at: number): Found<M> | null {
    for (let length = Math.min(longest, words.length - at); length > 0; length--) {
      const window = words.slice(at, at + length);
      const text = window.join("");
      const least = window.every((word) => vocabulary.has(word)) ? SURE_JOINED_LENGTH : JOINED_LENGTH;
      if (window.includes(CONNECTOR) || text.length < least) continue;
      const meant = joined
        .get(text[0] ?? "")
        ?.find(({ text: name, words: own }) => text === name || (own > 1 && oneSlip(text, name)));
      if (meant !== undefined) return { meanings: meant.meanings, at, length };
    }
    return null;
  }

  const readings = new Map<string, Reading<M>>();
  return {
    read(text) {
      const reading = readings.get(text) ?? readOnce(text);
      readings.set(text, reading);
      return reading;
    },
  };
}

interface Joined<M extends Meaning> {
  readonly text: string;
  readonly words: number;
  readonly meanings: readonly M[];
}

function byFirstLetter<M extends Meaning>(phrases: readonly Phrase<M>[]): Map<string, Joined<M>[]> {
  const byLetter = new Map<string, Joined<M>[]>();
  for (const { words, meanings } of phrases) {
    const text = words.join("");
    if (text.length < JOINED_LENGTH) continue;
    const letter = text[0] ?? "";
    const same = byLetter.get(letter) ?? [];
    same.push({ text, words: words.length, meanings });
    byLetter.set(letter, same);
  }
  return byLetter;
}

function addPhrase<M extends Meaning>(phrases: Map<string, Phrase<M>[]>, phrase: Phrase<M>): void {
  const index = [...phrase.words].sort().join(" ");
  const sameWords = phrases.get(index) ?? [];
  const same = sameWords.find(
    ({ words, fixed }) => fixed === phrase.fixed && words.join(" ") === phrase.words.join(" "),
  );
  if (same === undefined) phrases.set(index, [...sameWords, phrase]);
  else same.meanings.push(...phrase.meanings);
}

function longestAt<M extends Meaning>(
  phrases: ReadonlyMap<string, readonly Phrase<M>[]>,
  words: readonly string[],
  at: number,
  longest: number,
): Found<M> | null {
  for (let length = Math.min(longest, words.length - at); length > 0; length--) {
    const window = words.slice(at, at + length);
    const inOrder = window.join(" ");
    const candidates = phrases.get([...window].sort().join(" ")) ?? [];
    const exact = candidates.filter(({ words: own }) => own.join(" ") === inOrder);
    const matching = exact.length > 0 ? exact : candidates.filter(({ fixed }) => !fixed);
    if (matching.length > 0) return { meanings: matching.flatMap(({ meanings }) => meanings), at, length };
  }
  return null;
}

function singleWords<M extends Meaning>(phrases: ReadonlyMap<string, readonly Phrase<M>[]>): SingleWord[] {
  return [...phrases.values()]
    .flat()
    .filter(({ words }) => words.length === 1)
    .map(({ words, meanings }) => ({
      word: words[0] ?? "",
      item: meanings.some(({ kind }) => kind === "item"),
      part: meanings.some(({ kind }) => kind === "part"),
    }))
    .sort((a, b) => b.word.length - a.word.length);
}
