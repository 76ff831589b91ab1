/** Which form of an item to buy: the plans with each alone, and the price below which it is worth it. */
export { composeFormChoice, planFormChoice } from "./compose.js";
