import type { Scenario } from "../../../src/kitchen/index.js";
import type { Ceilings } from "./ceilings.js";
import type { ItemPlan } from "./item-plans.js";
import type { Draw, Lot } from "./lots.js";
import type { Menu } from "./menus.js";
import type { LineNeed } from "./recipe.js";

/** What a gram of waste costs in the aim, and how many times over what is kept is credited. */
export interface Prices {
  readonly waste: number;
  readonly credit: number;
}

export interface Rules {
  readonly scenario: Scenario;
  readonly prices: Prices;
  readonly ceilings: Ceilings;
  /** Step in grams of the amounts that are tried out one by one. */
  readonly grain: number;
}

/** What is left to find when the menu and the cuts are decided. */
export interface Question extends Rules {
  readonly menu: Menu;
  readonly plans: readonly ItemPlan[];
  readonly lots: readonly Lot[];
  readonly draws: readonly Draw[];
  readonly needs: readonly LineNeed[];
  /** Grams that every step takes, where that must be known; null where it is found with the rest. */
  readonly drawn: ReadonlyMap<Draw, number> | null;
  /** Families whose peel costs what is thrown of it, and not what the thriftiest cuts would not have given. */
  readonly peelThrown: ReadonlySet<string>;
}
