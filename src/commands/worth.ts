import type { WorthJson } from "../contract/index.js";
import { worthOf } from "../insight/index.js";
import type { Scenario } from "../kitchen/index.js";
import { worthData, worthPage } from "../pages/index.js";
import { askedLine, planningWith } from "../planning/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";

export interface WorthCommandOptions {
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

/** `worth FILE`: prints what each dish, item and part is worth, or as JSON, and writes their page where asked. */
export function worthCommand(
  file: string,
  options: WorthCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (scenario, engines) => {
    const { seconds, json, out } = options;
    const began = performance.now();
    const worth = await worthOf(scenario, planningWith(engines), {
      seconds,
      onProgress: (asked) => terminal.progress(askedLine(asked, began, seconds)),
    });
    terminal.progress(null);
    if (json === true) terminal.print(JSON.stringify(worth, null, 2));
    else printWorth(worth, scenario, terminal);
    if (worth.outcome === "no answer") return EXIT.noAnswer;
    if (out !== undefined)
      writePages(out, [worthPage(worth, scenario)], json === true ? terminal.complain : terminal.print);
    return worth.outcome === "worth" ? EXIT.plan : EXIT.noPlan;
  });
}

function printWorth(worth: WorthJson, scenario: Scenario, terminal: Terminal): void {
  const { lead, dishes, candidates, items, parts, small } = worthData(worth, scenario);
  const print = (indent: string, text: string): void => {
    for (const line of wrapped(text, terminal.columns - indent.length, indent, `${indent}  `))
      terminal.print(line);
  };
  const entry = (
    name: string,
    sub: string,
    figures: readonly (readonly [string, readonly string[]])[],
  ): void => {
    print("  ", sub === "" ? name : `${name}: ${sub}`);
    for (const [what, lines] of figures)
      if (lines.length > 0) print("      ", `${what}: ${lines.join(", ")}`);
  };
  const block = (head: string, entries: readonly (() => void)[]): void => {
    if (entries.length === 0) return;
    terminal.print(terminal.heading(head));
    for (const each of entries) each();
  };
  terminal.print(terminal.heading(worth.scenario));
  print("", lead);
  block(
    "Dishes",
    dishes.map(({ name, sub, without, purchases, more, less }) => () => {
      entry(name, sub, [
        ["left out", [...without, ...purchases]],
        ["a portion more", more],
        ["a portion less", less],
      ]);
    }),
  );
  block(
    "Dishes the plan leaves out",
    candidates.map(
      ({ name, made, purchases }) =>
        () =>
          entry(name, "", [["made", [...made, ...purchases]]]),
    ),
  );
  block(
    "Items",
    items.map(({ name, sub, more, less }) => () => {
      entry(name, sub, [
        ["one more", more],
        ["one less", less],
      ]);
    }),
  );
  block(
    "Parts",
    parts.map(({ name, sub, step, more, less }) => () => {
      entry(name, sub, [
        [`${step} more`, more],
        [`${step} less`, less],
      ]);
    }),
  );
  if (small !== "") print("", small);
}
