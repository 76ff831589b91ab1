/** Waste accounts: what of a plan, or of what was done, is lost and wasted, by the Food Loss and Waste Standard. */
export {
  type AccountRow,
  accountOf,
  type CooksWaste,
  type CountedTotal,
  cooksWasteOf,
  countedBy,
  type Material,
  periodOf,
  type Standing,
  type WasteAccount,
} from "./account.js";
export { COUNTING_RULES, COUNTS, type Count, DESTINATION_FACTS, FLW_DESTINATIONS } from "./destinations.js";
export { accountsCsv, statementOf } from "./statement.js";
