import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { chanceText, NOT_ENOUGH, orderWords, writingFor } from "../pages/index.js";
import { Decimal } from "../quantity/index.js";
import type { ExitCode } from "./exit-code.js";
import { type PlanFileOptions, planFile } from "./plan-file.js";
import { printPlan } from "./plan-text.js";
import type { Terminal } from "./terminal.js";

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
      `  falls short in ${chanceText(chanceShort, writing)} of the cases: ${expectedShort} portions missing in the mean, ${new Decimal(mostShort).ceil().toFixed()} at most in 19 of 20`,
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
