import type { LineSource, RecipeLine, Scenario } from "../../../src/kitchen/index.js";
import { Decimal } from "../../../src/quantity/index.js";
import { type Lot, mayWaitIn, usableAt } from "./lots.js";
import type { Menu, MenuCooking } from "./menus.js";
import { wholeGrams } from "./whole.js";

/** One recipe line of one cooking: raw grams it may count, each part at its rate. */
export interface LineNeed {
  readonly cooking: MenuCooking;
  readonly line: RecipeLine;
  readonly least: number;
  readonly most: number;
  readonly groups: readonly Group[];
}

/** All of one part, from any lot, that goes into one line. */
export interface Group {
  readonly need: { readonly cooking: MenuCooking; readonly line: RecipeLine };
  readonly source: LineSource;
  readonly rate: number;
  /** Lots it may come from at that service. */
  readonly lots: readonly Lot[];
}

export function lineNeeds(menu: Menu, lots: readonly Lot[], scenario: Scenario): LineNeed[] {
  return menu.cookings.flatMap((cooking) =>
    cooking.dish.lines.map((line) => {
      const need = { cooking, line };
      const raw = (perPortion: number): Decimal =>
        new Decimal(perPortion).times(cooking.portions).div(line.cookingYield);
      return {
        ...need,
        least: raw(wholeGrams(line.least)).toNumber(),
        most: raw(wholeGrams(line.most)).toNumber(),
        groups: line.from.map((source) => ({
          need,
          source,
          rate: source.rate.toNumber(),
          lots: lots.filter(
            (lot) =>
              lot.part.name === source.part &&
              usableAt(lot, cooking.service, scenario) &&
              cooking.eaten.every(
                ({ service, portions }) =>
                  portions === 0 || mayWaitIn(lot, cooking.service, service, scenario),
              ),
          ),
        })),
      };
    }),
  );
}

export function isExact({ line }: Pick<LineNeed, "line">): boolean {
  return line.least === line.most;
}

/** Whether a part of a line has a share to keep to. */
export function hasShare({ source }: Group): boolean {
  return source.leastShare.greaterThan(0) || source.mostShare.lessThan(1);
}
