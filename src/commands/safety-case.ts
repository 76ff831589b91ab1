import { safetyCasePage } from "../pages/index.js";
import { DEFERENCE, hazards, NOT_JUDGED, SAFETY_RULES } from "../safety/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode, type Terminal, wrapped } from "./terminal.js";
import { folderObstacle } from "./write-folder.js";

/** `safety-case`: every rule of safety in a line or two, and all of it as a page where asked. */
export function safetyCaseCommand({ out }: { readonly out?: string }, terminal: Terminal): ExitCode {
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) {
    terminal.complain(obstacle);
    return EXIT.wrongInput;
  }
  const rows = hazards().length;
  const say = (text: string, indent: string): void => {
    for (const line of wrapped(text, terminal.columns - indent.length, indent, indent)) terminal.print(line);
  };
  for (const { id, rule, source } of SAFETY_RULES) {
    terminal.print(terminal.heading(id));
    say(`${rule} Source: ${source}.`, "  ");
  }
  terminal.print(terminal.heading(`Table of hazards: ${rows} rows`));
  terminal.print(terminal.heading("Not judged"));
  for (const text of NOT_JUDGED) say(text, "  ");
  say(DEFERENCE, "");
  if (out !== undefined) writePages(out, [safetyCasePage({})], terminal.print);
  return EXIT.plan;
}
