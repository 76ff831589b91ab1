import { existsSync } from "node:fs";
import { loadKitchenYields } from "../kitchen-files/index.js";
import { itemCautions, itemToPrint } from "../pages/index.js";
import { problemLines } from "../reading/index.js";
import { type ItemYields, itemYields } from "../yields/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { findItems, unknownItem } from "./find-item.js";
import { tableLines } from "./table-lines.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";
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
