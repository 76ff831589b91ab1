import type { Position } from "./problem.js";
import type { Source } from "./source.js";

/**
 * A text that knows one end of lines, the line feed: where it has none, as on old Macs, a carriage return ends a line.
 * (YAML 1.2.2, 5.4, takes either, from memory.) Every letter stands where it did.
 */
export function withLineFeeds({ file, text }: Source): Source {
  return { file, text: text.includes("\n") ? text : text.replaceAll("\r", "\n") };
}

/** Whether text stands after so many lines. */
export function isLongerThan(text: string, lines: number): boolean {
  let end = -1;
  for (let line = 0; line < lines; line += 1) {
    end = text.indexOf("\n", end + 1);
    if (end < 0) return false;
  }
  return end + 1 < text.length;
}

/** The lines of a text, which end in line feeds: worked out at the first question, as most are never asked for. */
export class Lines {
  private starts: readonly number[] | null = null;

  constructor(private readonly source: Source) {}

  /** The line and column of an offset into the text. */
  at(offset: number): Position {
    this.starts ??= startsOf(this.source.text);
    let [low, high] = [0, this.starts.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { file: this.source.file, line: low + 1, column: offset - (this.starts[low] ?? 0) + 1 };
  }
}

function startsOf(text: string): number[] {
  const starts = [0];
  for (let end = text.indexOf("\n"); end >= 0; end = text.indexOf("\n", end + 1)) starts.push(end + 1);
  return starts;
}
