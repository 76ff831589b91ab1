/** The commands of the program, each from its arguments to its words on the terminal and its exit code. */
export { checkCommand } from "./check.js";
export { EXIT, type ExitCode } from "./exit-code.js";
export { type FormsCommandOptions, formsCommand } from "./forms.js";
export { newCommand } from "./new.js";
export { type PlanCommandOptions, planCommand } from "./plan.js";
export { type RecordCommandOptions, recordCommand } from "./record.js";
export { type ReplanCommandOptions, replanCommand } from "./replan.js";
export { type RiskCommandOptions, riskCommand } from "./risk.js";
export { safetyCaseCommand } from "./safety-case.js";
export { type ServeCommandOptions, serveCommand } from "./serve.js";
export { processTerminal } from "./terminal.js";
export { type TestCardOptions, testCardCommand } from "./test-card.js";
export { type TradeoffCommandOptions, tradeoffCommand } from "./tradeoff.js";
export { type UsesCommandOptions, usesCommand } from "./uses.js";
export { type WasteCommandOptions, wasteCommand } from "./waste.js";
export { type WeighInCommandOptions, weighInCommand } from "./weigh-in.js";
export { type WorthCommandOptions, worthCommand } from "./worth.js";
export { type YieldCommandOptions, yieldCommand } from "./yield.js";
