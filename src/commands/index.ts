/** The commands of the program, each from its arguments to its words on the terminal and its exit code. */
export { EXIT, type ExitCode } from "./exit-code.js";
export { addCommands } from "./line/index.js";
export { processTerminal } from "./terminal.js";
