/** Keeping: a plan beside its scenario with the weigh-in that is of it, both or neither. */
export { type KeptFiles, keepPlan } from "./keep.js";
