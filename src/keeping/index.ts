/** Keeping: a plan beside its scenario with the weigh-in that is of it, both or neither. */
export { type Kept, keepPlan, keepTexts, textsToKeep } from "./keep.js";
