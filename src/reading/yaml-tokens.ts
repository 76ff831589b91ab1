import { CST, Lexer, Parser } from "yaml";
import { MOST } from "./limits.js";
import type { Wording } from "./problem.js";
import { words } from "./wording.js";

/** A text taken apart, or why and from where on it is not. */
export type YamlTokens =
  | { readonly tokens: readonly CST.Token[] }
  | { readonly offset: number; readonly refusal: Wording };

/** What only sets a text out. */
const BLANK: readonly (string | null)[] = ["space", "newline", "comment", "scalar", "doc-mode"];

/**
 * Takes a YAML text apart, word by word, and no further than where it turns out to be more or deeper than is read; of
 * broken syntax no more than is told is looked for.
 */
export function yamlTokens(text: string): YamlTokens {
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let marks = 0;
  let directives = 0;
  let faults = 0;
  let escapes = 0;
  for (const lexeme of new Lexer().lex(text)) {
    const type = CST.tokenType(lexeme);
    if (!BLANK.includes(type)) marks += 1;
    if (type === "directive-line") directives += 1;
    if (type === "double-quoted-scalar") escapes += brokenEscapes(lexeme);
    if (escapes > MOST.faults)
      return { offset: parser.offset, refusal: words.tooManyMarks("broken escapes", MOST.faults) };
    if (directives > MOST.faults)
      return { offset: parser.offset, refusal: words.tooManyMarks("directives", MOST.faults) };
    if (marks > MOST.marks)
      return { offset: parser.offset, refusal: words.tooManyMarks("words and marks", MOST.marks) };
    for (const token of parser.next(lexeme)) {
      tokens.push(token);
      if (token.type === "error") faults += 1;
    }
    // The document itself lies below the lists and maps that are open.
    const inner = parser.stack[MOST.depth + 2];
    if (inner !== undefined) return { offset: inner.offset, refusal: words.tooDeep(MOST.depth) };
    if (faults > MOST.faults) break;
  }
  tokens.push(...parser.end());
  return { tokens };
}

/** An escape of YAML 1.2, or a backslash before anything else, which is caught. */
const ESCAPE = /\\(?:[0abtnvfre "/\\N_LP\t\r\n]|x[\da-f]{2}|u[\da-f]{4}|U[\da-f]{8}|([\s\S]|$))/gi;

/** How many backslashes of a text in double quotes begin no escape. */
function brokenEscapes(lexeme: string): number {
  let count = 0;
  for (const [, broken] of lexeme.matchAll(ESCAPE)) if (broken !== undefined) count += 1;
  return count;
}
