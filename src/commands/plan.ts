import type { EngineName } from "../allocation/index.js";
import { hasPlan, type PlanJson } from "../contract/index.js";
import type { RiskOptions } from "../insight/index.js";
import { keepPlan } from "../keeping/index.js";
import type { Aim, Scenario } from "../kitchen/index.js";
import { chanceText, NOT_ENOUGH, orderWords, renderPages, writingFor } from "../pages/index.js";
import {
  type Planned,
  type PlanOptions,
  planCautiously,
  planScenario,
  progressLine,
} from "../planning/index.js";
import { Decimal } from "../quantity/index.js";
import { problemLines } from "../reading/index.js";
import { answering, writePages } from "./answering.js";
import { printPlan, printProofOfNone, printReasons } from "./plan-text.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";

export interface PlanCommandOptions extends PlanFileOptions {
  readonly json?: boolean;
  /** Keep the plan beside its scenario, with a weigh-in to fill in. */
  readonly keep?: boolean;
}

/** `plan FILE`: prints the plan, or as JSON, and writes its pages where asked. */
export async function planCommand(
  file: string,
  options: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const made: Planned[] = [];
  let isProofSaid = false;
  const isShownInFull = options.json === true || options.keep === true || options.out !== undefined;
  // What is printed does not say how sure the plan is.
  const asked = isShownInFull ? { ...options, risk: {} } : options;
  const code = await planFile(file, asked, terminal, {
    plan: (planned) => {
      made.push(planned);
      if (isProofSaid) printReasons(planned.plan, terminal);
      else printed(planned, options, terminal);
      pagesOf(planned, options, terminal);
    },
    noPlan: ({ plan }) => {
      if (options.json === true) return;
      printProofOfNone(plan, terminal);
      isProofSaid = true;
    },
  });
  const [planned] = made;
  if (options.keep !== true || planned === undefined || code !== EXIT.plan) return code;
  return keep(file, planned, options, terminal);
}

/** Keeps the plan beside its scenario; what is weighed already is not written over. */
async function keep(
  file: string,
  { plan, scenario }: Planned,
  { json }: PlanCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { kept, problems } = await keepPlan(file, plan, scenario);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (kept === null) return EXIT.wrongInput;
  const say = json === true ? terminal.complain : terminal.print;
  say(`Kept: ${kept.plan}`);
  say(`After service fill in ${kept.weighIn}, then: trim-to-use weigh-in ${file}`);
  return EXIT.plan;
}

function printed({ plan, scenario }: Planned, { json }: PlanCommandOptions, terminal: Terminal): void {
  if (json === true) terminal.print(JSON.stringify(plan, null, 2));
  else printPlan(plan, scenario, terminal);
}

function pagesOf({ plan, scenario }: Planned, { json, out }: PlanCommandOptions, terminal: Terminal): void {
  if (out === undefined || exitCodeOf(plan) === EXIT.noAnswer) return;
  writePages(out, renderPages(plan, scenario), json === true ? terminal.complain : terminal.print);
}

export interface RiskCommandOptions extends Omit<PlanFileOptions, "risk"> {
  readonly seed: number;
  readonly draws: number;
  readonly json?: boolean;
}

/** `risk FILE`: plans it, and says of every dish how sure it is and what more to buy to be surer. */
export async function riskCommand(
  file: string,
  { seed, draws, json, ...options }: RiskCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return planFile(file, { ...options, risk: { seed, draws } }, terminal, {
    plan: ({ plan, scenario }) => {
      if (plan.risk === null) printPlan(plan, scenario, terminal);
      else if (json === true) terminal.print(JSON.stringify(plan.risk, null, 2));
      else printRisk(plan.risk, scenario, terminal);
    },
  });
}

function printRisk(
  { draws, seed, dishes }: NonNullable<PlanJson["risk"]>,
  scenario: Scenario,
  terminal: Terminal,
) {
  const writing = writingFor(scenario);
  const rate = (chance: string): string => writing.rate(new Decimal(chance));
  terminal.print(terminal.heading(scenario.name));
  terminal.print(
    `Cut and served again ${writing.count(draws)} times with other weights and yields (seed ${seed}).`,
  );
  for (const { dish, service, portions, chanceShort, expectedShort, mostShort, more } of dishes) {
    terminal.print("");
    terminal.print(`${dish}, ${service}, ${writing.count(portions)} portions`);
    terminal.print(
      `  falls short in ${chanceText(new Decimal(chanceShort), writing)} of the cases: ${expectedShort} portions missing in the mean, ${new Decimal(mostShort).ceil().toFixed()} at most in 19 of 20`,
    );
    for (const { chance, units } of more) {
      const what =
        units === null
          ? NOT_ENOUGH
          : units
              .map(({ item, units: count, orderUnit }) => orderWords(item, count, orderUnit, writing))
              .join(", ") || "as planned";
      terminal.print(`  ${rate(chance)} sure: ${what}${units?.length ? " more" : ""}`);
    }
  }
}

export interface PlanFileOptions {
  readonly aim?: Aim;
  /** From the start of the program, `begun` seconds before the call. */
  readonly seconds: number;
  readonly begun?: number;
  readonly engine?: EngineName;
  readonly risk?: RiskOptions;
  /** Plan so that every dish is there in full in so many of a hundred cases. */
  readonly cautious?: number;
  /** A folder that pages are to be written to. */
  readonly out?: string;
}

/** What a plan is shown with: the plan as it is made, and before that the proof that there is none. */
export interface Shown {
  readonly plan: (planned: Planned) => void;
  readonly noPlan?: (proved: Planned) => void;
}

/** Plans a scenario file and hands the plan on; input that is wrong is complained of instead. */
export async function planFile(
  file: string,
  { aim, seconds, begun = 0, engine, out, cautious, risk }: PlanFileOptions,
  terminal: Terminal,
  show: Shown,
): Promise<ExitCode> {
  return answering({ file, aim, out }, terminal, async (scenario, engines, spent) => {
    const options: PlanOptions = {
      engines,
      seconds: Math.max(0, seconds - begun - spent()),
      ...(risk === undefined ? {} : { risk: { seconds, ...risk } }),
      ...(engine === undefined ? {} : { engine }),
      onProgress: (progress) => terminal.progress(progressLine(progress, seconds)),
      onNoPlan: (proved) => {
        show.noPlan?.(proved);
        terminal.progress(`Looking for what would make it possible; at most ${seconds} s in all`);
      },
    };
    const planned = await (cautious === undefined
      ? planScenario(scenario, options)
      : planCautiously(scenario, { ...options, level: cautious / 100 }));
    terminal.progress(null);
    show.plan(planned);
    return exitCodeOf(planned.plan);
  });
}

/** 0 for a plan, 1 where it is proved that there is none, 3 where there is no answer. */
export function exitCodeOf(plan: PlanJson): ExitCode {
  if (hasPlan(plan)) return EXIT.plan;
  return plan.outcome.kind === "infeasible" ? EXIT.noPlan : EXIT.noAnswer;
}
