import type { Terminal } from "../../src/commands/terminal.js";

/** A terminal that keeps what it is told, without colours. */
export function aTerminal(columns = 80): { terminal: Terminal; printed: string[]; complained: string[] } {
  const printed: string[] = [];
  const complained: string[] = [];
  const terminal: Terminal = {
    print: (line) => printed.push(line),
    complain: (line) => complained.push(line),
    progress: () => {},
    heading: (text) => text,
    columns,
  };
  return { terminal, printed, complained };
}
