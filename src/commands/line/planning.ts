import { type Command, Option } from "commander";
import type { PlanCommandOptions } from "../plan.js";
import type { ReplanCommandOptions } from "../replan.js";
import type { Run } from "./run.js";
import { DEFAULT_SECONDS, positive, surePercent } from "./values.js";

/** The commands that make a plan: before shopping, and anew on the day. */
export function planningCommands(main: Command, { terminal, end, begun }: Run): void {
  main.commandsGroup("Before shopping and on the day:");
  main
    .command("new")
    .description("write a commented starter scenario from the yield tables")
    .argument("<file>", "the scenario file to write")
    .option("--item <item...>", "an item of the yield tables, as often as wanted")
    .action(async (file: string, { item = [] }: { item?: string[] }) => {
      const { newCommand } = await import("../new.js");
      end(await newCommand(file, item, terminal));
    });
  main
    .command("check")
    .description("list everything wrong with a scenario or a test card")
    .argument("<file>", "the file")
    .action(async (file: string) => {
      const { checkCommand } = await import("../check.js");
      end(await checkCommand(file, terminal));
    });
  main
    .command("plan")
    .description("plan a scenario and print the plan")
    .argument("<file>", "the scenario file")
    .addOption(new Option("--aim <aim>", "what is least first").choices(["waste", "cost", "balanced"]))
    .option("--seconds <n>", "most seconds it may take", positive, DEFAULT_SECONDS)
    .addOption(
      new Option("--engine <name>", "ask this solver only").choices(["javascript-lp-solver", "highs"]),
    )
    .option("--cautious <percent>", "plan so that every dish is there in full with this chance", surePercent)
    .option("--json", "print the plan as JSON")
    .option("--out <dir>", "write the plan's pages there, to open without a server")
    .option("--keep", "keep the plan beside the scenario, with a weigh-in to fill in after service")
    .action(async (file: string, options: PlanCommandOptions) => {
      const { planCommand } = await import("../plan.js");
      end(await planCommand(file, { ...options, begun: begun() }, terminal));
    });
  main
    .command("replan")
    .description("plan the rest of a kept plan anew after what happened, and print what changes")
    .argument("<file>", "the scenario file; its plan must be kept beside it")
    .requiredOption("--happened <file>", "what happened: what came, what was weighed, who comes")
    .option("--seconds <n>", "most seconds it may take", positive, DEFAULT_SECONDS)
    .option("--json", "print the new plan and the changes as JSON")
    .option("--keep", "keep the new plan in the place of the old one")
    .option("--out <dir>", "write the page of what changes there")
    .action(async (file: string, options: ReplanCommandOptions) => {
      const { replanCommand } = await import("../replan.js");
      end(await replanCommand(file, options, terminal));
    });
}
