import type { Command } from "commander";
import type { ServeCommandOptions } from "../serve.js";
import type { YieldCommandOptions } from "../yield.js";
import type { Run } from "./run.js";
import { portNumber } from "./values.js";

const DEFAULT_PORT = 8640;

/** The commands to look things up with. */
export function referenceCommands(main: Command, { terminal, end, untilStopped }: Run): void {
  main.commandsGroup("To look things up:");
  main
    .command("yield")
    .description("show what the yield tables and the kitchen's own tests say of an item")
    .argument("<item>", 'an item, or "ITEM, FORM"')
    .option("--kitchen <dir>", "the folder with the kitchen's own tests", ".")
    .option("--out <dir>", "write its page and blank yield tests to print there")
    .action(async (item: string, options: YieldCommandOptions) => {
      const { yieldCommand } = await import("../yield.js");
      end(await yieldCommand(item, options, terminal));
    });
  main
    .command("safety-case")
    .description("list every rule of safety, and what is not judged")
    .option("--out <dir>", "write it as a page there, with its tests, sources and the table of hazards")
    .action(async (options: { out?: string }) => {
      const { safetyCaseCommand } = await import("../safety-case.js");
      end(safetyCaseCommand(options, terminal));
    });
  main
    .command("serve")
    .description("serve the pages of a folder's scenarios on this machine")
    .argument("[dir]", "the folder with the scenario files", ".")
    .option("--port <n>", "port to listen on; 0 for any free one", portNumber, DEFAULT_PORT)
    .option("--demo", "plan the folder's demo.yaml first and print it")
    .action(async (folder: string, options: ServeCommandOptions) => {
      const { serveCommand } = await import("../serve.js");
      end(await serveCommand(folder, options, terminal, untilStopped()));
    });
}
