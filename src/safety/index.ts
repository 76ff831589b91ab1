/** What people must not eat, must treat first, must be told of or must use in time, and who says so. */
export {
  type Allergen,
  allergenLists,
  allergenSources,
  guestAllergens,
  namedAllergens,
} from "./allergens.js";
export { allergensOfDish, allergensOfPart, type Carried, mayContain } from "./carry.js";
export { NOT_JUDGED, SAFETY_RULES } from "./case.js";
export { checkSafety } from "./check.js";
export { criticalSteps } from "./check-hazards.js";
export * from "./dates.js";
export { DEFERENCE } from "./findings.js";
export { hazards, hazardsOf } from "./hazards/match.js";
export type { Hazard } from "./hazards/types.js";
export { holdingLines, holdingRules } from "./holding.js";
export * from "./life.js";
export { cookingMinimum, temperatureText } from "./limits.js";
export { itemsOfPart } from "./lineage.js";
export * from "./lot-dates.js";
export { safetyTableProblems } from "./tables/load.js";
