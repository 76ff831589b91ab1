import type { Command } from "commander";
import type { FormsCommandOptions } from "../forms.js";
import type { RiskCommandOptions } from "../risk.js";
import type { TradeoffCommandOptions } from "../tradeoff.js";
import type { UsesCommandOptions } from "../uses.js";
import type { WorthCommandOptions } from "../worth.js";
import type { Run } from "./run.js";
import { DEFAULT_SECONDS, positive, wage, wholeAbove0, wholeFromTwo } from "./values.js";

const DEFAULT_DRAWS = 10_000;
const DEFAULT_WORTH_SECONDS = 120;
const DEFAULT_CURVE = { plans: 12, seconds: 60 };

/** The commands that answer what is asked of a plan. */
export function questionsCommands(main: Command, { terminal, end, begun }: Run): void {
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
      const { riskCommand } = await import("../risk.js");
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
      const { tradeoffCommand } = await import("../tradeoff.js");
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
      const { worthCommand } = await import("../worth.js");
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
      const { usesCommand } = await import("../uses.js");
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
      const { formsCommand } = await import("../forms.js");
      end(await formsCommand(file, options, terminal));
    });
}
