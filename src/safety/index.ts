/** What people must not eat, must treat first, must be told of or must use in time, and who says so. */
export {
  ALLERGEN_LISTS,
  ALLERGENS,
  type Allergen,
  type AllergenListName,
  allergensOfItem,
  canonicalAllergen,
  listed,
} from "./allergens.js";
export { allergensOfDish, allergensOfPart, type Carried } from "./carry.js";
export { checkSafety } from "./check.js";
export { type CriticalStep, criticalSteps } from "./check-hazards.js";
export * from "./dates.js";
export { DEFERENCE, type SafetyBlock, type Warning } from "./findings.js";
export { HAZARDS, hazardsOf } from "./hazards/match.js";
export type { Hazard, Rule } from "./hazards/types.js";
export * from "./life.js";
export * from "./limits.js";
export { type Lineage, lineageOf } from "./lineage.js";
export { isPreserved, type Tcs, tcsOf, tcsOnceCut } from "./tcs.js";
export { isTreated } from "./treatments.js";
