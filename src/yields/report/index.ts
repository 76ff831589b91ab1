/** What tables and own tests say of an item, as text for the terminal and for pages alike. */
export {
  type BreakdownYields,
  type FormYields,
  type ItemYields,
  itemYields,
  type YieldsAndTests,
} from "./item-yields.js";
export type { TestedRow, TestedYields } from "./own-tests.js";
