import { hasMixedCosts } from "./ceilings.js";
import type { ItemPlan } from "./item-plans.js";
import { type Draw, lotsOf, usableAt } from "./lots.js";
import type { Menu } from "./menus.js";
import { PartProgram } from "./part-program.js";
import type { Question, Rules } from "./question.js";
import { lineNeeds } from "./recipe.js";
import { hasUseForPeel } from "./waste.js";
import { wholeGrams } from "./whole.js";

/**
 * The least that parts can cost with a given menu and given cuts, or null when they do not suffice. Of peel, the
 * lesser counts of what is beyond and what is thrown: so each family's is reckoned both ways. What steps take is
 * tried out where a ceiling asks what parts from more than one source cost; all the rest is a linear program.
 */
export function leastPartCost(menu: Menu, plans: readonly ItemPlan[], rules: Rules): number | null {
  const { scenario, prices } = rules;
  const { lots, draws } = lotsOf(plans, scenario);
  const needs = lineNeeds(menu, lots, scenario);
  const open = { ...rules, menu, plans, lots, draws, needs, drawn: null, peelThrown: new Set<string>() };
  const perGram = scenario.wasteCounts.avoidablePeel.toNumber() * prices.waste;
  const beyond = new Map<string, number>();
  for (const { item, peelBeyond } of plans) {
    if (peelBeyond > 0) beyond.set(item.of, (beyond.get(item.of) ?? 0) + peelBeyond * perGram);
  }
  let best: number | null = null;
  for (const peelThrown of subsets([...beyond.keys()].filter((family) => hasUseForPeel(family, scenario)))) {
    const fixed = [...beyond].reduce((sum, [family, cost]) => sum + (peelThrown.has(family) ? 0 : cost), 0);
    for (const drawn of hasMixedCosts(open) ? everyDrawing(open) : [null]) {
      const cost = new PartProgram({ ...open, drawn, peelThrown }).leastCost();
      if (cost !== null && (best === null || fixed + cost < best)) best = fixed + cost;
    }
  }
  return best;
}

function subsets(names: readonly string[]): ReadonlySet<string>[] {
  const sets: ReadonlySet<string>[] = [new Set()];
  for (const name of names) sets.push(...sets.map((set) => new Set([...set, name])));
  return sets;
}

/** Every way for the steps to take whole grains of what is there. */
function* everyDrawing(
  question: Pick<Question, "draws" | "grain" | "scenario">,
  sofar: ReadonlyMap<Draw, number> = new Map(),
): Generator<ReadonlyMap<Draw, number>> {
  const { draws, grain, scenario } = question;
  const draw = draws[sofar.size];
  if (draw === undefined) {
    yield sofar;
    return;
  }
  const { from, service, step, outputs } = draw;
  let room = from.supply;
  for (const [other, grams] of sofar) {
    if (other.from === from) room -= grams;
    for (const { lot, fraction } of other.outputs) if (lot === from) room += fraction.toNumber() * grams;
  }
  if (step.capacity !== null) room = Math.min(room, wholeGrams(step.capacity));
  if (!outputs.some(({ lot }) => usableAt(lot, service, scenario))) room = 0;
  const by = from.part.pieceWeight === null ? grain : wholeGrams(from.part.pieceWeight);
  for (let grams = 0; grams <= room + 1e-9; grams += by) {
    if (outputs.every(({ fraction }) => fraction.times(grams).isInteger()))
      yield* everyDrawing(question, new Map([...sofar, [draw, grams]]));
  }
}
