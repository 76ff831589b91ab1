/** The commands of the program, each from its arguments to its words on the terminal and its exit code. */

export { addCommands } from "./command-line.js";
export { EXIT, type ExitCode, processTerminal } from "./terminal.js";
