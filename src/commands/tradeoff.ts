import type { TradeoffJson } from "../contract/index.js";
import { composeTradeoff, tradeoffCurve } from "../insight/index.js";
import type { Scenario } from "../kitchen/index.js";
import {
  changeText,
  completeText,
  spendHead,
  tradeoffPage,
  tradeoffSums,
  wasteLine,
  writingFor,
} from "../pages/index.js";
import { askedLine, planningWith } from "../planning/index.js";
import { grams, money } from "../quantity/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";

export interface TradeoffCommandOptions {
  readonly plans: number;
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

const INDENT = " ".repeat(6);

/** `tradeoff FILE`: prints the plans that no other beats on waste and spend, or as JSON, and writes their page where asked. */
export function tradeoffCommand(
  file: string,
  options: TradeoffCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (scenario, engines) => {
    const { plans, seconds, json, out } = options;
    const began = performance.now();
    const result = await tradeoffCurve(scenario, planningWith(engines), {
      plans,
      seconds,
      onProgress: (asked) => terminal.progress(askedLine(asked, began, seconds)),
    });
    terminal.progress(null);
    const tradeoff = composeTradeoff(scenario, result);
    if (json === true) terminal.print(JSON.stringify(tradeoff, null, 2));
    else printTradeoff(tradeoff, scenario, terminal);
    if (tradeoff.outcome === "no answer") return EXIT.noAnswer;
    if (out !== undefined)
      writePages(out, [tradeoffPage(tradeoff, scenario)], json === true ? terminal.complain : terminal.print);
    return tradeoff.outcome === "curve" ? EXIT.plan : EXIT.noPlan;
  });
}

function printTradeoff(tradeoff: TradeoffJson, scenario: Scenario, terminal: Terminal): void {
  const writing = writingFor(scenario);
  const { outcome, stoppedBy, plans } = tradeoff;
  terminal.print(terminal.heading(tradeoff.scenario));
  if (outcome === "no plan") {
    terminal.print(
      "This can't be done as it stands; that is proved. `plan` says what would make a plan possible.",
    );
    return;
  }
  if (outcome === "no answer") {
    terminal.print(`No answer: ${stoppedBy ?? "no plan was found"}. Allow more time with --seconds.`);
    return;
  }
  plans.forEach((plan, index) => {
    const figures = `waste ${writing.weight(grams(plan.waste))}, ${spendHead(scenario).toLowerCase()} ${writing.money(money(plan.netSpend))}`;
    const sums = tradeoffSums(plan, plans[index - 1], scenario, writing);
    const besides = wasteLine(cooksWasteOf(plan.plan), writing);
    const lines = [
      `${figures}${plan.proved ? "" : " (best found, not proved)"}`,
      ...[besides, sums].filter((line) => line !== ""),
      ...plan.changes.map((change) => changeText(change, writing)),
    ];
    lines.forEach((line, at) => {
      const first = at === 0 ? terminal.heading(`${index + 1}.`.padEnd(4)) : INDENT;
      for (const each of wrapped(line, terminal.columns - INDENT.length, first, `${INDENT}  `))
        terminal.print(each);
    });
  });
  for (const each of wrapped(completeText(tradeoff, writing), terminal.columns, "", "")) terminal.print(each);
}
