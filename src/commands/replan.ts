import { readFile } from "node:fs/promises";
import { keepPlan, readKeptPlan } from "../after-service.js";
import type { PlanJson } from "../contract/index.js";
import { changesBetween } from "../insight/index.js";
import type { Scenario } from "../kitchen/index.js";
import { changeText, replanPage, replanText, writingFor } from "../pages/index.js";
import { progressLine } from "../progress-line.js";
import { problemText } from "../reading/index.js";
import { planFile } from "../records/index.js";
import { type Replanned, replan } from "../replan.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { exitCodeOf } from "./plan-file.js";
import { printPlan } from "./plan-text.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";

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
    const text = await readFile(happened, "utf8").catch(() => null);
    const kept = await readKeptPlan(file, now);
    for (const problem of kept.problems) terminal.complain(problemText(problem));
    if (text === null)
      terminal.complain(
        `${happened}: it is not there, or may not be read. Write the path of a file of what happened`,
      );
    if (text === null || kept.kept === null) return EXIT.wrongInput;
    const before = kept.kept.plan;
    const source = { file: happened, text };
    const { replanned, problems } = await replan({ plan: before, file: planFile(file) }, now, source, {
      engines,
      seconds,
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
    });
    terminal.progress(null);
    for (const problem of problems) terminal.complain(problemText(problem));
    return replanned === null ? EXIT.wrongInput : show(file, now, before, replanned, options, terminal);
  });
}

async function show(
  file: string,
  now: Scenario,
  before: PlanJson,
  { plan, scenario, rest, overCeiling }: Replanned,
  { json, keep, out }: ReplanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  if (plan === null) {
    printPlan(rest.plan, rest.scenario, terminal);
    return exitCodeOf(rest.plan);
  }
  const still = rest.scenario.services.map(({ name }) => name);
  const changes = changesBetween(onlyAt(still, before), onlyAt(still, plan), scenario);
  const writing = writingFor(scenario);
  const words = replanText(
    before,
    plan,
    changes.map((change) => changeText(change, writing)),
    { from: still[0] ?? "", overCeiling, covers: newCovers(now, scenario) },
    writing,
  );
  if (json === true) terminal.print(JSON.stringify({ plan, changes }, null, 2));
  else {
    terminal.print(terminal.heading(plan.scenario));
    for (const line of [words.headline, ...words.changes.map((change) => `- ${change}`), ...words.notes])
      for (const each of wrapped(line, terminal.columns, "", "  ")) terminal.print(each);
  }
  const say = json === true ? terminal.complain : terminal.print;
  if (out !== undefined) writePages(out, [replanPage(words, scenario)], say);
  if (keep !== true) return EXIT.plan;
  const { kept, problems } = await keepPlan(file, plan, scenario);
  for (const problem of problems) terminal.complain(problemText(problem));
  if (kept === null) return EXIT.wrongInput;
  say(`Kept: ${kept.plan}`);
  return EXIT.plan;
}

function newCovers(now: Scenario, { services }: Scenario): string[] {
  return services.flatMap(({ name, covers }, index) =>
    now.services[index]?.covers === covers ? [] : [`${name} ${covers}`],
  );
}

/** What of a plan is bought, cut and cooked for these services. */
function onlyAt(services: readonly string[], plan: PlanJson): PlanJson {
  const isThere = ({ service }: { readonly service: string }): boolean => services.includes(service);
  return {
    ...plan,
    purchases: plan.purchases.filter(isThere),
    cuts: plan.cuts.filter(isThere),
    dishes: plan.dishes.filter(isThere),
  };
}
