import { describe, expect, it } from "vitest";
import { processTerminal } from "../../src/commands/terminal.js";

/** What a terminal writes on both streams, in order, each piece marked with its stream. */
function written({ isTTY, env = {} }: { isTTY: boolean; env?: Record<string, string> }): string[] {
  const pieces: string[] = [];
  const stream = (name: string) => ({
    write: (text: string) => pieces.push(`${name} ${JSON.stringify(text)}`),
    isTTY,
    columns: 40,
  });
  const terminal = processTerminal({ stdout: stream("out"), stderr: stream("err"), env });
  terminal.progress("Planning for waste: a plan in hand, 2 % from the best");
  terminal.progress("Planning for cost");
  terminal.print(terminal.heading("Plan"));
  terminal.progress(null);
  terminal.complain("wrong");
  return pieces;
}

describe("the terminal", () => {
  it("shows progress on stderr where a person watches, on one line that goes before anything else", () => {
    expect(written({ isTTY: true })).toEqual([
      'err "Planning for waste: a plan in hand, 2 %"',
      String.raw`err "\r\u001b[2K"`,
      'err "Planning for cost"',
      String.raw`err "\r\u001b[2K"`,
      String.raw`out "\u001b[1mPlan\u001b[22m\n"`,
      String.raw`err "wrong\n"`,
    ]);
  });

  it("shows none where nobody watches, and uses no colour there", () => {
    expect(written({ isTTY: false })).toEqual([String.raw`out "Plan\n"`, String.raw`err "wrong\n"`]);
  });

  it("uses no colour where NO_COLOR is set", () => {
    expect(written({ isTTY: true, env: { NO_COLOR: "1" } })).toContain(String.raw`out "Plan\n"`);
  });
});
