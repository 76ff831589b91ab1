import { existsSync, realpathSync } from "node:fs";
import { basename, dirname } from "node:path";
import { Engines } from "../allocation/index.js";
import { decodePlan, hasPlan, type PlanJson, readPlan } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { happenedAt, isPlanKept, loadScenario, readKeptPlan } from "../kitchen-files/index.js";
import { type Writing, wasteAccountsPage, wasteFigures, wasteText, writingFor } from "../pages/index.js";
import { planScenario } from "../planning/index.js";
import { Decimal, grams, NO_WEIGHT, scale, toGrams, total } from "../quantity/index.js";
import { MOST, type Problem, problemLines, problemOf, problemText } from "../reading/index.js";
import { finishSaving, planFile, textAt } from "../records/index.js";
import {
  accountOf,
  accountsCsv,
  COUNTING_RULES,
  type Count,
  countedBy,
  DESTINATION_FACTS,
  periodOf,
  type WasteAccount,
} from "../waste-accounts/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode, type Terminal, tableLines } from "./terminal.js";
import { words } from "./words.js";
import { folderObstacle } from "./write-folder.js";

export interface WasteCommandOptions {
  readonly count: Count;
  readonly seconds: number;
  readonly csv?: boolean;
  readonly out?: string;
}

/** How figures are written where no scenario says. */
const PLAIN = { locale: "en-GB", scaleStep: grams("1") };
const PERIOD = "All together";

/**
 * `waste FILE...`: the waste account of each plan, and of all together. A file is a scenario, of which what was
 * weighed is taken where it was, else the kept plan, else a plan made now; or a plan as JSON.
 */
export async function wasteCommand(
  files: readonly string[],
  { count, seconds, csv, out }: WasteCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) return wrong([obstacle], terminal);
  const twice = namedTwice(files);
  if (twice.length > 0) return wrong(problemLines(twice), terminal);
  const found: Found[] = [];
  for (const file of files) {
    const read = /\.json$/i.test(file) ? await ofJson(file) : await ofScenario(file, seconds);
    if ("problems" in read) return wrong(read.problems, terminal);
    found.push(read);
  }
  const accounts = found.map(({ account }) => account);
  const currencies = [...new Set(accounts.map(({ currency }) => currency))];
  if (currencies.length > 1)
    return wrong([`The files are in ${currencies.join(" and ")}: name those of one currency.`], terminal);
  const [finest] = found.map(({ written }) => written).sort((a, b) => Number(a.scaleStep - b.scaleStep));
  const writing = writingFor(finest ?? { ...PLAIN, currency: "EUR" });
  const all = accounts.length > 1 ? [...accounts, periodOf(accounts, PERIOD)] : accounts;
  if (csv === true) terminal.print(accountsCsv(accounts).trimEnd());
  else for (const account of all) printAccount(account, count, writing, terminal);
  if (out !== undefined) {
    const head = all.at(-1);
    const page = wasteAccountsPage(all, writing, { head: head === undefined ? [] : [head.label] });
    writePages(out, [page], csv === true ? terminal.complain : terminal.print);
  }
  return EXIT.plan;
}

/** A file named again, by whatever path, would be counted again; so would a scenario's kept plan beside it. */
function namedTwice(files: readonly string[]): Problem[] {
  const seen = new Set<string>();
  return files.flatMap((file) => {
    const named = /\.json$/i.test(file) ? file : planFile(file);
    const real = [named, file].find(existsSync);
    const key = real === undefined ? file : realpathSync(real);
    if (!seen.has(key)) {
      seen.add(key);
      return [];
    }
    return [problemOf(file, words.namedTwice())];
  });
}

interface Found {
  readonly account: WasteAccount;
  /** How the file's figures are written; of several, the one of the finest scale is taken for all. */
  readonly written: Parameters<typeof writingFor>[0];
}

type Read = Found | { readonly problems: readonly string[] };

async function ofJson(file: string): Promise<Read> {
  const text = await textAt(file, MOST.planBytes);
  if (text === null) return { problems: [`${file} is not there. Write the path of a plan as JSON.`] };
  if (typeof text !== "string") return { problems: [problemText(text)] };
  const read = readPlan({ file, text }, "Write it anew with plan --json");
  if ("problems" in read) return { problems: problemLines(read.problems) };
  const { plan } = read;
  const written = { ...PLAIN, currency: plan.money.currency };
  return { account: accountOf(decodePlan(plan), plan.scenario, standingOf(plan)), written };
}

async function ofScenario(file: string, seconds: number): Promise<Read> {
  await finishSaving(dirname(file));
  const { scenario, problems } = await loadScenario(file);
  if (scenario === null || problems.length > 0) return { problems: problemLines(problems) };
  const kept = await keptAt(file, scenario);
  if (kept !== null && "problems" in kept) return kept;
  const plan = kept?.plan ?? (await plannedNow());
  if (!hasPlan(plan)) return { problems: [`${basename(file)} has no plan: \`plan\` says why.`] };
  return { account: accountOf(decodePlan(plan), scenario.name, standingOf(plan)), written: scenario };

  async function plannedNow(): Promise<PlanJson> {
    const engines = new Engines();
    try {
      if (scenario === null) throw new RangeError("nothing to plan");
      return (await planScenario(scenario, { engines, seconds })).plan;
    } finally {
      await engines.close();
    }
  }
}

/** The kept plan, or what was weighed after it where anything was; null where none is kept. */
async function keptAt(
  file: string,
  scenario: Scenario,
): Promise<{ readonly plan: PlanJson } | { readonly problems: readonly string[] } | null> {
  if (!(await isPlanKept(file))) return null;
  const { happened, problems } = await happenedAt(file, scenario);
  if (happened === null) return { problems: problemLines(problems) };
  if (happened.rows.some(({ weighed }) => weighed)) return { plan: happened.plan };
  const { kept, problems: gaps } = await readKeptPlan(file, scenario);
  return kept === null ? { problems: problemLines(gaps) } : { plan: kept.plan };
}

/** What was weighed after service is composed like a plan, and says that it was. */
function standingOf({ outcome }: PlanJson): "plan" | "actual" {
  return outcome.engine === "weigh-in" ? "actual" : "plan";
}

function printAccount(account: WasteAccount, count: Count, writing: Writing, terminal: Terminal): void {
  const { name } = COUNTING_RULES[count];
  const { food, inedible, weight, money, leftOut } = countedBy(account, count);
  const counted = account.rows.filter((row) => !leftOut.some((left) => left.row === row));
  terminal.print(terminal.heading(`${account.label}, ${account.standings.join(" and ")}`));
  terminal.print(`${account.from} to ${account.to}; counted as ${name}`);
  const rows = counted.map((row) => [
    DESTINATION_FACTS[row.destination].name,
    row.material,
    writing.weight(row.weight),
    writing.money(row.money),
    row.names.join(", "),
  ]);
  const heads = ["Destination", "Material", "Weight", "Money lost", "In this kitchen"];
  for (const line of tableLines(heads, rows, [2, 3])) terminal.print(line);
  const eaten = total([account.onPlates, account.givenAway, account.closingStock]);
  terminal.print(
    `Waste ${writing.weight(weight)}: food ${writing.weight(food)}, inedible parts ${writing.weight(inedible)}; ${writing.money(money)} lost`,
  );
  terminal.print(`Each: ${eachText(weight, account, writing)}`);
  terminal.print(`Used: ${writing.weight(eaten)} of food`);
  const [, ...besides] = wasteFigures(account.waste, writing);
  for (const figure of besides) terminal.print(wasteText(figure, writing));
  for (const { row, why } of leftOut)
    terminal.print(
      `Not counted: ${writing.weight(row.weight)} of ${row.material} to ${DESTINATION_FACTS[row.destination].name.toLowerCase()}, ${why}`,
    );
}

function eachText(
  weight: WasteAccount["purchased"],
  { covers, portionsEaten, purchased }: WasteAccount,
  writing: Writing,
): string {
  const people = covers === 0 ? portionsEaten : covers;
  const head = covers === 0 ? "portion eaten" : "cover";
  const each = people === 0 ? [] : [`${writing.weight(scale(weight, new Decimal(1).div(people)))} a ${head}`];
  const bought =
    purchased === NO_WEIGHT
      ? []
      : [`${writing.weight(scale(weight, new Decimal(1000).div(toGrams(purchased))))} for a kg bought`];
  return [...each, ...bought].join(", ");
}

function wrong(problems: readonly string[], terminal: Terminal): ExitCode {
  for (const problem of problems) terminal.complain(problem);
  return EXIT.wrongInput;
}
