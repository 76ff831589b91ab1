/** Waste accounts: what of a plan, or of what was done, is lost and wasted, by the Food Loss and Waste Standard. */
export {
  type AccountRow,
  accountOf,
  type CountedTotal,
  countedBy,
  type Material,
  periodOf,
  type Standing,
  type WasteAccount,
} from "./account.js";
export { type CooksWaste, cooksWasteOf } from "./cooks-waste.js";
export { COUNTING_RULES, COUNTS, type Count } from "./counting.js";
export { accountsCsv } from "./csv.js";
export { DESTINATION_FACTS, FLW_DESTINATIONS } from "./destinations.js";
export { statementOf } from "./statement.js";
