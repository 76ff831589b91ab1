import { decodePlan, type Plan, type PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import {
  amountOf,
  cautiousWords,
  counted,
  type Ends,
  endsAsPrinted,
  listed,
  outcomeWords,
  roundingWords,
  type Writing,
  wasteFigures,
  wasteText,
  writingFor,
} from "../pages/index.js";
import { grams, money, NO_MONEY, NO_WEIGHT, total, type Weight } from "../quantity/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import { type Terminal, wrapped } from "./terminal.js";

const LABEL_WIDTH = 8;

/** Prints the plan as a cook reads it: buy, cut, cook, what is used and wasted, what it costs, how good it is. */
export function printPlan(plan: PlanJson, scenario: Scenario, terminal: Terminal): void {
  if (plan.outcome.kind === "infeasible") {
    printProofOfNone(plan, terminal);
    printReasons(plan, terminal);
    return;
  }
  terminal.print(terminal.heading(plan.scenario));
  if (plan.outcome.kind !== "optimal" && plan.outcome.kind !== "feasible") {
    printNoAnswer(plan, terminal);
    return;
  }
  const writing = writingFor(scenario);
  const decoded = decodePlan(plan);
  const ends = endsAsPrinted(decoded, scenario.scaleStep);
  const blocks: [string, string[]][] = [
    ["Buy", purchases(plan, scenario, writing)],
    ["Cut", cuts(plan, scenario, writing)],
    ["Cook", dishes(plan, scenario, writing)],
    ["Use", [usedAndWasted(ends, writing), restOfWeight(ends, writing)]],
    ["Waste", besidesWasted(decoded, writing)],
    ["Spend", [spending(decoded, writing)]],
    ["Proof", [proof(decoded, writing)]],
    ["Sure", cautiousWords(decoded, writing)],
    ["Mind", plan.warnings.map(({ text, source }) => (text.includes(source) ? text : `${text} (${source})`))],
  ];
  for (const [label, lines] of blocks) printBlock(label, lines, terminal);
}

function printNoAnswer({ outcome }: PlanJson, terminal: Terminal): void {
  if (outcome.kind === "unbounded") {
    terminal.print("No least: something in it can be had without end and without cost. State a most.");
    return;
  }
  const why = outcome.stoppedBy ?? "the solver gave none";
  terminal.print(
    `No answer: ${why}.${outcome.stopCode === "time" ? " Allow more time with --seconds." : ""}`,
  );
}

/** That there is no plan, which may be known long before what would make one possible. */
export function printProofOfNone({ scenario }: PlanJson, terminal: Terminal): void {
  terminal.print(terminal.heading(scenario));
  terminal.print("This can't be done as it stands; that is proved.");
}

/** What would make a plan possible. */
export function printReasons({ reasons, reasonsCut }: PlanJson, terminal: Terminal): void {
  if (reasons.length > 0) terminal.print("Any one of these would do:");
  for (const { text, checked } of reasons)
    for (const line of wrapped(`${text} (${checked})`, terminal.columns - 4, "  - ", "    "))
      terminal.print(line);
  if (reasonsCut === true)
    terminal.print(
      `The time was over before ${reasons.length === 0 ? "anything that would do was found" : "all that would do was looked for"}. Allow more with --seconds.`,
    );
}

function printBlock(label: string, lines: readonly string[], terminal: Terminal): void {
  const width = terminal.columns - LABEL_WIDTH;
  lines.forEach((line, index) => {
    const head = terminal.heading((index === 0 ? label : "").padEnd(LABEL_WIDTH));
    for (const each of wrapped(line, width, head, " ".repeat(LABEL_WIDTH + 2))) terminal.print(each);
  });
}

function purchases(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  if (plan.purchases.length === 0) return ["nothing: all of it is in the house"];
  const lines = plan.purchases.map(({ item, form, service, units, orderUnit, weight, cost }) => {
    const what = [amountOf(writing, units, orderUnit, item), form].filter((each) => each !== "").join(", ");
    const when = scenario.services.length > 1 ? `, for ${service}` : "";
    return `${what}: ${writing.weight(grams(weight))}, ${writing.money(money(cost))}${when}`;
  });
  return [...lines, ...deliveries(plan, scenario, writing)];
}

/** What suppliers charge for deliveries, one line each. */
function deliveries(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  return (scenario.suppliers ?? []).flatMap(({ name }) => {
    const items = scenario.items.filter(({ supplier }) => supplier === name).map((item) => item.name);
    return scenario.services.flatMap((service) => {
      const here = plan.purchases.filter(
        (each) => items.includes(each.item) && each.service === service.name,
      );
      const charge = total(here.map(({ delivery }) => (delivery === undefined ? NO_MONEY : money(delivery))));
      const when = scenario.services.length > 1 ? `, for ${service.name}` : "";
      return charge === NO_MONEY ? [] : [`Delivery from ${name}: ${writing.money(charge)}${when}`];
    });
  });
}

function cuts(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  const unitOf = (item: string) => scenario.items.find(({ name }) => name === item)?.unitName ?? "unit";
  const lines = byService(plan.cuts, scenario, ({ item, breakdown, units, weight }) => {
    const weighed = `${writing.weight(grams(weight))} of ${item}`;
    return `${units === null ? weighed : amountOf(writing, units, unitOf(item), item)}: ${breakdown}`;
  });
  return lines.length > 0 ? lines : ["nothing"];
}

function dishes(plan: PlanJson, scenario: Scenario, writing: Writing): string[] {
  return byService(plan.dishes, scenario, ({ dish, portions, spare, costPerPortion, ceiling }) => {
    const over = spare === 0 ? "" : `, ${writing.count(spare)} of them spare,`;
    const limit = ceiling === null ? "" : ` (ceiling ${writing.money(money(ceiling))})`;
    return `${counted(writing, portions, "portion")} of ${dish}${over} at ${writing.money(money(costPerPortion))}${limit}`;
  });
}

/** One line a service, in the scenario's order. */
function byService<Entry extends { service: string }>(
  entries: readonly Entry[],
  { services }: Scenario,
  text: (entry: Entry) => string,
): string[] {
  return services.flatMap(({ name }) => {
    const here = entries.filter(({ service }) => service === name).map(text);
    return here.length === 0 ? [] : [services.length > 1 ? `${name}: ${here.join("; ")}` : here.join("; ")];
  });
}

function usedAndWasted(ends: Ends, writing: Writing): string {
  const { wastedFood: wasted, inDishes, givenAway, closingStock } = ends;
  const used = total([inDishes, givenAway, closingStock]);
  const usable = total([used, wasted]);
  return `${writing.weight(used)} of ${writing.weight(usable)} usable (${writing.percent(used, usable)}); wasted food ${writing.weight(wasted)} (${writing.percent(wasted, usable)})`;
}

/** What a cook may call waste beside wasted food, and what counts of it. */
function besidesWasted(plan: Plan, writing: Writing): string[] {
  const [, ...figures] = wasteFigures(cooksWasteOf(plan), writing);
  return figures.map((figure) => wasteText(figure, writing));
}

function restOfWeight({ closingStock, inedible, losses }: Ends, writing: Writing): string {
  const parts: [string, Weight][] = [
    ["kept past the plan", closingStock],
    ["inedible", inedible],
    ["lost as juice, drip and steam", losses],
  ];
  const shown = parts.filter(([, weight]) => weight !== NO_WEIGHT);
  return shown.length === 0
    ? "nothing inedible, nothing lost"
    : listed(shown.map(([name, weight]) => `${writing.weight(weight)} ${name}`));
}

function spending({ money: sums }: Plan, writing: Writing): string {
  return `${writing.money(sums.spent)}, of it ${writing.money(sums.wasted)} wasted`;
}

function proof(plan: Plan, writing: Writing): string {
  const { engine, seconds, stoppedBy } = plan.outcome;
  const stopped = stoppedBy === null ? "" : `, stopped by ${stoppedBy}`;
  const rounded = roundingWords(plan, writing);
  return `${outcomeWords(plan, writing).headline}${rounded === "" ? "" : `, ${rounded}`} (solver ${engine}, ${seconds.toFixed(2)} s${stopped})`;
}
