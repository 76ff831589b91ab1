import type { Chosen, Question } from "./choices.js";
import { hasOneWeight, isWeighed, type MenuCooking, portionGrams } from "./menus.js";

/** Grams of one portion of a cooking, by what goes into it where that decides. */
export function gramsAPortion(cooking: MenuCooking, chosen: readonly Chosen[], { needs }: Question): number {
  if (hasOneWeight(cooking.dish)) return portionGrams(cooking.dish);
  let grams = 0;
  for (const need of needs.filter((other) => other.cooking === cooking)) {
    const raw = chosen.reduce(
      (sum, { choice, grams: amount }) =>
        (choice.kind === "use" || choice.kind === "group") && need.groups.includes(choice.group)
          ? sum + amount
          : sum,
      0,
    );
    grams += (isOpen(need) ? raw : need.least) * need.line.cookingYield.toNumber();
  }
  return grams / cooking.portions;
}

/** Whether a line's raw weight depends on what goes in. */
export function isOpen({ line }: Pick<Question["needs"][number], "line">): boolean {
  return line.least !== line.most || line.from.some(({ rate }) => !rate.equals(1));
}

/** Lines of which it must be known how much of each part goes in, for the sake of what portions weigh. */
export function mustBeWeighed(need: Question["needs"][number], scenario: Question["scenario"]): boolean {
  return isOpen(need) && isWeighed(need.cooking, scenario);
}

/** What wasted portions of no one weight count for. */
export function wastedPortions(chosen: readonly Chosen[], question: Question): number {
  return question.menu.cookings.reduce(
    (sum, cooking) =>
      cooking.wasted === 0 || hasOneWeight(cooking.dish)
        ? sum
        : sum + question.prices.waste * cooking.wasted * gramsAPortion(cooking, chosen, question),
    0,
  );
}
