import type { Decimal, Weight } from "../../src/quantity/index.js";

/** How far what might be called waste counts as waste, 1 being in full. */
export interface WasteCounts {
  readonly avoidablePeel: Decimal;
  readonly unusedUsable: Decimal;
  readonly givenAway: Decimal;
}

/** Until the nouns of the kitchen have these themselves: delete this file then, and the imports of it. */
declare module "../../src/kitchen/scenario.js" {
  interface Scenario {
    readonly wasteCounts?: WasteCounts;
  }
  interface Part {
    readonly isPeel?: boolean;
  }
  interface ItemOnHand {
    readonly destination?: string;
  }
  interface PartOnHand {
    readonly destination?: string;
  }
}

declare module "../../src/kitchen/services.js" {
  interface Limits {
    /** Most weight of frozen parts after any service. */
    readonly frozen?: Weight;
  }
}
