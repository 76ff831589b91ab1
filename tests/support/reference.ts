import { Command } from "commander";
import { z } from "zod";
import { addCommands } from "../../src/commands/command-line.js";
import { processTerminal } from "../../src/commands/index.js";
import { planSchema } from "../../src/contract/index.js";
import { testCardSchema } from "../../src/kitchen/cards/schema.js";
import { happenedSchema } from "../../src/kitchen/file/happened.js";
import { scenarioFileSchema } from "../../src/kitchen/file/schema.js";
import { at, type KeyRow, keyRows, markdownTable, schemaOfFile } from "./json-schema-rows.js";

/** What is generated of a page of `docs/reference/`, by the names that its marks give. */
export type Generated = Readonly<Record<string, string>>;

/** Keys of a scenario that have a table of their own. */
const SECTIONS = ["services", "items", "suppliers", "parts", "steps", "dishes", "destinations"];

/** Every page of `docs/reference/` that holds something generated. */
export function referencePages(): Readonly<Record<string, Generated>> {
  const scenario = schemaOfFile(scenarioFileSchema("us"));
  const sections = SECTIONS.map((key) => {
    const rows = keyRows(at(scenario, key)).map((row) => ({
      ...row,
      path: row.path.replace(/^(NAME|\[\])\./, ""),
    }));
    return [key, keyTable(rows)] as const;
  });
  return {
    "scenario.md": { top: keyTable(keyRows(scenario, "", SECTIONS)), ...Object.fromEntries(sections) },
    "happened.md": { happened: keyTable(keyRows(schemaOfFile(happenedSchema()))) },
    "test-card.md": { "test card": keyTable(keyRows(schemaOfFile(testCardSchema))) },
    "plan.md": { plan: fieldTable(keyRows(z.toJSONSchema(planSchema))) },
    "commands.md": { commands: commandsText() },
  };
}

const MARKED = /(<!-- generated: (.+?) -->\n)[\s\S]*?(<!-- end -->)/g;

/** The page with everything between its marks made anew; each thing generated must have its place, once. */
export function filled(page: string, generated: Generated): string {
  const names = [...page.matchAll(MARKED)].map(([, , name]) => name ?? "");
  if (names.sort().join() !== Object.keys(generated).sort().join())
    throw new Error(
      `the page has marks for ${names.join(", ")}, not for ${Object.keys(generated).join(", ")}`,
    );
  return page.replace(
    MARKED,
    (_, begin: string, name: string, end: string) => `${begin}\n${generated[name]}\n\n${end}`,
  );
}

function keyTable(rows: readonly KeyRow[]): string {
  return markdownTable(
    ["key", "written", "meaning"],
    rows.map(({ path, written, needed, meaning }) => [
      needed ? `**\`${path}\`** (needed)` : `\`${path}\``,
      written,
      meaning,
    ]),
  );
}

function fieldTable(rows: readonly KeyRow[]): string {
  return markdownTable(
    ["field", "holds", "meaning"],
    rows.map(({ path, written, needed, meaning }) => [
      needed ? `\`${path}\`` : `\`${path}\` (may be left out)`,
      written,
      meaning,
    ]),
  );
}

/** The program's own help of every command, in the groups it lists them in. */
function commandsText(): string {
  const main = new Command("trim-to-use");
  const nothing = () => undefined;
  addCommands(main, {
    terminal: processTerminal(),
    end: nothing,
    begun: () => 0,
    untilStopped: () => Promise.resolve(),
  });
  let group = "";
  return main.commands
    .flatMap((command) => {
      const heading = command.helpGroup();
      const begins = heading === group ? [] : [`## ${heading.replace(/:$/, "")}`];
      group = heading;
      return [...begins, `### ${command.name()}`, `\`\`\`text\n${helpOf(command)}\n\`\`\``];
    })
    .join("\n\n");
}

/** As the program prints it where nobody watches: 80 columns, no colour. */
function helpOf(command: Command): string {
  command.configureOutput({ getOutHelpWidth: () => 80, getOutHasColors: () => false });

  return command.helpInformation().trimEnd();
}
