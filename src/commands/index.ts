/** The commands of the program, each from its arguments to its words on the terminal and its exit code. */

export { runProgram } from "./program.js";
export { EXIT, processTerminal } from "./terminal.js";
