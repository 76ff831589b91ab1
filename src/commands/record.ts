import { kitchenYields, recordTests } from "../kitchen-files/index.js";
import { toGrams } from "../quantity/index.js";
import { didYouMean, problemLines, problemText } from "../reading/index.js";
import { textAt, yieldTestsFile } from "../records/index.js";
import { blankYieldTest, type YieldTest } from "../yields/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { findItems, unknownItem } from "./find-item.js";
import type { Terminal } from "./terminal.js";

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
