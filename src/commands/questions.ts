import type { TradeoffJson, WorthJson } from "../contract/index.js";
import { composeTradeoff, tradeoffCurve, usesOf, worthOf } from "../insight/index.js";
import { isIsoDate, parseWeight, type Scenario } from "../kitchen/index.js";
import { loadScenario, loadWithOffcut } from "../kitchen-files/index.js";
import {
  changeText,
  completeText,
  spendHead,
  tradeoffPage,
  tradeoffSums,
  usesPage,
  usesText,
  wasteLine,
  worthData,
  worthPage,
  writingFor,
} from "../pages/index.js";
import { askedLine, planningWith } from "../planning/index.js";
import { grams, money, toGrams } from "../quantity/index.js";
import { isWording, problemLines } from "../reading/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode, type Terminal, wrapped } from "./terminal.js";
import { folderObstacle } from "./write-folder.js";

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

export interface WorthCommandOptions {
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

/** `worth FILE`: prints what each dish, item and part is worth, or as JSON, and writes their page where asked. */
export function worthCommand(
  file: string,
  options: WorthCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (scenario, engines) => {
    const { seconds, json, out } = options;
    const began = performance.now();
    const worth = await worthOf(scenario, planningWith(engines), {
      seconds,
      onProgress: (asked) => terminal.progress(askedLine(asked, began, seconds)),
    });
    terminal.progress(null);
    if (json === true) terminal.print(JSON.stringify(worth, null, 2));
    else printWorth(worth, scenario, terminal);
    if (worth.outcome === "no answer") return EXIT.noAnswer;
    if (out !== undefined)
      writePages(out, [worthPage(worth, scenario)], json === true ? terminal.complain : terminal.print);
    return worth.outcome === "worth" ? EXIT.plan : EXIT.noPlan;
  });
}

function printWorth(worth: WorthJson, scenario: Scenario, terminal: Terminal): void {
  const { lead, dishes, candidates, items, parts, small } = worthData(worth, scenario);
  const print = (indent: string, text: string): void => {
    for (const line of wrapped(text, terminal.columns - indent.length, indent, `${indent}  `))
      terminal.print(line);
  };
  const entry = (
    name: string,
    sub: string,
    figures: readonly (readonly [string, readonly string[]])[],
  ): void => {
    print("  ", sub === "" ? name : `${name}: ${sub}`);
    for (const [what, lines] of figures)
      if (lines.length > 0) print("      ", `${what}: ${lines.join(", ")}`);
  };
  const block = (head: string, entries: readonly (() => void)[]): void => {
    if (entries.length === 0) return;
    terminal.print(terminal.heading(head));
    for (const each of entries) each();
  };
  terminal.print(terminal.heading(worth.scenario));
  print("", lead);
  block(
    "Dishes",
    dishes.map(({ name, sub, without, purchases, more, less }) => () => {
      entry(name, sub, [
        ["left out", [...without, ...purchases]],
        ["a portion more", more],
        ["a portion less", less],
      ]);
    }),
  );
  block(
    "Dishes the plan leaves out",
    candidates.map(
      ({ name, made, purchases }) =>
        () =>
          entry(name, "", [["made", [...made, ...purchases]]]),
    ),
  );
  block(
    "Items",
    items.map(({ name, sub, more, less }) => () => {
      entry(name, sub, [
        ["one more", more],
        ["one less", less],
      ]);
    }),
  );
  block(
    "Parts",
    parts.map(({ name, sub, step, more, less }) => () => {
      entry(name, sub, [
        [`${step} more`, more],
        [`${step} less`, less],
      ]);
    }),
  );
  if (small !== "") print("", small);
}

export interface UsesCommandOptions {
  readonly part: string;
  readonly weight: string;
  readonly useBy?: string;
  readonly json?: boolean;
  readonly out?: string;
}

/** Stands in where the weight cannot be read, so that what else is wrong is told too. */
const ANY_WEIGHT = grams("1");

/** `uses FILE --part P --weight W`: what the scenario's dishes can make of an offcut before it must be used. */
export async function usesCommand(
  file: string,
  { part, weight: written, useBy, json, out }: UsesCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) terminal.complain(obstacle);
  const weight = parseWeight(written, null);
  if (isWording(weight)) terminal.complain(`--weight: ${weight.what}. ${weight.remedy}`);
  const isDate = useBy === undefined || isIsoDate(useBy);
  if (!isDate) terminal.complain(`--use-by: \`${useBy}\` is no day. Write it as 2026-10-02`);
  const plain = await loadScenario(file);
  for (const line of problemLines(plain.problems)) terminal.complain(line);
  if (plain.scenario === null) return EXIT.wrongInput;
  const { scenario, stock, problems } = await loadWithOffcut(file, {
    part,
    weight: isWording(weight) ? ANY_WEIGHT : weight,
    ...(useBy === undefined || !isDate ? {} : { useBy }),
  });
  for (const { what, remedy } of problems) terminal.complain(`${part}: ${what}. ${remedy}`);
  if (scenario === null || isWording(weight) || !isDate || obstacle !== null) return EXIT.wrongInput;
  const uses = usesOf(stock, scenario);
  if (json === true) terminal.print(JSON.stringify(usesJson(uses, scenario.services), null, 2));
  else print(usesText(uses, scenario), terminal);
  if (out === undefined) return EXIT.plan;
  writePages(out, [usesPage(uses, scenario)], json === true ? terminal.complain : terminal.print);
  return EXIT.plan;
}

function print(text: ReturnType<typeof usesText>, { print: say, heading, columns }: Terminal): void {
  const block = (words: string) => {
    for (const line of wrapped(words, columns, "  ", "    ")) say(line);
  };
  say(heading(text.headline));
  if (text.allergens !== "") block(`Allergens: ${text.allergens}`);
  if (text.none !== "") block(text.none);
  for (const { name, when, takes, makes, cost, steps, needs, critical, allergens } of text.dishes) {
    say("");
    say(`${name}, ${when}`);
    block(`Takes ${takes}; ${makes}; all else at least ${cost} a portion`);
    if (steps !== "") block(`First: ${steps}`);
    if (needs !== "") block(`Needs beside: ${needs}`);
    if (critical !== "") block(`Critical: ${critical}`);
    block(`Allergens: ${allergens === "" ? "none known" : allergens}`);
  }
  for (const [head, lines] of [
    ["Or else", text.resorts],
    ["Beware", text.cautions],
  ] as const) {
    if (lines.length === 0) continue;
    say("");
    say(head);
    for (const line of lines) block(line);
  }
}

/** Weights in grams and money in currency units, as decimal strings. */
function usesJson(uses: ReturnType<typeof usesOf>, services: readonly { readonly name: string }[]) {
  return {
    ...uses,
    weight: toGrams(uses.weight).toFixed(),
    dishes: uses.dishes.map((use) => ({
      ...use,
      services: use.services.map((at) => services[at]?.name ?? ""),
      takes: use.takes.toFixed(3),
      leaves: use.leaves.toFixed(3),
      costPerPortion: use.costPerPortion.toFixed(4),
      needs: use.needs.map((need) =>
        need.kind === "part"
          ? { ...need, grams: need.grams.toFixed(3) }
          : { ...need, amount: need.amount && { ...need.amount, value: need.amount.value.toFixed() } },
      ),
    })),
    resorts: uses.resorts.map((resort) => ({ ...resort, grams: resort.grams.toFixed(3) })),
  };
}
