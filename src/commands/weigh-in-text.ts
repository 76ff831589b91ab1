import type { PlanJson } from "../contract/index.js";
import { type Writing, writingFor } from "../pages/index.js";
import { grams, type Money, minus, money, toCurrency, total, type Weight } from "../quantity/index.js";
import {
  type Difference,
  dishDifferences,
  endDifferences,
  gaveDifferences,
  type Happened,
} from "../weigh-in/index.js";
import type { Terminal } from "./terminal.js";

/** Prints what happened against the plan: by part, by dish, where the rest went, and both balances. */
export function printHappened(planned: PlanJson, happened: Happened, terminal: Terminal): void {
  const writing = writingFor(happened.scenario);
  const { plan } = happened;
  terminal.print(terminal.heading(`${plan.scenario}: what happened`));
  terminal.print(sharedWeighed(plan));
  table("By part", [...partLines(happened, writing)], writing, terminal);
  table("By dish", [...dishLines(planned, happened, writing)], writing, terminal);
  const ends = endDifferences(happened, planned).map(
    ({ account, planned: before, actual: after, weighed, reasons }): Line => [
      endName(account),
      writing.shown(before.weight),
      writing.shown(after.weight),
      signed(minus(after.weight, before.weight), writing),
      notes(weighed, [...(after.cost === 0n ? [] : [writing.money(after.cost)]), ...reasons]),
    ],
  );
  table("Left, lost and away", ends, writing, terminal);
  terminal.print("");
  for (const line of balanceLines(planned, plan, writing)) terminal.print(line.replaceAll("\u00a0", " "));
}

function sharedWeighed({ weighIn }: PlanJson): string {
  const { figures = 0, weighed = 0 } = weighIn ?? {};
  const percent = figures === 0 ? 0 : Math.floor((100 * weighed) / figures);
  return `${weighed} of ${figures} figures were weighed, counted or billed (${percent} %); the others are marked "not weighed".`;
}

/** Name, planned, actual, difference, note. */
type Line = readonly [string, string, string, string, string];

function* partLines(happened: Happened, writing: Writing): Generator<Line> {
  for (const { name, from, taken, gave } of gaveDifferences(happened)) {
    yield line(from === "" ? name : `${name} (${from})`, taken, writing);
    for (const part of gave) yield line(`  ${part.name}`, part, writing, taken);
  }
}

function line(name: string, difference: Difference, writing: Writing, of?: Difference): Line {
  const { planned, actual, weighed, reasons } = difference;
  const percent =
    of === undefined
      ? []
      : [`${writing.percent(actual, of.actual)}, planned ${writing.percent(planned, of.planned)}`];
  return [
    name,
    writing.shown(planned),
    writing.shown(actual),
    signed(minus(actual, planned), writing),
    notes(weighed, [...percent, ...reasons]),
  ];
}

function* dishLines(planned: PlanJson, happened: Happened, writing: Writing): Generator<Line> {
  const names = happened.scenario.services.map(({ name }) => name);
  for (const { dish, service, portions, cost, parts, reasons } of dishDifferences(happened, planned, names)) {
    const where = names.length > 1 ? `, ${service}` : "";
    yield [
      `${dish}${where}, portions`,
      writing.count(portions.planned),
      writing.count(portions.actual),
      portions.actual === portions.planned ? "" : signedCount(portions.actual - portions.planned, writing),
      notes(
        portions.weighed,
        [`${each(cost.actual, portions.actual, writing)} each`, ...reasons],
        "not counted",
      ),
    ];
    for (const part of parts) yield line(`  ${part.name}`, part, writing);
  }
}

function each(cost: Money, portions: number, writing: Writing): string {
  return writing.money(portions === 0 ? cost : money(toCurrency(cost).div(portions)));
}

function notes(weighed: boolean, others: readonly string[], unless = "not weighed"): string {
  return [...(weighed ? [] : [unless]), ...others].join("; ");
}

function signed(difference: Weight, writing: Writing): string {
  if (difference === 0n) return "";
  return difference > 0n ? `+${writing.shown(difference)}` : writing.shown(difference);
}

function signedCount(difference: number, writing: Writing): string {
  return difference > 0 ? `+${writing.count(difference)}` : writing.count(difference);
}

function endName(account: string): string {
  const words: Readonly<Record<string, string>> = {
    givenAway: "given away",
    wastedFood: "wasted food",
    inedible: "inedible",
    closingStock: "kept past the plan",
    loss: "loss",
  };
  const [kind = "", name = ""] = account.split(":");
  return name === "" ? (words[kind] ?? kind) : `${name}, ${words[kind] ?? kind}`;
}

function table(caption: string, lines: readonly Line[], { unit }: Writing, terminal: Terminal): void {
  const head: Line = [caption, `planned, ${unit}`, `actual, ${unit}`, "difference", ""];
  const all = [head, ...lines];
  const width = (column: 0 | 1 | 2 | 3) => Math.max(...all.map((each) => each[column].length));
  const widths = [width(0), width(1), width(2), width(3)] as const;
  terminal.print("");
  all.forEach((each, index) => {
    const figures = ([1, 2, 3] as const).map((column) => each[column].padStart(widths[column])).join("  ");
    const text = `${each[0].padEnd(widths[0])}  ${figures}  ${each[4]}`.trimEnd().replaceAll("\u00a0", " ");
    terminal.print(index === 0 ? terminal.heading(text) : text);
  });
}

function balanceLines(planned: PlanJson, happenedPlan: PlanJson, writing: Writing): string[] {
  const { weights, money: paid } = happenedPlan;
  const used = ({ weights: all }: PlanJson) =>
    total([all.inDishes, all.givenAway, all.closingStock].map(grams));
  const share = (plan: PlanJson) =>
    writing.percent(used(plan), total([used(plan), grams(plan.weights.wastedFood)]));
  const weight = (text: string) => writing.weight(grams(text));
  const cost = (text: string) => writing.money(money(text));
  const weightIn = total([weights.purchased, weights.onHand, weights.absorbed].map(grams));
  const moneyIn = total([paid.spent, paid.stockValue].map((text) => money(text)));
  return [
    `Used      ${share(happenedPlan)} of what was usable (planned ${share(planned)}); waste ${weight(weights.wastedFood)} (planned ${weight(planned.weights.wastedFood)})`,
    `Spent     ${cost(paid.spent)} (planned ${cost(planned.money.spent)}); of it wasted ${cost(paid.wasted)} (planned ${cost(planned.money.wasted)})`,
    `Weight    ${writing.weight(weightIn)} = dishes ${weight(weights.inDishes)} + given away ${weight(weights.givenAway)} + kept ${weight(weights.closingStock)} + wasted ${weight(weights.wastedFood)} + inedible ${weight(weights.inedible)} + losses ${weight(weights.losses)}`,
    `Money     ${writing.money(moneyIn)} = dishes ${cost(paid.inDishes)} + given away ${cost(paid.givenAway)} + kept ${cost(paid.closingStock)} + wasted ${cost(paid.wasted)}`,
  ];
}
