import { dirname } from "node:path";
import { addDays } from "../kitchen/index.js";
import { loadKitchenYields } from "../kitchen-files/index.js";
import { problemLines } from "../reading/index.js";
import { changeFiles } from "../records/index.js";
import type { TableItem } from "../yields/index.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { findItems, unknownItem } from "./find-item.js";
import { starterText } from "./starter.js";
import type { Terminal } from "./terminal.js";

const DEFAULT_ITEM = "broccoli";
const DAYS_AHEAD = 7;

/** `new FILE`: writes a starter scenario, by the own tests beside it too; an existing file is left alone. */
export async function newCommand(
  file: string,
  wanted: readonly string[],
  terminal: Terminal,
): Promise<ExitCode> {
  const { tables, problems } = await loadKitchenYields(dirname(file));
  for (const line of problemLines(problems)) terminal.complain(line);
  if (problems.length > 0) return EXIT.wrongInput;
  const items: TableItem[] = [];
  for (const name of wanted.length > 0 ? wanted : [DEFAULT_ITEM]) {
    const [item] = findItems(tables.items, name);
    if (item === undefined) {
      terminal.complain(unknownItem(name, tables.items));
      return EXIT.wrongInput;
    }
    if (!items.some((other) => other.name === item.name)) items.push(item);
  }
  const date = addDays(new Date().toISOString().slice(0, 10), DAYS_AHEAD);
  let isThere = false;
  await changeFiles([file], ([text = null]) => {
    isThere = text !== null;
    return isThere ? null : [starterText(items, date)];
  });
  if (isThere) {
    terminal.complain(`${file} is there already and was left as it is. Name a new file.`);
    return EXIT.wrongInput;
  }
  terminal.print(`Wrote ${file}. Plan it with: trim-to-use plan ${file}`);
  return EXIT.plan;
}
