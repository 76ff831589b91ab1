import { type Command, Option } from "commander";
import { COUNTS } from "../../waste-accounts/index.js";
import type { RecordCommandOptions } from "../record.js";
import type { TestCardOptions } from "../test-card.js";
import type { WasteCommandOptions } from "../waste.js";
import type { WeighInCommandOptions } from "../weigh-in.js";
import type { Run } from "./run.js";
import { DEFAULT_SECONDS, positive } from "./values.js";

const TEST_COMMANDS = [
  ["butchers-test", "butchers", "work out a butcher's test: what the usable part costs"],
  ["cooking-loss", "cooking", "work out a cooking-loss test: what is served, and what it costs"],
] as const;

/** The commands that take what was weighed. */
export function weighingCommands(main: Command, { terminal, end }: Run): void {
  main.commandsGroup("What was weighed:");
  main
    .command("weigh-in")
    .description("say what happened by what was weighed after service, against the plan as kept")
    .argument("<file>", "the scenario file")
    .option("--json", "print what happened as JSON, as a plan is printed")
    .option("--learn", "add the yield tests it makes to the kitchen's own; those learnt before count once")
    .option("--out <dir>", "write the pages of what was planned and what happened there")
    .action(async (file: string, options: WeighInCommandOptions) => {
      const { weighInCommand } = await import("../weigh-in.js");
      end(await weighInCommand(file, options, terminal));
    });
  main
    .command("waste")
    .description("account for what is wasted, by plan and all together")
    .argument("<file...>", "scenario files, or plans as JSON")
    .addOption(new Option("--count <whose>", "whose definition of waste").choices([...COUNTS]).default("flw"))
    .option("--seconds <n>", "most seconds a plan may take", positive, DEFAULT_SECONDS)
    .option("--csv", "print the accounts as CSV")
    .option("--out <dir>", "write them as a page there")
    .action(async (files: string[], options: WasteCommandOptions) => {
      const { wasteCommand } = await import("../waste.js");
      end(await wasteCommand(files, options, terminal));
    });
  main
    .command("record")
    .description("add yield tests to the kitchen's own, or print a blank one to fill in")
    .argument("[file]", "a CSV file with the tests")
    .option("--kitchen <dir>", "the folder with the scenario files", ".")
    .option("--blank <item>", 'print a blank test of "ITEM" or "ITEM, FORM" instead')
    .option("--breakdown <name>", "how it is cut, for --blank")
    .action(async (file: string | undefined, options: RecordCommandOptions) => {
      const { recordCommand } = await import("../record.js");
      end(await recordCommand(file, options, terminal));
    });
  for (const [name, kind, about] of TEST_COMMANDS)
    main
      .command(name)
      .description(about)
      .argument("[file]", "the YAML file with the weighing")
      .option("--price <price>", 're-price for another AP price by cost factor, such as "7.10 / kg"')
      .option("--blank", "print a file to fill in; with --out, a form to print too")
      .option("--json", "print it as JSON")
      .option("--out <dir>", "write the cards of the file and blank forms there, to open without a server")
      .action(async (file: string | undefined, options: TestCardOptions) => {
        const { testCardCommand } = await import("../test-card.js");
        end(await testCardCommand(kind, file, options, terminal));
      });
}
