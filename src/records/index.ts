/** Records: the kitchen's files by name, saved whole or not at all. */
export { diskProblem } from "./faults.js";
export { planFile, weighInFile, yieldTestsFile } from "./names.js";
export { readText, textAt } from "./read.js";
export { changeFile, changeFiles, finishSaving, NotSaved } from "./save.js";
