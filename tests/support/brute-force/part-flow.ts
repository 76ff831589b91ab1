import { ceilingsKept } from "./ceilings.js";
import { amountsOf, type Chosen, choicesOf, type Question, type Rules } from "./choices.js";
import { type ItemPlan, sum } from "./item-plans.js";
import { lotsOf } from "./lots.js";
import type { Menu } from "./menus.js";
import { PartNetwork } from "./part-network.js";
import { lineNeeds } from "./recipe.js";
import { gramsAPortion, wastedPortions } from "./weighing.js";
import { wholeGrams } from "./whole.js";

/**
 * The least that wasted and kept parts can cost with a given menu and given cuts, or null when the parts do not
 * suffice. What makes no plain network (lossy steps, pots, rates, pieces, the cold room, ceilings) is tried out
 * amount by amount; the rest is a least-cost flow.
 */
export function leastPartCost(menu: Menu, plans: readonly ItemPlan[], rules: Rules): number | null {
  const { lots, draws } = lotsOf(plans, rules.scenario);
  const needs = lineNeeds(menu, lots, rules.scenario);
  const choices = choicesOf(lots, draws, needs, rules);
  const question: Question = { ...rules, menu, plans, lots, draws, needs, choices };
  let best: number | null = null;
  const chosen: Chosen[] = [];
  const visit = (index: number): void => {
    const choice = choices[index];
    if (choice === undefined) {
      const cost = costOf(chosen, question);
      if (cost !== null && (best === null || cost < best)) best = cost;
      return;
    }
    for (const grams of amountsOf(choice, chosen, question)) {
      chosen.push({ choice, grams });
      visit(index + 1);
      chosen.pop();
    }
  };
  visit(0);
  return best;
}

/** The cost of the best flow around what was chosen; null when a limit is broken or nothing fits. */
function costOf(chosen: readonly Chosen[], question: Question): number | null {
  if (!workFits(chosen, question) || !storesFit(chosen, question)) return null;
  if (!ceilingsKept(chosen, question)) return null;
  const net = new PartNetwork(question);
  if (!net.addLines(chosen)) return null;
  net.addLots(chosen);
  const cost = net.leastCost(chosen);
  return cost === null ? null : cost + wastedPortions(chosen, question);
}

function workFits(chosen: readonly Chosen[], { scenario, plans, menu }: Question): boolean {
  return scenario.services.every((service, index) => {
    const limit = service.handsMinutes ?? scenario.limits.handsMinutes;
    if (limit === null) return true;
    let work = plans.reduce((sum, plan) => sum + (plan.work[index] ?? 0), 0);
    for (const { choice, grams } of chosen) {
      if (choice.kind === "draw" && choice.draw.service === index)
        work += (choice.draw.step.minutesPerKilogram?.toNumber() ?? 0) * grams;
    }
    for (const { dish, service: at, portions } of menu.cookings) {
      if (at === index)
        work += ((dish.minutesPerBatch?.toNumber() ?? 0) * 1000 * portions) / (dish.batch?.portions ?? 1);
    }
    return work <= limit * 1000 + 1e-6;
  });
}

/** What must still be there after each service, cold or frozen, is no more than there is room for. */
function storesFit(chosen: readonly Chosen[], question: Question): boolean {
  const { scenario, plans, menu } = question;
  const { chilled, frozen } = scenario.limits;
  return scenario.services.every((_, after) => {
    if (frozen !== undefined && partsHeld("frozen", after, chosen, question) > wholeGrams(frozen))
      return false;
    if (chilled === null) return true;
    const isLast = after === scenario.services.length - 1;
    let held = partsHeld("chilled", after, chosen, question);
    for (const plan of plans)
      held += (plan.stock[after] ?? 0) + (isLast ? plan.kept * wholeGrams(plan.item.unitWeight) : 0);
    for (const cooking of menu.cookings) {
      for (const at of cooking.eaten) {
        if (cooking.service <= after && at.service > after && at.portions > 0)
          held += at.portions * gramsAPortion(cooking, chosen, question);
      }
    }
    return held <= wholeGrams(chilled) + 1e-6;
  });
}

/** By lot: what is used, worked and kept later than a service, less what is made of it later. */
function partsHeld(
  store: "chilled" | "frozen",
  after: number,
  chosen: readonly Chosen[],
  { lots }: Question,
): number {
  return sum(
    lots.map((lot) => {
      if (lot.first > after || (lot.part.state === "frozen") !== (store === "frozen")) return 0;
      let held = 0;
      for (const { choice, grams } of chosen) {
        if (choice.kind === "keep" && choice.lot === lot) held += grams;
        if (choice.kind === "use" && choice.lot === lot && choice.group.need.cooking.service > after)
          held += grams;
        if (choice.kind !== "draw" || choice.draw.service <= after) continue;
        if (choice.draw.from === lot) held += grams;
        for (const output of choice.draw.outputs)
          if (output.lot === lot) held -= output.fraction.toNumber() * grams;
      }
      return Math.max(0, held);
    }),
  );
}
