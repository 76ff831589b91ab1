/** The command line: every command with its arguments and options, in groups as a cook comes to them. */
import type { Command } from "commander";
import { planningCommands } from "./planning.js";
import { questionsCommands } from "./questions.js";
import { referenceCommands } from "./reference.js";
import type { Run } from "./run.js";
import { weighingCommands } from "./weighing.js";

/** Adds all commands to the program. */
export function addCommands(main: Command, run: Run): void {
  for (const add of [planningCommands, questionsCommands, weighingCommands, referenceCommands])
    add(main, run);
}
