import type { ExitCode } from "../exit-code.js";
import type { Terminal } from "../terminal.js";

/** What every command is run with. */
export interface Run {
  readonly terminal: Terminal;
  /** Takes the exit code a command ends with. */
  readonly end: (code: ExitCode) => void;
  /** Seconds since the program was started. */
  readonly begun: () => number;
  /** Settles when the program is told to stop. */
  readonly untilStopped: () => Promise<void>;
}
