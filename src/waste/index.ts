/** What counts as waste: one definition, which aim, ledger, verifier, curve and pages share. */

export * from "./step-losses.js";
export * from "./steps.js";
export * from "./waste-of.js";
