import type { PlanJson } from "../contract/index.js";
import { keepPlan } from "../keeping/index.js";
import { readKeptPlan } from "../kitchen-files/index.js";
import { replanPage, replanText, writingFor } from "../pages/index.js";
import { progressLine, type Replanned, replan } from "../planning/index.js";
import { problemLines, problemText } from "../reading/index.js";
import { planFile, textAt } from "../records/index.js";
import { answering, writePages } from "./answering.js";
import { exitCodeOf } from "./plan.js";
import { printPlan } from "./plan-text.js";
import { EXIT, type ExitCode, type Terminal, wrapped } from "./terminal.js";

export interface ReplanCommandOptions {
  readonly happened: string;
  readonly seconds: number;
  readonly json?: boolean;
  readonly keep?: boolean;
  readonly out?: string;
}

/** `replan FILE --happened HAPPENED`: plans the rest of the kept plan anew, and prints what changes. */
export function replanCommand(
  file: string,
  options: ReplanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, out: options.out }, terminal, async (now, engines) => {
    const { happened, seconds } = options;
    const text = await textAt(happened);
    const kept = await readKeptPlan(file, now);
    for (const line of problemLines(kept.problems)) terminal.complain(line);
    if (text === null)
      terminal.complain(
        `${happened}: it is not there, or may not be read. Write the path of a file of what happened`,
      );
    else if (typeof text !== "string") terminal.complain(problemText(text));
    if (typeof text !== "string" || kept.kept === null) return EXIT.wrongInput;
    const before = kept.kept.plan;
    const source = { file: happened, text };
    const { replanned, problems } = await replan({ plan: before, file: planFile(file) }, now, source, {
      engines,
      seconds,
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
    });
    terminal.progress(null);
    for (const line of problemLines(problems)) terminal.complain(line);
    return replanned === null ? EXIT.wrongInput : show(file, before, replanned, options, terminal);
  });
}

async function show(
  file: string,
  before: PlanJson,
  replanned: Replanned,
  { json, keep, out }: ReplanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { plan, scenario, rest, overCeiling, changes } = replanned;
  if (plan === null) {
    printPlan(rest.plan, rest.scenario, terminal);
    return exitCodeOf(rest.plan);
  }
  const from = rest.scenario.services[0]?.name ?? "";
  const words = replanText(before, plan, { from, overCeiling, changes }, writingFor(scenario));
  if (json === true) {
    const all = { plan, changes: changes.plan, goings: changes.goings };
    terminal.print(JSON.stringify(all, null, 2));
  } else {
    terminal.print(terminal.heading(plan.scenario));
    for (const line of [words.headline, ...words.changes.map((change) => `- ${change}`), ...words.notes])
      for (const each of wrapped(line, terminal.columns, "", "  ")) terminal.print(each);
  }
  const say = json === true ? terminal.complain : terminal.print;
  if (out !== undefined) writePages(out, [replanPage(words, scenario)], say);
  if (keep !== true) return EXIT.plan;
  const { kept, problems } = await keepPlan(file, plan, scenario, before);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (kept === null) return EXIT.wrongInput;
  say(`Kept: ${kept.plan}`);
  return EXIT.plan;
}
