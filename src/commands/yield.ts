import { existsSync } from "node:fs";
import { kitchenYields, loadKitchenYields, recordTests } from "../kitchen-files/index.js";
import { itemCautions, itemToPrint } from "../pages/index.js";
import { toGrams } from "../quantity/index.js";
import { didYouMean, problemLines, problemText } from "../reading/index.js";
import { textAt, yieldTestsFile } from "../records/index.js";
import { blankYieldTest, type ItemYields, itemYields, type YieldTest } from "../yields/index.js";
import { writePages } from "./answering.js";
import { findItems, unknownItem } from "./find-item.js";
import { EXIT, type ExitCode, type Terminal, tableLines, wrapped } from "./terminal.js";
import { folderObstacle } from "./write-folder.js";

export interface YieldCommandOptions {
  readonly kitchen: string;
  /** A folder to write the item's page and its blank yield tests to. */
  readonly out?: string;
}

/** `yield ITEM`: what the tables and the kitchen's own tests say of it, form by form and breakdown by breakdown. */
export async function yieldCommand(
  wanted: string,
  { kitchen, out }: YieldCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) {
    terminal.complain(obstacle);
    return EXIT.wrongInput;
  }
  if (!existsSync(kitchen)) {
    terminal.complain(`There is no folder ${kitchen}. Name the folder that holds your yield tests.`);
    return EXIT.wrongInput;
  }
  const yields = await loadKitchenYields(kitchen);
  for (const line of problemLines(yields.problems)) terminal.complain(line);
  const items = findItems(yields.published.items, wanted);
  if (items.length === 0) terminal.complain(unknownItem(wanted, yields.published.items));
  if (items.length === 0 || yields.problems.length > 0) return EXIT.wrongInput;
  printItem(itemYields(items, yields), terminal);
  if (out !== undefined) writePages(out, itemToPrint(items, yields), terminal.print);
  return EXIT.plan;
}

function printItem(
  { name, alsoCalled, forms, steps, cooking, sources }: ItemYields,
  terminal: Terminal,
): void {
  const { print, heading, columns } = terminal;
  const say = (text: string, indent: number) => {
    const room = " ".repeat(indent);
    if (text !== "") for (const line of wrapped(text, columns - indent, room, room)) print(line);
  };
  const table = (
    heads: readonly string[],
    rows: readonly (readonly string[])[],
    right: readonly number[],
  ) => {
    for (const line of tableLines(heads, rows, right)) print(`    ${line}`);
  };
  for (const form of forms) {
    print(heading(`${name}, ${form.form}`));
    say(alsoCalled === "" ? "" : `Also called ${alsoCalled}`, 2);
    say([form.unit, form.keeps].join(". "), 2);
    say(form.unitTested === "" ? "" : `Unit weight: ${form.unitTested}`, 2);
    say(form.allergens === "" ? "" : `Allergens: ${form.allergens}`, 2);
    say(form.treatment === "" ? "" : `Before cutting: ${form.treatment}`, 2);
    for (const { name: breakdown, effort, how, rows, total, tested } of form.breakdowns) {
      print("");
      print(`  ${heading(breakdown)}${effort === "" ? "" : `, ${effort}`}`);
      say(how, 4);
      table(
        ["part", "", "%", form.gramsOf, "keeps, d", "pieces", "spread", "source"],
        [
          ...rows.map((row) => [
            row.part,
            row.kind,
            row.percent,
            row.grams,
            row.keeps,
            row.pieces,
            row.spread,
            row.source === "" ? "" : `[${row.source}]`,
          ]),
          ["all", "", total.percent, total.grams],
        ],
        [2, 3, 4, 5],
      );
      for (const own of tested) {
        print("");
        say(`Beside the published figures: ${own.what}`, 4);
        table(
          ["part", "published %", "own %", "± s.e.", "together %", "tests count"],
          own.rows.map(({ part, published, own: tests, error, together, counts }) => [
            part,
            published,
            tests,
            error,
            together,
            `${counts} %`,
          ]),
          [1, 2, 3, 4, 5],
        );
        for (const remark of own.remarks) say(remark, 4);
      }
    }
    print("");
  }
  for (const { name: step, from, effort, how, rows, source } of steps) {
    say(`${heading(step)}, from ${from}${effort === "" ? "" : `, ${effort}`} [${source}]`, 0);
    say(how, 4);
    table(
      ["gives", "", "%", "keeps, d"],
      rows.map(({ part, kind, percent, keeps }) => [part, kind, percent, keeps]),
      [2, 3],
    );
    print("");
  }
  if (cooking.length > 0) {
    print(heading("Cooked weight of raw"));
    table(
      ["food and method", "%", "spread", "source"],
      cooking.map(({ food, method, percent, spread, source }) => [
        `${food}, ${method}`,
        percent,
        spread,
        `[${source}]`,
      ]),
      [1],
    );
    print("");
  }
  const cautions = itemCautions({ name, forms });
  if (cautions.length > 0) print(heading("Mind"));
  for (const { text, source } of cautions) say(`${text} (${source})`, 2);
  if (cautions.length > 0) print("");
  print(heading("Sources"));
  for (const { number, text } of sources)
    for (const line of wrapped(text, columns - 6, `${`[${number}]`.padStart(4)} `, "     ")) print(line);
}

export interface RecordCommandOptions {
  readonly kitchen: string;
  /** An item to print a blank test of. */
  readonly blank?: string;
  readonly breakdown?: string;
}

/** `record FILE`: adds its yield tests to the kitchen's own; `record --blank ITEM`: prints rows to fill in. */
export async function recordCommand(
  file: string | undefined,
  { kitchen, blank, breakdown }: RecordCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  if (blank !== undefined && file !== undefined) {
    terminal.complain(`--blank prints a test to fill in and records nothing. Leave out --blank, or ${file}.`);
    return EXIT.wrongInput;
  }
  if (blank !== undefined) return printBlank(blank, breakdown, terminal);
  if (file === undefined) {
    terminal.complain('Name a file with yield tests, or print one to fill in: record --blank "ITEM, FORM"');
    return EXIT.wrongInput;
  }
  const text = await textAt(file);
  if (typeof text !== "string") {
    const missing = `${file} is not there, or may not be read. Write the path of a file with yield tests.`;
    terminal.complain(text === null ? missing : problemText(text));
    return EXIT.wrongInput;
  }
  const { added, problems } = await recordTests(kitchen, { file, text });
  for (const line of problemLines(problems)) terminal.complain(line);
  if (problems.length > 0) return EXIT.wrongInput;
  const count = added.length === 1 ? "1 yield test" : `${added.length} yield tests`;
  terminal.print(`Recorded ${count} in ${yieldTestsFile(kitchen)}`);
  for (const test of added) terminal.print(`  ${testWords(test)}`);
  return EXIT.plan;
}

function testWords({ item, form, breakdown, supplier, date, number, apWeight }: YieldTest): string {
  return `${item} (${form}), ${breakdown}: ${supplier}, ${date}, test ${number}, ${toGrams(apWeight).toFixed()} g`;
}

/** One form and one breakdown have to be settled; where the tables hold several, they are named. */
function printBlank(wanted: string, breakdown: string | undefined, terminal: Terminal): ExitCode {
  const { published } = kitchenYields(null);
  const forms = findItems(published.items, wanted);
  const [item, other] = forms;
  if (item === undefined) {
    terminal.complain(unknownItem(wanted, published.items));
    return EXIT.wrongInput;
  }
  if (other !== undefined) {
    const choices = forms.map(({ name, form }) => `"${name}, ${form}"`).join(", ");
    terminal.complain(`${item.name} is bought in several forms. Write one of: ${choices}.`);
    return EXIT.wrongInput;
  }
  const names = item.breakdowns.map(({ name }) => name);
  const chosen = breakdown ?? (names.length === 1 ? names[0] : undefined);
  const found = item.breakdowns.find(({ name }) => name === chosen);
  if (found === undefined) {
    const near = chosen === undefined ? null : didYouMean(chosen, names);
    const what =
      chosen === undefined
        ? `${item.name} (${item.form}) is cut in several ways.`
        : `${item.name} (${item.form}) has no breakdown "${chosen}".`;
    const remedy =
      near === null
        ? `Write --breakdown with one of: ${names.map((name) => `"${name}"`).join(", ")}.`
        : `Did you mean "${near}"?`;
    terminal.complain(`${what} ${remedy}`);
    return EXIT.wrongInput;
  }
  terminal.print(blankYieldTest(item, found).trimEnd());
  return EXIT.plan;
}
