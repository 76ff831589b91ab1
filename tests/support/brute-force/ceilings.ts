import type { Scenario } from "../../../src/kitchen/index.js";
import { bearers, CutMoney, NOTHING } from "./cut-money.js";
import { sum } from "./item-plans.js";
import type { Term } from "./linear-program.js";
import type { Draw, Lot } from "./lots.js";
import { stapleCost } from "./menus.js";
import type { PartProgram, Use } from "./part-program.js";
import type { Question } from "./question.js";
import { isExact } from "./recipe.js";
import { Ratio, tenMillionths, wholeGrams, wholeNumber, wholePart } from "./whole.js";

/**
 * How a dish is held to its ceiling: by what its parts really cost, each item's cost shared by weight among its
 * cuts and by the costing method within each; or by the least each part could cost, whatever is bought.
 */
export type Ceilings = "real cost" | "least cost";

/** Whether a lot comes of more than one source, so that what it costs depends on how much of each there is. */
export function hasMixedCosts({ ceilings, menu, lots, draws }: Question): boolean {
  if (ceilings === "least cost" || menu.cookings.every(({ dish }) => dish.ceiling === null)) return false;
  return lots.some((lot) => {
    const sources = new Set(drawsInto(lot, draws).map(({ step, from }) => `${step.name} ${from.index}`));
    return sources.size + (lot.supply > 0 ? 1 : 0) > 1;
  });
}

/** Holds every dish to at most its ceiling for each portion cooked. */
export function addCeilings(parts: PartProgram, question: Question): void {
  const judged = question.menu.cookings.filter(({ dish }) => dish.ceiling !== null);
  if (judged.length === 0) return;
  const money = new CutMoney(question);
  const real = realCosts(question, money);
  const least = leastCosts(question.scenario);
  for (const cooking of judged) {
    const { dish, portions } = cooking;
    const most = (dish.ceiling === null ? 0 : tenMillionths(dish.ceiling)) * portions;
    const uses = parts.uses.filter(({ need }) => need.cooking === cooking);
    const terms = uses.map((use) => {
      const cost = question.ceilings === "least cost" ? least(use.lot.part.name) : real(use.lot);
      return { variable: use.variable, times: cost.toNumber() * use.unit };
    });
    const credits = question.ceilings === "least cost" ? [] : creditsOf(uses, parts, money);
    parts.program.row([...terms, ...credits], -Infinity, most - stapleCost(dish, portions));
  }
}

/**
 * What the use of by-products takes off of what main parts cost, where the costing credits them. How much of the main
 * part goes into the dish must then be known: one exact line of one part.
 */
function creditsOf(uses: readonly Use[], parts: PartProgram, money: CutMoney): Term[] {
  const mains = uses.filter(({ lot }) => money.creditsBehind(lot).length > 0);
  const [first] = mains;
  if (first === undefined) return [];
  const { need, group, lot } = first;
  if (
    !isExact(need) ||
    need.groups.length > 1 ||
    group.lots.length > 1 ||
    mains.some((use) => use.lot !== lot || use.need !== need)
  )
    throw new RangeError(`the referee does not know how much ${lot.part.name} a dish takes`);
  const grams = need.least / group.rate;
  return money.creditsBehind(lot).flatMap(({ lot: credited, perGram }) => {
    const used: Term[] = [
      ...parts.usesOf((use) => use.lot === credited),
      ...parts.drawsOf((draw) => draw.from === credited),
      ...[...parts.keeps, ...parts.gifts]
        .filter((end) => end.lot === credited)
        .map(({ variable }) => ({ variable, times: 1 })),
    ];
    return used.map(({ variable, times }) => ({ variable, times: -times * perGram * grams }));
  });
}

function drawsInto(lot: Lot, draws: readonly Draw[]): Draw[] {
  return draws.filter(({ outputs }) => outputs.some((output) => output.lot === lot));
}

/** Ten-millionths of the currency unit for a gram of each lot, before what by-products take off. */
function realCosts(question: Question, money: CutMoney): (lot: Lot) => Ratio {
  const { scenario, draws, drawn } = question;
  const known = new Map<Lot, Ratio>();
  const costOf = (lot: Lot): Ratio => {
    const found = known.get(lot);
    if (found !== undefined) return found;
    let cost = lot.origin.startsWith("cut") ? money.of(lot) : heldMoney(lot, scenario);
    let weight = lot.supply;
    const into = drawsInto(lot, draws);
    // Where all comes by one step of one source, any weight taken shows what a gram costs.
    for (const draw of drawn === null && weight === 0 ? into.slice(0, 1) : into) {
      const grams = drawn === null ? SHOWN : (drawn.get(draw) ?? 0);
      if (grams === 0 || (drawn === null && weight > 0)) continue;
      const outputs = draw.outputs.map((output) => ({
        part: output.lot.part.name,
        lot: output.lot,
        grams: wholePart(grams, output.fraction),
      }));
      const own = sum(outputs.filter((output) => output.lot === lot).map((output) => output.grams));
      const bearing = bearers(outputs, scenario);
      const borne = sum(bearing.filter((output) => output.lot === lot).map((output) => output.grams));
      const all = sum(bearing.map((output) => output.grams));
      if (all > 0)
        cost = cost.plus(costOf(draw.from).times(new Ratio(BigInt(grams) * BigInt(borne), BigInt(all))));
      weight += own;
    }
    const each = weight === 0 ? NOTHING : cost.times(new Ratio(1n, BigInt(weight)));
    known.set(lot, each);
    return each;
  };
  return costOf;
}

/** Grams of which every output of a step is whole. */
const SHOWN = 1_000_000;

function heldMoney(lot: Lot, scenario: Scenario): Ratio {
  const stock = scenario.partsOnHand.find(
    (entry, index) => lot.origin === `on hand ${index}` && entry.part === lot.part.name,
  );
  return new Ratio(BigInt(stock === undefined ? 0 : tenMillionths(stock.value)), 1n);
}

/** Ten-millionths for a gram of each part at the least it can cost, whatever is bought, cut and worked. */
function leastCosts(scenario: Scenario): (part: string) => Ratio {
  const least = new Map<string, Ratio>();
  const offer = (part: string, cost: Ratio): boolean => {
    const found = least.get(part);
    if (found?.atMost(cost)) return false;
    least.set(part, cost);
    return true;
  };
  for (const item of scenario.items) {
    const unit = wholeGrams(item.unitWeight);
    const prices = item.onHand.map(
      ({ value, weight }) => new Ratio(BigInt(tenMillionths(value)), BigInt(wholeGrams(weight))),
    );
    if (item.buying !== null) {
      const most = item.buying.most ?? Number.POSITIVE_INFINITY;
      const reached = (item.buying.breaks ?? []).filter(({ from }) => from <= most);
      const price = reached.at(-1)?.price ?? item.buying.price;
      prices.push(new Ratio(BigInt(tenMillionths(price)), BigInt(wholeGrams(item.orderUnit.weight))));
    }
    const gram = prices.reduce((best, price) => (price.atMost(best) ? price : best), prices[0] ?? NOTHING);
    for (const { yields } of item.breakdowns) {
      const outputs = yields.map(({ part, fraction }) => ({ part, grams: wholePart(unit, fraction) }));
      const bearing = bearers(outputs, scenario);
      const all = sum(bearing.map(({ grams }) => grams));
      for (const output of outputs)
        offer(
          output.part,
          bearing.includes(output) ? gram.times(new Ratio(BigInt(unit), BigInt(all))) : NOTHING,
        );
    }
  }
  for (const { part, value, weight } of scenario.partsOnHand)
    offer(part, new Ratio(BigInt(tenMillionths(value)), BigInt(wholeGrams(weight))));
  for (let changed = true; changed; ) {
    changed = false;
    for (const { from, yields } of scenario.steps) {
      for (const source of from) {
        const cost = least.get(source);
        if (cost === undefined) continue;
        const outputs = yields.map(({ part, fraction }) => ({
          part,
          grams: wholeNumber(fraction.times(10_000), part),
        }));
        const bearing = bearers(outputs, scenario);
        const all = sum(bearing.map(({ grams }) => grams));
        for (const output of outputs) {
          const made = bearing.includes(output) ? cost.times(new Ratio(10_000n, BigInt(all))) : NOTHING;
          changed = offer(output.part, made) || changed;
        }
      }
    }
  }
  return (part) => least.get(part) ?? NOTHING;
}
