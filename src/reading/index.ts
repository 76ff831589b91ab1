/** YAML and CSV text to values that know their file, line and column, and the list of problems. */
export * from "./problem.js";
