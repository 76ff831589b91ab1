import type { CHECKS } from "../../../src/allocation/verify/index.js";
import type { Change } from "./changes.js";
import { HOUSE_RULES } from "./house-rules.js";
import { NAME_RULES } from "./name-rules.js";
import { SERVING_RULES } from "./serving-rules.js";
import { WEIGHT_RULES } from "./weight-rules.js";

/** One rule of a plan: the rows that hold the model to it, the check that finds it broken, and a plan that breaks it. */
export interface Rule {
  readonly rule: string;
  /** Families of rows of the model; none where what the model can say keeps the rule by itself. */
  readonly families: readonly string[];
  /** A check of the verifier; ceilings are judged by the ledger. */
  readonly check: keyof typeof CHECKS | "ceiling";
  readonly fault: RegExp;
  /** The smallest change of the good plan, or of what is asked, that breaks this rule and no other. */
  readonly broken: Change;
}

/** Every rule that the model keeps to or the README promises of a plan. */
export const RULES: readonly Rule[] = [...NAME_RULES, ...WEIGHT_RULES, ...SERVING_RULES, ...HOUSE_RULES];
