import { asLines } from "../reading/index.js";

/** How the program ends, for whoever called it. */
export const EXIT = {
  plan: 0,
  noPlan: 1,
  wrongInput: 2,
  noAnswer: 3,
  interrupted: 130,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Where the program's words go. */
export interface Terminal {
  /** A line of what was asked for, to stdout. */
  print(line: string): void;
  /** A line of what is wrong, to stderr. */
  complain(line: string): void;
  /** One line that the next one replaces, shown only where a person watches; null takes it away. */
  progress(line: string | null): void;
  heading(text: string): string;
  /** Letters that fit on one line. */
  readonly columns: number;
}

const COLUMNS = { least: 60, usual: 100, most: 120 };

const CLEAR_LINE = "\r\u001b[2K";
const BOLD = "\u001b[1m";
const NOT_BOLD = "\u001b[22m";

/** A stream of the process: more is known of it where it is a terminal. */
interface Stream {
  write(text: string): unknown;
  readonly isTTY?: boolean;
  /** 0 or nothing where it is not known. */
  readonly columns?: number;
}

interface Surroundings {
  readonly stdout: Stream;
  readonly stderr: Stream;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/** The terminal this process runs in. Colours are left out where NO_COLOR is set or nobody watches. */
export function processTerminal({ stdout, stderr, env }: Surroundings = process): Terminal {
  const colours = stdout.isTTY === true && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb";
  const watched = stderr.isTTY === true && env.TERM !== "dumb";
  let shown = false;
  const clear = () => {
    if (shown) stderr.write(CLEAR_LINE);
    shown = false;
  };
  return {
    print: (line) => {
      clear();
      stdout.write(`${withBold(line)}\n`);
    },
    complain: (line) => {
      clear();
      stderr.write(`${asLines(line)}\n`);
    },
    progress: (line) => {
      if (!watched) return;
      clear();
      if (line === null) return;
      stderr.write(asLines(line).slice(0, (stderr.columns || COLUMNS.usual) - 1));
      shown = true;
    },
    columns: Math.min(COLUMNS.most, Math.max(COLUMNS.least, stdout.columns || COLUMNS.usual)),
    heading: (text) => (colours ? `${BOLD}${text}${NOT_BOLD}` : text),
  };
}

/** Of what a terminal obeys, a line has our own headings and nothing else. */
function withBold(line: string): string {
  const isOurs = line.startsWith(BOLD) && line.endsWith(NOT_BOLD);
  return isOurs ? `${BOLD}${asLines(line.slice(BOLD.length, -NOT_BOLD.length))}${NOT_BOLD}` : asLines(line);
}

/** The text in lines no longer than `width`, where its words allow; figures stay with their units. */
export function wrapped(text: string, width: number, first: string, others: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines.map((line, index) => `${index === 0 ? first : others}${line.replaceAll("\u00a0", " ")}`);
}

/**
 * Lines of a table with its heads, each column as wide as its widest cell; columns empty in every row are left out.
 * `right` lists the columns of figures.
 */
export function tableLines(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[],
): string[] {
  const shown = heads.flatMap((head, index) => {
    const cells = rows.map((row) => row[index] ?? "");
    if (cells.every((cell) => cell === "")) return [];
    const width = Math.max(head.length, ...cells.map((cell) => cell.length));
    const pad = (cell: string) => (right.includes(index) ? cell.padStart(width) : cell.padEnd(width));
    return [[head, ...cells].map(pad)];
  });
  return [heads, ...rows].map((_, line) =>
    shown
      .map((column) => column[line] ?? "")
      .join("  ")
      .trimEnd(),
  );
}
