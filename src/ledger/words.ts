import type { CostingName } from "../kitchen/index.js";

/** What is said of the costing problems of each code. */
export const words = {
  noMarketValue: (part: string, item: string, costing: CostingName) => ({
    what: `${part} has no market value, and costing by ${costing} needs one for every food part of ${item}`,
    remedy: `State what a kilogram of ${part} sells for as its credit, or cost by edible weight`,
  }),
  /** Credits and cost in currency units, as text. */
  creditsAboveCost: (item: string, parts: readonly string[], credits: string, jointCost: string) => ({
    what: `The by-products of ${item} are credited with ${credits}, more than the ${jointCost} that all of it cost`,
    remedy: `Lower the credit of ${parts.join(", ")}, or cost by edible weight or sales value`,
  }),
};
