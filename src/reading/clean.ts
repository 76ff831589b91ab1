import { MOST } from "./limits.js";
import * as words from "./wording.js";

/**
 * What a text may not hold: control characters but the tab and the ends of lines, what turns the direction of
 * writing, what has no width, halves of characters, and the separators of lines that only Unicode knows.
 */
const UNCLEAN =
  /\r(?!\n)|(?![\t\n\r])[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\p{Bidi_Control}\p{Default_Ignorable_Code_Point}]/u;
const ALL_UNCLEAN = new RegExp(UNCLEAN, "gu");
/** In one printed line, tabs and the ends of lines are no better. */
const NOT_IN_A_LINE = /[\t\n\r]/g;

/** The first character of a text that may not stand in it; null where it is clean. */
export function uncleanIn(text: string): string | null {
  return UNCLEAN.exec(text)?.[0] ?? null;
}

/** A text without what may not stand in it. */
export function cleaned(text: string): string {
  return text.replace(ALL_UNCLEAN, "");
}

/** A text as one line in which every character shows: `<U+001B>` for one that would not. */
export function asLine(text: string): string {
  return text.replace(ALL_UNCLEAN, shown).replace(NOT_IN_A_LINE, shown);
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
export function nameFault(name: string): words.Wording | null {
  if (name.trim() === "" || name === "__proto__") return words.notAKey(name);
  const end = /[\t\n\r]/.exec(name)?.[0];
  if (end !== undefined) return words.nameOfLines(name, codeOf(end));
  return name.length > MOST.name ? words.longName(name) : null;
}
