import type { Position } from "./problem.js";
import type { Source } from "./source.js";

const NEWLINE = 10;
const RETURN = 13;
const QUOTE = 34;

/** Where the records and cells of a table begin: worked out at the first question, as most are never asked for. */
export class CsvPlaces {
  private readonly file: string;
  private readonly text: string;
  private starts: readonly RecordStart[] | null = null;

  constructor(
    { file, text }: Source,
    private readonly separator: string,
  ) {
    this.file = file;
    this.text = text.replace(/^\uFEFF/, "");
  }

  /** Where a cell of a record begins; empty lines are no records, and the quotes must be sound. */
  at(record: number, cell: number): Position {
    this.starts ??= recordStarts(this.text);
    const start = this.starts[record];
    if (start === undefined) return { file: this.file, line: 1, column: 1 };
    return cell === 0 ? { file: this.file, line: start.line, column: 1 } : this.within(start, cell);
  }

  /** Where the quote stands that is opened and not closed; null where each is. */
  openQuote(): Position | null {
    const quotes = [...this.text.matchAll(/"/g)];
    const last = quotes.at(-1);
    if (last === undefined || quotes.length % 2 === 0) return null;
    const before = this.text.slice(0, last.index).split("\n");
    return { file: this.file, line: before.length, column: [...(before.at(-1) ?? "")].length + 1 };
  }

  private within({ offset, line }: RecordStart, cell: number): Position {
    const place = { file: this.file, line, column: 1 };
    let left = cell;
    let quoted = false;
    for (const character of this.charactersFrom(offset)) {
      if (left === 0) break;
      const lineEnds = character === "\n";
      if (lineEnds && !quoted) break;
      if (character === '"') quoted = !quoted;
      if (character === this.separator && !quoted) left -= 1;
      place.line += lineEnds ? 1 : 0;
      place.column = lineEnds ? 1 : place.column + 1;
    }
    return left === 0 ? place : { file: this.file, line, column: 1 };
  }

  private *charactersFrom(offset: number): Iterable<string> {
    for (let at = offset; at < this.text.length; ) {
      const character = String.fromCodePoint(this.text.codePointAt(at) ?? 0);
      yield character;
      at += character.length;
    }
  }
}

interface RecordStart {
  readonly offset: number;
  readonly line: number;
}

function recordStarts(text: string): RecordStart[] {
  const starts: RecordStart[] = [];
  let start = { offset: 0, line: 1 };
  let line = 1;
  let quoted = false;
  let empty = true;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) quoted = !quoted;
    if (code !== NEWLINE) {
      if (code !== RETURN) empty = false;
      continue;
    }
    line += 1;
    if (quoted) continue;
    if (!empty) starts.push(start);
    start = { offset: at + 1, line };
    empty = true;
  }
  return empty ? starts : [...starts, start];
}
