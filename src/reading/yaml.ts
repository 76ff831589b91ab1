import { Composer, type CST, type Document, type YAMLError, YAMLParseError } from "yaml";
import { MOST } from "./limits.js";
import { isLongerThan, Lines, withLineFeeds } from "./lines.js";
import type { Position, Problem } from "./problem.js";
import { inFileOrder, type Path, type Source, tooLarge, type Written } from "./source.js";
import { words } from "./wording.js";
import { YamlPlaces } from "./yaml-places.js";
import { yamlTokens } from "./yaml-tokens.js";
import { YamlWalk } from "./yaml-walk.js";

/** A YAML text as values that know where they stand. */
export interface YamlDocument {
  readonly file: string;
  /** Undefined where the text holds nothing, or its syntax is broken. */
  readonly value: Written | undefined;
  readonly problems: readonly Problem[];
  /** The keys that stand twice or can be none, whose values are not in the value. */
  readonly leftOut: readonly Path[];
  /** Where a value begins; where nothing stands at the path, the nearest thing around it. */
  positionOf(path: Path): Position;
  /** Where the key of a value begins; for an element of a list, the element itself. */
  keyPositionOf(path: Path): Position;
}

/**
 * Reads YAML 1.2 with every scalar kept as its text, so that no figure passes through a binary float. Anchors
 * are followed. A text with broken syntax, or more or deeper than is read, gives its problems and no value; a key
 * written twice is a problem, and its first value counts.
 */
export function readYaml(given: Source): YamlDocument {
  const source = withLineFeeds(given);
  const { file, text } = source;
  // The parser's own count of lines leaves out the line ends inside some keys.
  const lines = new Lines(source);
  const at = (offset: number): Position => lines.at(offset);
  if (text.length > MOST.bytes) return refused(source, [tooLarge(file, text.length)], at);
  if (isLongerThan(text, MOST.textLines)) {
    const end = { file, line: MOST.textLines + 1, column: 1 };
    return refused(source, [{ ...end, ...words.tooManyLines("text", MOST.textLines) }], at);
  }
  const lost = text.indexOf("\uFFFD");
  if (lost >= 0) return refused(source, [{ ...at(lost), ...words.notUtf8("YAML") }], at);
  const read = yamlTokens(text);
  if ("refusal" in read) return refused(source, [{ ...at(read.offset), ...read.refusal }], at);
  const document = composed(read.tokens, text);
  const faults = syntaxProblems([...document.errors, ...document.warnings], at);
  if (faults.length > 0) return refused(source, faults, at);
  const places = new YamlPlaces(document);
  const walk = new YamlWalk(text, places, at);
  const value = walk.written(document.contents, 0, []);
  if (walk.refusal !== null) return refused(source, [walk.refusal], at);
  return {
    file,
    value: value === "" ? undefined : value,
    problems: walk.problems,
    leftOut: walk.leftOut,
    positionOf: (path) => at(places.find(path).value),
    keyPositionOf: (path) => at(places.find(path).key),
  };
}

function refused(
  { file }: Source,
  problems: readonly Problem[],
  at: (offset: number) => Position,
): YamlDocument {
  const start = () => at(0);
  return { file, value: undefined, problems, leftOut: [], positionOf: start, keyPositionOf: start };
}

function composed(tokens: readonly CST.Token[], text: string): Document {
  const composer = new Composer({ schema: "failsafe", prettyErrors: false, uniqueKeys: false });
  const [document, second] = composer.compose(tokens, true, text.length);
  if (document === undefined) throw new RangeError("a YAML text of no document");
  if (second !== undefined)
    document.errors.push(new YAMLParseError([second.range[0], second.range[1]], "MULTIPLE_DOCS", ""));
  return document;
}

/**
 * One problem a line, and none for what the parser stumbled over after its first complaint. Where tabs indent,
 * they are all that is said: how the other lines nest cannot be judged.
 */
function syntaxProblems(errors: readonly YAMLError[], at: (offset: number) => Position): Problem[] {
  const tabs = errors.filter(({ code }) => code === "TAB_AS_INDENT");
  const problems = (tabs.length > 0 ? tabs : errors)
    .filter(({ code }, index) => index === 0 || code !== "UNEXPECTED_TOKEN")
    .map(({ code, message, pos }) => ({ ...at(pos[0]), ...words.yamlSyntax(code, message) }))
    .sort(inFileOrder);
  return problems.filter(({ line }, index) => line !== problems[index - 1]?.line);
}
