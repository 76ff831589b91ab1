import { decodePlan, type PlanJson } from "../contract/index.js";
import { happenedAt, type Lesson, learnFrom } from "../kitchen-files/index.js";
import { coins, renderHappened, type Writing, wasteCompared, writingFor } from "../pages/index.js";
import {
  grams,
  type Money,
  minus,
  money,
  roundAround,
  toCurrency,
  total,
  type Weight,
} from "../quantity/index.js";
import { problemLines } from "../reading/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import {
  type Difference,
  dishDifferences,
  endDifferences,
  gaveDifferences,
  type Happened,
} from "../weigh-in/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";

export interface WeighInCommandOptions {
  readonly json?: boolean;
  readonly learn?: boolean;
  readonly out?: string;
}

/** `weigh-in FILE`: what happened against the plan as kept; its pages and its yield tests where asked. */
export async function weighInCommand(
  file: string,
  { json, learn, out }: WeighInCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, out }, terminal, async (scenario) => {
    const { planned, happened, problems: found } = await happenedAt(file, scenario);
    for (const line of problemLines(found)) terminal.complain(line);
    if (planned === null || happened === null) return EXIT.wrongInput;
    const say = json === true ? terminal.complain : terminal.print;
    if (json === true) terminal.print(JSON.stringify(happened.plan, null, 2));
    else printHappened(planned, happened, terminal);
    if (out !== undefined) writePages(out, renderHappened(planned, scenario, happened), say);
    if (learn !== true) return EXIT.plan;
    const lesson = await learnFrom(file, happened);
    for (const line of problemLines(lesson.problems)) terminal.complain(line);
    if (lesson.problems.length > 0) return EXIT.wrongInput;
    for (const line of lessonLines(lesson)) say(line);
    return EXIT.plan;
  });
}

function lessonLines({ file, tests, added, replaced, removed, without }: Lesson): string[] {
  const count = (number: number) => (number === 1 ? "1 yield test" : `${number} yield tests`);
  const news = [
    ...(added > 0 ? [`${count(added)} added`] : []),
    ...(replaced > 0 ? [`${count(replaced)} corrected`] : []),
    ...(removed > 0 ? [`${count(removed)} taken out`] : []),
  ];
  const known = tests === 0 ? "no cut makes a yield test" : `${count(tests)}, learnt before`;
  return [
    `Learnt: ${news.length > 0 ? `${news.join(", ")} in ${file}` : known}`,
    ...without.map(({ item, breakdown, why }) => `  none of ${item}, ${breakdown}: ${why}`),
  ];
}

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
      signed(after.weight, before.weight, writing),
      notes(weighed, [...(after.cost === 0n ? [] : [writing.money(after.cost)]), ...reasons]),
    ],
  );
  table("Left, lost and away", ends, writing, terminal);
  table("Waste", wasteLines(planned, plan, writing), writing, terminal);
  terminal.print("");
  for (const line of balanceLines(planned, happened, writing)) terminal.print(line.replaceAll("\u00a0", " "));
}

function wasteLines(planned: PlanJson, actual: PlanJson, writing: Writing): Line[] {
  return wasteCompared(cooksWasteOf(decodePlan(planned)), cooksWasteOf(decodePlan(actual)), writing).map(
    ({ figure, planned: was, actual: is }) => [
      figure.name.toLowerCase(),
      writing.shown(was),
      writing.shown(is),
      signed(is, was, writing),
      figure.share,
    ],
  );
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
    signed(actual, planned, writing),
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

/** The difference of the two as they are shown. */
function signed(actual: Weight, planned: Weight, writing: Writing): string {
  const difference = minus(writing.onScale(actual), writing.onScale(planned));
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

const OUT = ["dishes", "given away", "kept", "wasted", "inedible", "losses"];

function balanceLines(planned: PlanJson, { plan: happened, scenario }: Happened, writing: Writing): string[] {
  const { weights, money: paid } = happened;
  const used = ({ weights: all }: PlanJson) =>
    total([all.inDishes, all.givenAway, all.closingStock].map(grams));
  const share = (plan: PlanJson) =>
    writing.percent(used(plan), total([used(plan), grams(plan.weights.wastedFood)]));
  const cost = (text: string) => writing.money(money(text));
  const weightOut = [
    ...[weights.inDishes, weights.givenAway, weights.closingStock, weights.wastedFood],
    ...[weights.inedible, weights.losses],
  ].map(grams);
  const moneyOut = [paid.inDishes, paid.givenAway, paid.closingStock, paid.wasted].map((text) => money(text));
  const weighed = roundAround(weightOut, scenario.scaleStep, (index) => OUT[index] === "wasted");
  const coined = coins(moneyOut, scenario);
  const terms = (names: readonly string[], shown: readonly string[]) =>
    names.map((name, index) => `${name} ${shown[index] ?? ""}`).join(" + ");
  return [
    `Used      ${share(happened)} of what was usable (planned ${share(planned)}); wasted food ${writing.weight(grams(weights.wastedFood))} (planned ${writing.weight(grams(planned.weights.wastedFood))})`,
    `Spent     ${cost(paid.spent)} (planned ${cost(planned.money.spent)}); of it wasted ${cost(paid.wasted)} (planned ${cost(planned.money.wasted)})`,
    `Weight    ${writing.weight(total(weighed))} = ${terms(OUT, weighed.map(writing.weight))}`,
    `Money     ${writing.money(total(coined))} = ${terms(OUT.slice(0, 4), coined.map(writing.money))}`,
  ];
}
