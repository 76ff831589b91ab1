import type { Scenario } from "../../../src/kitchen/index.js";
import { type Ceilings, mustKnowGoings } from "./ceilings.js";
import type { ItemPlan } from "./item-plans.js";
import { type Draw, type Lot, outlastsPlan, usableAt } from "./lots.js";
import type { Menu } from "./menus.js";
import { type Group, hasShare, isExact, type LineNeed } from "./recipe.js";
import { mustBeWeighed } from "./weighing.js";
import { wholeGrams } from "./whole.js";

/** What a gram of wasted food costs in the aim, and how many times over what is kept is credited. */
export interface Prices {
  readonly waste: number;
  readonly credit: number;
}

export interface Rules {
  readonly scenario: Scenario;
  readonly prices: Prices;
  readonly ceilings: Ceilings;
  /** Step in grams of every amount that is tried out one by one. */
  readonly grain: number;
}

/** An amount that is tried out; all others are found as a flow. */
export type Choice =
  | { readonly kind: "draw"; readonly draw: Draw }
  | { readonly kind: "use"; readonly lot: Lot; readonly group: Group }
  | { readonly kind: "group"; readonly group: Group }
  | { readonly kind: "keep"; readonly lot: Lot };

export interface Chosen {
  readonly choice: Choice;
  readonly grams: number;
}

export interface Question extends Rules {
  readonly menu: Menu;
  readonly plans: readonly ItemPlan[];
  readonly lots: readonly Lot[];
  readonly draws: readonly Draw[];
  readonly needs: readonly LineNeed[];
  readonly choices: readonly Choice[];
}

/** Every amount that must be tried out before the rest is a plain network. */
export function choicesOf(
  lots: readonly Lot[],
  draws: readonly Draw[],
  needs: readonly LineNeed[],
  rules: Rules,
): Choice[] {
  const { scenario } = rules;
  const chilled = scenario.limits.chilled !== null || scenario.limits.frozen !== undefined;
  const known = mustKnowGoings(draws, needs, rules);
  const uses: Choice[] = [];
  const groups: Choice[] = [];
  for (const need of needs) {
    const shared = !isExact(need) && need.groups.some(hasShare);
    for (const group of need.groups) {
      const tried = group.lots.filter(
        (lot) =>
          lot.part.pieceWeight !== null ||
          (chilled && lot.first < need.cooking.service) ||
          known.uses.has(need),
      );
      for (const lot of tried) uses.push({ kind: "use", lot, group });
      const mustBeKnown =
        group.rate !== 1 || shared || known.groups.has(need) || mustBeWeighed(need, scenario);
      if (mustBeKnown && tried.length < group.lots.length) groups.push({ kind: "group", group });
    }
  }
  return [
    ...draws.filter((draw) => !draw.plain || known.draws).map((draw): Choice => ({ kind: "draw", draw })),
    ...uses,
    ...groups,
    ...lots
      .filter((lot) => chilled && lot.part.carry !== null && outlastsPlan(lot, scenario))
      .map((lot): Choice => ({ kind: "keep", lot })),
  ];
}

/** The amounts worth trying, given those chosen so far. */
export function* amountsOf(choice: Choice, chosen: readonly Chosen[], question: Question): Generator<number> {
  switch (choice.kind) {
    case "draw": {
      const { step, from, service, outputs } = choice.draw;
      const taken = total(
        chosen,
        (other) => other.kind === "draw" && other.draw.step === step && other.draw.service === service,
      );
      const capacity = step.capacity === null ? Infinity : wholeGrams(step.capacity) - taken;
      const room = Math.min(mostLeft(from, chosen, question), capacity);
      const by = from.part.pieceWeight === null ? question.grain : pieceOf(from);
      for (let grams = 0; grams <= room; grams += by) {
        const whole = outputs.every(({ fraction }) => isWhole(fraction.toNumber() * grams));
        const inTime = grams === 0 || outputs.every(({ lot }) => usableAt(lot, service, question.scenario));
        if (whole && inTime) yield grams;
      }
      return;
    }
    case "use": {
      const { lot, group } = choice;
      const only = onlyAmount(choice, chosen, question);
      if (only !== null) {
        const piece = lot.part.pieceWeight === null ? 1 : pieceOf(lot);
        if (only >= 0 && only % piece === 0 && only <= mostLeft(lot, chosen, question)) yield only;
        return;
      }
      const room = Math.min(mostLeft(lot, chosen, question), mostInto(group, chosen, question));
      const step = lot.part.pieceWeight === null ? question.grain : pieceOf(lot);
      for (let grams = 0; grams <= room; grams += step) if (isWhole(grams * group.rate)) yield grams;
      return;
    }
    case "group": {
      const { group } = choice;
      const only = onlyAmount(choice, chosen, question);
      if (only !== null) {
        if (only >= 0) yield only;
        return;
      }
      const known = total(chosen, (other) => other.kind === "use" && other.group === group);
      const room = mostInto(group, chosen, question);
      const there = group.lots.reduce((sum, lot) => sum + mostLeft(lot, chosen, question), 0);
      for (let grams = 0; grams <= Math.min(room, there); grams += question.grain) {
        if (isWhole((known + grams) * group.rate)) yield grams;
      }
      return;
    }
    case "keep": {
      const { lot } = choice;
      const kept = total(chosen, (other) => other.kind === "keep" && other.lot.part === lot.part);
      const limit = lot.part.carry === null ? 0 : wholeGrams(lot.part.carry.limit) - kept;
      for (let grams = 0; grams <= Math.min(limit, mostLeft(lot, chosen, question)); grams += question.grain)
        yield grams;
    }
  }
}

/**
 * What is left for the last amount to be tried in an exact line that has no other; null where the line may
 * still take one amount or another.
 */
function onlyAmount(
  choice: Extract<Choice, { kind: "use" | "group" }>,
  chosen: readonly Chosen[],
  { needs, choices }: Question,
): number | null {
  const need = needs.find(({ groups }) => groups.includes(choice.group));
  if (need === undefined || !isExact(need)) return null;
  const inLine = choices.filter(
    (other): other is typeof choice =>
      (other.kind === "use" || other.kind === "group") && need.groups.includes(other.group),
  );
  const closed = need.groups.every((group) => {
    const own = inLine.filter((other) => other.group === group);
    return own.some(({ kind }) => kind === "group") || own.length === group.lots.length;
  });
  if (!closed || inLine.at(-1) !== choice) return null;
  const rated = chosen.reduce(
    (all, { choice: other, grams }) =>
      (other.kind === "use" || other.kind === "group") && need.groups.includes(other.group)
        ? all + grams * other.group.rate
        : all,
    0,
  );
  const left = (need.least - rated) / choice.group.rate;
  return isWhole(left) ? Math.round(left) : -1;
}

export function pieceOf({ part }: Lot): number {
  return part.pieceWeight === null ? 1 : wholeGrams(part.pieceWeight);
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-9;
}

function total(chosen: readonly Chosen[], fits: (choice: Choice) => boolean): number {
  return chosen.reduce((sum, { choice, grams }) => (fits(choice) ? sum + grams : sum), 0);
}

/** At most what a lot can still hold, plain steps into it included. */
function mostLeft(lot: Lot, chosen: readonly Chosen[], question: Question): number {
  let left = lot.supply;
  for (const { choice, grams } of chosen) {
    if (choice.kind === "draw") {
      if (choice.draw.from === lot) left -= grams;
      for (const output of choice.draw.outputs)
        if (output.lot === lot) left += output.fraction.toNumber() * grams;
    } else if (choice.kind !== "group" && choice.lot === lot) left -= grams;
  }
  const sources = new Set(
    question.draws
      .filter((draw) => draw.outputs.some((output) => output.lot === lot) && isFlow(draw, question))
      .map(({ from }) => from),
  );
  for (const source of sources) left += Math.max(0, mostLeft(source, chosen, question));
  return Math.round(left);
}

/** Whether a step's takings are left to the flow. */
export function isFlow(draw: Draw, { choices }: Question): boolean {
  return !choices.some((choice) => choice.kind === "draw" && choice.draw === draw);
}

/** Most grams of a part that its line has room for. */
function mostInto(group: Group, chosen: readonly Chosen[], { needs }: Question): number {
  const need = needs.find(({ groups }) => groups.includes(group));
  if (need === undefined) return 0;
  const rated = chosen.reduce(
    (sum, { choice, grams }) =>
      (choice.kind === "use" || choice.kind === "group") && need.groups.includes(choice.group)
        ? sum + grams * choice.group.rate
        : sum,
    0,
  );
  return Math.floor((need.most - rated) / group.rate + 1e-9);
}
