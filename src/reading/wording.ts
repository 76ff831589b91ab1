import { MOST } from "./limits.js";
import { type Said, wordings } from "./problem.js";
import type { Written } from "./source.js";

export const words = wordings("reading", {
  /** What is wrong with a text that is not YAML, by the parser's own code for it. */
  yamlSyntax: (code: string, message: string) =>
    SYNTAX[code] ?? { what: lowerFirst(message), remedy: "Write it as YAML 1.2: one `key: value` a line" },
  tooLarge: (size: number, most: number) => ({
    what: `the file has ${size} bytes, and at most ${most} are read`,
    remedy: "Name the file that is meant, or take out of it what does not belong here",
  }),
  tooDeep: (most: number) => ({
    what: `this stands inside more than ${most} lists and maps`,
    remedy: "Write it with fewer brackets and levels, and no anchor inside an anchor inside another",
  }),
  uncleanCharacter: (code: string) => ({
    what: `a character that does not show, ${code}, stands in the text`,
    remedy: "Take it out: write the text again by hand rather than copy it",
  }),
  nameOfLines: (name: string, code: string) => ({
    what: `the name \`${quoted(name)}\` has a tab or more than one line in it (${code})`,
    remedy: "Write it on one line",
  }),
  longName: (name: string) => ({
    what: `the name \`${quoted(name)}\` has ${name.length} letters`,
    remedy: `Write at most ${MOST.name}`,
  }),
  longText: (text: string, most: number) => ({
    what: `\`${quoted(text)}\` has ${text.length} letters`,
    remedy: `Write at most ${most}`,
  }),
  tooManyValues: (most: number) => ({
    what: `here the text comes to more than ${most} values, what anchors stand for counted each time`,
    remedy: "Take out what does not belong here, and write out what is meant by anchors inside anchors",
  }),
  tooManyMarks: (of: string, most: number) => ({
    what: `from here on the text has more than ${most} ${of}`,
    remedy: "Take out what does not belong here, or plan it in a file of its own",
  }),
  unknownAnchor: (name: string) => ({
    what: `\`*${quoted(name)}\` refers to no anchor above it`,
    remedy: `Mark the value that is meant with \`&${quoted(name)}\``,
  }),
  anchorInsideItself: (name: string) => ({
    what: `\`*${quoted(name)}\` stands inside the value that it refers to`,
    remedy: "Write the value out",
  }),
  notAKey: (name: string | null) => ({
    what:
      name === null
        ? "a list or a map stands where a name belongs"
        : name.trim() === ""
          ? "a name of nothing stands here"
          : `\`${name}\` cannot be used as a name`,
    remedy: "Write a name, a colon and a space, such as `main: 100 %`",
  }),
  mergeKey: () => ({
    what: "`<<` is not read here",
    remedy: "Write the keys out, or refer to the whole value with an anchor",
  }),
  writtenTwice: (name: string, firstLine: number) => ({
    what: `\`${quoted(name)}\` is written twice in the same place; it stands on line ${firstLine} already`,
    remedy: "Keep one of them, or give them different names",
  }),
  missing: (key: string, remedy: string) => ({ what: `\`${key}\` is missing`, remedy }),
  wrongKind: (value: Written, remedy: string) => {
    const kind = Array.isArray(value)
      ? "a list stands"
      : typeof value === "string"
        ? `\`${quoted(value)}\` stands`
        : "keys stand";
    return {
      what: value === "" ? "nothing is written here" : `${kind} where something else belongs`,
      remedy,
    };
  },
  unknownKey: (key: string, meant: string | null, known: string) => ({
    what: `\`${quoted(key)}\` is no key that is known here`,
    remedy: meant === null ? `Known here: ${known}` : `Did you mean \`${meant}\`?`,
  }),
  /** `format` is what the file is to be saved as. */
  notUtf8: (format: "CSV" | "YAML") => ({
    what: "a letter here is lost, for the file is or was not in UTF-8",
    remedy: `Write the letter again and save the file as ${format} in UTF-8`,
  }),
  missingColumn: (name: string, meant: string | null) => ({
    what: `the table has no column \`${name}\``,
    remedy:
      meant === null
        ? `Add a column headed \`${name}\``
        : `Is \`${meant}\` meant for it? Head it \`${name}\``,
  }),
  unknownColumn: (name: string, known: readonly string[]) => ({
    what: `\`${quoted(name)}\` is no column of this table`,
    remedy: `Columns: ${known.join(", ")}`,
  }),
  tooManyLines: (of: "table" | "text", most: number) => ({
    what: `the ${of} has more than ${most} lines`,
    remedy: "Take out what does not belong here",
  }),
  tooManyColumns: (count: number, most: number, known: readonly string[]) => ({
    what: `the table has ${count} columns, and at most ${most} are read`,
    remedy: `Columns: ${known.join(", ")}`,
  }),
  columnTwice: (name: string) => ({
    what: `the column \`${quoted(name)}\` stands twice`,
    remedy: "Keep one of them",
  }),
  rowLength: (cells: number, columns: number) => ({
    what: `the row has ${cells} cells and the table ${columns} columns`,
    remedy: "Put quotes around a cell that holds what separates the cells, and leave no separator out",
  }),
  /** What is wrong with a text that is not CSV, by the parser's own code for it. */
  csvSyntax: (code: string, message: string) => ({
    what: CSV_SYNTAX[code] ?? lowerFirst(message.replace(/\.$/, "")),
    remedy: "Put quotes around the whole cell, and write a quote inside it twice",
  }),
  emptyFile: (remedy: string) => ({ what: "the file holds nothing", remedy }),
});

const SYNTAX: Readonly<Record<string, Said>> = {
  BLOCK_AS_IMPLICIT_KEY: {
    what: "a second `key:` stands on the line, or under a value that is already complete",
    remedy: "Put each key on a line of its own, and quotes around a text that holds `: `",
  },
  BLOCK_IN_FLOW: {
    what: "a `key: value` stands inside `{ }` or `[ ]` without brackets of its own",
    remedy: "Put quotes around a text that holds `: `, or brackets around the key and its value",
  },
  TAB_AS_INDENT: {
    what: "the line is indented with a tab",
    remedy: "Indent with spaces, two for each level",
  },
  BAD_INDENT: {
    what: "the indentation does not fit the lines above, or a bracket is not closed",
    remedy: "Indent lines that belong together alike, and close every `[` and `{`",
  },
  MISSING_CHAR: {
    what: "a quote or bracket is opened and not closed",
    remedy: "Close it, or leave the opening one out",
  },
  UNEXPECTED_TOKEN: {
    what: "the text cannot follow what stands before it",
    remedy: "Indent lines that belong together alike, and write either `key: value` lines or `- ` lines",
  },
  MULTIPLE_DOCS: {
    what: "a second document begins at `---`",
    remedy: "Keep one scenario a file",
  },
  TAG_RESOLVE_FAILED: {
    what: "a value begins with `!`, which YAML keeps for tags",
    remedy: "Leave the tag out, or put quotes around the text",
  },
  BAD_SCALAR_START: {
    what: "a value begins with a character that YAML keeps for itself",
    remedy: "Put quotes around the value",
  },
  BAD_DQ_ESCAPE: {
    what: "a backslash in double quotes is followed by a letter that has no meaning there",
    remedy: "Use single quotes, or write the backslash twice",
  },
};

/** A text as a problem repeats it: its beginning, where it is long. */
export function quoted(text: string): string {
  return text.length > MOST.quoted ? `${text.slice(0, MOST.quoted)}…` : text;
}

const CSV_SYNTAX: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: "a quote is opened and not closed",
  INVALID_OPENING_QUOTE: "a quote stands inside a cell",
  CSV_INVALID_CLOSING_QUOTE: "text follows the quote that closes a cell",
};

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
