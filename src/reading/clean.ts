import { MOST } from "./limits.js";
import type { Wording } from "./problem.js";
import { words } from "./wording.js";

/** Before and after what joins or parts letters in scripts that need it, and pictures: Unicode UAX #31, from memory. */
const JOINED =
  "(?![\\p{Script=Latin}\\p{Script=Greek}\\p{Script=Cyrillic}])\\p{L}|\\p{M}|\\p{Extended_Pictographic}|\\p{Emoji_Modifier}|\\uFE0F";
/** What shows nothing itself and yet changes what stands beside it. */
const JOINERS = "\\u200C\\u200D";
const OF_PICTURES = "\\uFE0E\\uFE0F";
const OF_IDEOGRAPHS = "\\u{E0100}-\\u{E01EF}";
/** Marks of direction, which texts from right to left need. */
const MARKS = "\\u200E\\u200F\\u061C";
const FROM_THE_RIGHT = /[\p{Script=Arabic}\p{Script=Hebrew}\p{Script=Syriac}\p{Script=Thaana}]/u;

/**
 * What a text may not hold: control characters but the tab and the ends of lines, what turns the direction of
 * writing, what has no width where no script needs it, halves of characters, and the separators of lines that only
 * Unicode knows.
 */
function unclean(allowed: string): string {
  return [
    "\\r(?!\\n)",
    `(?<!${JOINED})[${JOINERS}]|[${JOINERS}](?!${JOINED})`,
    `(?<!\\p{Extended_Pictographic}|[0-9#*])[${OF_PICTURES}]`,
    `(?<!\\p{Script=Han})[${OF_IDEOGRAPHS}]`,
    `(?![\\t\\n\\r${JOINERS}${OF_PICTURES}${OF_IDEOGRAPHS}${allowed}])[\\p{Cc}\\p{Cs}\\p{Zl}\\p{Zp}\\p{Bidi_Control}\\p{Default_Ignorable_Code_Point}]`,
  ].join("|");
}

const UNCLEAN = new RegExp(unclean(""), "gu");
const UNCLEAN_FROM_THE_RIGHT = new RegExp(unclean(MARKS), "gu");
const uncleanFor = (text: string): RegExp => (FROM_THE_RIGHT.test(text) ? UNCLEAN_FROM_THE_RIGHT : UNCLEAN);
/** In one printed line, tabs and the ends of lines are no better. */
const NOT_IN_A_LINE = /[\t\n\r]/g;

/** The first character of a text that may not stand in it; null where it is clean. */
export function uncleanIn(text: string): string | null {
  return text.match(uncleanFor(text))?.[0] ?? null;
}

/** A text without what may not stand in it. */
export function cleaned(text: string): string {
  return text.replace(uncleanFor(text), "");
}

/** More marks on one letter than any language has, which take long to be put in order: Unicode UAX #15, from memory. */
const BEYOND_STACKS = /\p{M}{31}/u;

/** A text in which an accent is always one with its letter. */
export function composed(text: string): string {
  return BEYOND_STACKS.test(text) ? text : text.normalize("NFC");
}

/** A text as one line in which every character shows: `<U+001B>` for one that would not. */
export function asLine(text: string): string {
  return text.replace(uncleanFor(text), shown).replace(NOT_IN_A_LINE, shown);
}

/** What makes a terminal do anything but write; marks of direction that a language needs are none of it. */
const COMMANDS = /\r(?!\n)|(?![\t\n\r])[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]/gu;

/** A text of some lines that a terminal only writes. */
export function asLines(text: string): string {
  return text.replace(COMMANDS, shown);
}

function shown(character: string): string {
  return `<${codeOf(character)}>`;
}

/** `U+001B` for the escape. */
export function codeOf(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`;
}

/** What is wrong with a text as a name; null where it can be one. */
export function nameFault(name: string): Wording | null {
  if (name.trim() === "" || name === "__proto__") return words.notAKey(name);
  const end = /[\t\n\r]/.exec(name)?.[0];
  if (end !== undefined) return words.nameOfLines(name, codeOf(end));
  return name.length > MOST.name ? words.longName(name) : null;
}
