import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { counted, listed, outcomeWords, type Writing, writingFor } from "../pages/index.js";
import { grams, money, NO_WEIGHT, total, type Weight } from "../quantity/index.js";
import type { Terminal } from "./terminal.js";

const LABEL_WIDTH = 8;

/** Prints the plan as a cook reads it: buy, cut, cook, what is used and wasted, what it costs, how good it is. */
export function printPlan(plan: PlanJson, scenario: Scenario, terminal: Terminal): void {
  const writing = writingFor(scenario);
  const words = outcomeWords(plan, writing);
  terminal.print(terminal.heading(plan.scenario));
  if (plan.outcome.kind !== "optimal" && plan.outcome.kind !== "feasible") {
    printNoPlan(plan, terminal);
    return;
  }
  const blocks: [string, string[]][] = [
    ["Buy", purchases(plan, scenario, writing)],
    ["Cut", cuts(plan, scenario, writing)],
    ["Cook", dishes(plan, writing)],
    ["Use", [usedAndWasted(plan, writing), restOfWeight(plan, writing)]],
    ["Spend", [spending(plan, writing)]],
    ["Proof", [`${words.headline}. ${words.small}`]],
    ["Mind", plan.warnings.map(({ text, source }) => `${text} (${source})`)],
  ];
  for (const [label, lines] of blocks) printBlock(label, lines, terminal);
}

function printNoPlan({ outcome, reasons }: PlanJson, terminal: Terminal): void {
  if (outcome.kind !== "infeasible") {
    terminal.print(`No answer: ${outcome.stoppedBy ?? outcome.kind}. Allow more time with --seconds.`);
    return;
  }
  terminal.print("No plan keeps to everything the scenario asks for; both solver runs agree.");
  if (reasons.length > 0) terminal.print("Any one of these would make a plan possible:");
  for (const { text, checked } of reasons) terminal.print(`  - ${text} (${checked})`);
}

function printBlock(label: string, lines: readonly string[], terminal: Terminal): void {
  lines.forEach((line, index) => {
    const head = (index === 0 ? label : "").padEnd(LABEL_WIDTH);
    terminal.print(`${terminal.heading(head)}${line.replaceAll("\u00a0", " ")}`);
  });
}

function purchases(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  if (plan.purchases.length === 0) return ["nothing: all of it is in the house"];
  return plan.purchases.map(({ item, form, service, units, orderUnit, weight, cost }) => {
    const what = form === "" ? item : `${item}, ${form}`;
    const when = scenario.services.length > 1 ? `, for ${service}` : "";
    return `${counted(writing, units, orderUnit)} ${what}: ${writing.weight(grams(weight))}, ${writing.money(money(cost))}${when}`;
  });
}

function cuts(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  const lines = scenario.services.flatMap(({ name }) => {
    const here = plan.cuts.filter(({ service }) => service === name);
    if (here.length === 0) return [];
    const each = here.map(({ item, breakdown, units, weight }) => {
      const unit = scenario.items.find((other) => other.name === item)?.unitName ?? "unit";
      const amount = units === null ? writing.weight(grams(weight)) : counted(writing, units, unit);
      return `${amount} ${unit === item ? "" : `${item} `}in ${breakdown}`;
    });
    return [`${name}: ${listed(each)}`];
  });
  return lines.length > 0 ? lines : ["nothing"];
}

function dishes(plan: PlanJson, writing: Writing): string[] {
  return plan.dishes.map(({ dish, service, portions, spare, costPerPortion, ceiling }) => {
    const limit = ceiling === null ? "no ceiling" : `ceiling ${writing.money(money(ceiling))}`;
    const over = spare === 0 ? "" : `, ${writing.count(spare)} of them spare`;
    return `${service}: ${counted(writing, portions, "portion")} ${dish}${over}, ${writing.money(money(costPerPortion))} each (${limit})`;
  });
}

function usedAndWasted({ weights }: PlanJson, writing: Writing): string {
  const wasted = grams(weights.wastedFood);
  const used = total([weights.inDishes, weights.givenAway, weights.closingStock].map(grams));
  const usable = total([used, wasted]);
  return `${writing.weight(used)} of ${writing.weight(usable)} usable (${writing.percent(used, usable)}); waste ${writing.weight(wasted)} (${writing.percent(wasted, usable)})`;
}

function restOfWeight({ weights }: PlanJson, writing: Writing): string {
  const parts: [string, Weight][] = [
    ["given away", grams(weights.givenAway)],
    ["kept past the plan", grams(weights.closingStock)],
    ["inedible", grams(weights.inedible)],
    ["lost as juice, drip and steam", grams(weights.losses)],
  ];
  const shown = parts.filter(([, weight]) => weight !== NO_WEIGHT);
  return shown.length === 0
    ? "nothing inedible, nothing lost"
    : listed(shown.map(([name, weight]) => `${writing.weight(weight)} ${name}`));
}

function spending({ money: sums }: PlanJson, writing: Writing): string {
  return `${writing.money(money(sums.spent))}, of it ${writing.money(money(sums.wasted))} wasted`;
}
