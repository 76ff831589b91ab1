import { type Command, Option } from "commander";
import { COUNTS } from "../waste-accounts/index.js";
import type { FormsCommandOptions } from "./forms.js";
import {
  DEFAULT_SECONDS,
  portNumber,
  positive,
  surePercent,
  wage,
  wholeAbove0,
  wholeFromTwo,
} from "./option-values.js";
import type { PlanCommandOptions, RiskCommandOptions } from "./plan.js";
import type { TradeoffCommandOptions, UsesCommandOptions, WorthCommandOptions } from "./questions.js";
import type { ReplanCommandOptions } from "./replan.js";
import type { ServeCommandOptions } from "./serve.js";
import type { ExitCode, Terminal } from "./terminal.js";
import type { TestCardOptions } from "./test-card.js";
import type { WasteCommandOptions } from "./waste.js";
import type { WeighInCommandOptions } from "./weigh-in.js";
import type { RecordCommandOptions, YieldCommandOptions } from "./yield.js";

/** Adds every command with its arguments and options, in groups as a cook comes to them; each is loaded when called. */
export function addCommands(main: Command, run: Run): void {
  for (const add of [planningCommands, questionsCommands, weighingCommands, referenceCommands])
    add(main, run);
}

/** What every command is run with. */
export interface Run {
  readonly terminal: Terminal;
  /** Takes the exit code a command ends with. */
  readonly end: (code: ExitCode) => void;
  /** Seconds since the program was started. */
  readonly begun: () => number;
  /** Settles when the program is told to stop. */
  readonly untilStopped: () => Promise<void>;
}

/** The commands that make a plan: before shopping, and anew on the day. */
function planningCommands(main: Command, { terminal, end, begun }: Run): void {
  main.commandsGroup("Before shopping and on the day:");
  main
    .command("new")
    .description("write a commented starter scenario from the yield tables")
    .argument("<file>", "the scenario file to write")
    .option("--item <item...>", "an item of the yield tables, as often as wanted")
    .action(async (file: string, { item = [] }: { item?: string[] }) => {
      const { newCommand } = await import("./scenario-file.js");
      end(await newCommand(file, item, terminal));
    });
  main
    .command("check")
    .description("list everything wrong with a scenario or a test card")
    .argument("<file>", "the file")
    .action(async (file: string) => {
      const { checkCommand } = await import("./scenario-file.js");
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
      const { planCommand } = await import("./plan.js");
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
      const { replanCommand } = await import("./replan.js");
      end(await replanCommand(file, options, terminal));
    });
}

const DEFAULT_DRAWS = 10_000;
const DEFAULT_WORTH_SECONDS = 120;
const DEFAULT_CURVE = { plans: 12, seconds: 60 };

/** The commands that answer what is asked of a plan. */
function questionsCommands(main: Command, { terminal, end, begun }: Run): void {
  main.commandsGroup("What to ask of a plan:");
  main
    .command("risk")
    .description("plan a scenario and say how sure each dish is, and what more to buy to be surer")
    .argument("<file>", "the scenario file")
    .option("--seconds <n>", "most seconds planning may take", positive, DEFAULT_SECONDS)
    .option("--seed <n>", "another seed draws other weights and yields", wholeAbove0, 1)
    .option("--draws <n>", "how often it is cut and served again", wholeAbove0, DEFAULT_DRAWS)
    .option("--json", "print it as JSON")
    .action(async (file: string, options: RiskCommandOptions) => {
      const { riskCommand } = await import("./plan.js");
      end(await riskCommand(file, { ...options, begun: begun() }, terminal));
    });
  main
    .command("tradeoff")
    .description("find the plans from least waste to least spend that no other beats on both")
    .argument("<file>", "the scenario file")
    .option("--plans <n>", "most plans", wholeFromTwo, DEFAULT_CURVE.plans)
    .option("--seconds <n>", "most seconds it may take", positive, DEFAULT_CURVE.seconds)
    .option("--json", "print them as JSON")
    .option("--out <dir>", "write their page there, to open without a server")
    .action(async (file: string, options: TradeoffCommandOptions) => {
      const { tradeoffCommand } = await import("./questions.js");
      end(await tradeoffCommand(file, options, terminal));
    });
  main
    .command("worth")
    .description("say what each dish, item and part of the plan is worth, planning without it and with more")
    .argument("<file>", "the scenario file")
    .option("--seconds <n>", "most seconds it may take", positive, DEFAULT_WORTH_SECONDS)
    .option("--json", "print it as JSON")
    .option("--out <dir>", "write its page there, to open without a server")
    .action(async (file: string, options: WorthCommandOptions) => {
      const { worthCommand } = await import("./questions.js");
      end(await worthCommand(file, options, terminal));
    });
  main
    .command("uses")
    .description("say which dishes can take an offcut before it must be used, and what else it is good for")
    .argument("<file>", "the scenario file")
    .requiredOption("--part <part>", 'the offcut, by its full name: "broccoli leaf"')
    .requiredOption("--weight <weight>", 'how much there is: "600 g"')
    .option(
      "--use-by <date>",
      "last day it may be used; default: as long as it keeps from the first service's day",
    )
    .option("--json", "print it as JSON")
    .option("--out <dir>", "write the page there, to open without a server")
    .action(async (file: string, options: UsesCommandOptions) => {
      const { usesCommand } = await import("./questions.js");
      end(await usesCommand(file, options, terminal));
    });
  main
    .command("forms")
    .description("say which form of an item to buy, and below which price each is worth it")
    .argument("[file]", "a scenario that buys the item in several forms; without it, prices alone")
    .requiredOption("--item <item>", "the item")
    .option("--price <form=price...>", 'without a file: a form and its price, "crown=4.20 / kg"')
    .option("--want <part...>", "the parts it is bought for; of a scenario, by default those its dishes take")
    .option("--credit <part=price...>", 'without a file: what trim is worth, "stem=1.50 / kg"')
    .option("--currency <code>", "without a file: ISO 4217 code", "EUR")
    .option("--kitchen <dir>", "without a file: the folder with the kitchen's own tests", ".")
    .option("--wage <price>", 'counts cutting at a wage, "14.00 / h"', wage)
    .option("--seconds <n>", "most seconds for each plan", positive, DEFAULT_SECONDS)
    .option("--json", "print the answer as JSON")
    .option("--out <dir>", "write the page there, to open without a server")
    .action(async (file: string | undefined, options: FormsCommandOptions) => {
      const { formsCommand } = await import("./forms.js");
      end(await formsCommand(file, options, terminal));
    });
}

const TEST_COMMANDS = [
  ["butchers-test", "butchers", "work out a butcher's test: what the usable part costs"],
  ["cooking-loss", "cooking", "work out a cooking-loss test: what is served, and what it costs"],
] as const;

/** The commands that take what was weighed. */
function weighingCommands(main: Command, { terminal, end }: Run): void {
  main.commandsGroup("What was weighed:");
  main
    .command("weigh-in")
    .description("say what happened by what was weighed after service, against the plan as kept")
    .argument("<file>", "the scenario file")
    .option("--json", "print what happened as JSON, as a plan is printed")
    .option("--learn", "add the yield tests it makes to the kitchen's own; those learnt before count once")
    .option("--out <dir>", "write the pages of what was planned and what happened there")
    .action(async (file: string, options: WeighInCommandOptions) => {
      const { weighInCommand } = await import("./weigh-in.js");
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
      const { wasteCommand } = await import("./waste.js");
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
      const { recordCommand } = await import("./yield.js");
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
        const { testCardCommand } = await import("./test-card.js");
        end(await testCardCommand(kind, file, options, terminal));
      });
}

const DEFAULT_PORT = 8640;

/** The commands to look things up with. */
function referenceCommands(main: Command, { terminal, end, untilStopped }: Run): void {
  main.commandsGroup("To look things up:");
  main
    .command("yield")
    .description("show what the yield tables and the kitchen's own tests say of an item")
    .argument("<item>", 'an item, or "ITEM, FORM"')
    .option("--kitchen <dir>", "the folder with the kitchen's own tests", ".")
    .option("--out <dir>", "write its page and blank yield tests to print there")
    .action(async (item: string, options: YieldCommandOptions) => {
      const { yieldCommand } = await import("./yield.js");
      end(await yieldCommand(item, options, terminal));
    });
  main
    .command("safety-case")
    .description("list every rule of safety, and what is not judged")
    .option("--out <dir>", "write it as a page there, with its tests, sources and the table of hazards")
    .action(async (options: { out?: string }) => {
      const { safetyCaseCommand } = await import("./safety-case.js");
      end(safetyCaseCommand(options, terminal));
    });
  main
    .command("serve")
    .description("serve the pages of a folder's scenarios on this machine")
    .argument("[dir]", "the folder with the scenario files", ".")
    .option("--port <n>", "port to listen on; 0 for any free one", portNumber, DEFAULT_PORT)
    .option("--demo", "plan the folder's demo.yaml first and print it")
    .action(async (folder: string, options: ServeCommandOptions) => {
      const { serveCommand } = await import("./serve.js");
      end(await serveCommand(folder, options, terminal, untilStopped()));
    });
}
