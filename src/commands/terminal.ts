import { asLines } from "../reading/index.js";

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
