/** Every gram and every coin of a decision as a transfer between accounts, its totals, and what each dish cost. */
export * from "./accounts.js";
export * from "./aims.js";
export * from "./ceiling.js";
export * from "./costing/problems.js";
export * from "./costs-shown.js";
export { binFor } from "./directory.js";
export * from "./errors.js";
export * from "./keep-ledger.js";
export * from "./ledger.js";
export * from "./totals.js";
