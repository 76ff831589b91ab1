import type { Step } from "../../../src/kitchen/index.js";
import { sum } from "./item-plans.js";
import type { LinearProgram, Term } from "./linear-program.js";
import type { Lot } from "./lots.js";
import { isPiece, negative, once, type PartProgram, pieceOf } from "./part-program.js";
import type { Question } from "./question.js";
import { choicesOf, isNeeded, madeBy, takenOffBy } from "./waste.js";

/** What steps may be worked for, and what is waste of what they take off. */
export function addWork(parts: PartProgram, question: Question): void {
  for (const lot of question.lots) addWorkedForUse(lot, parts, question);
  addUnneededWork(parts, question);
}

/**
 * Nobody peels a stem to be rid of it: what a step is worked for first is wasted or given away only as far as it
 * came some other way, as whole pieces had to be taken, or as what else the step gives is used.
 */
function addWorkedForUse(lot: Lot, parts: PartProgram, question: Question): void {
  const into = question.draws.filter(
    ({ step, outputs }) => outputs[0]?.lot === lot && !onlyRenames(step, lot.part.name, question),
  );
  if (lot.part.class !== "food" || into.length === 0) return;
  const over = [...parts.gifts, ...parts.wastes].filter((end) => end.lot === lot).map(once);
  const otherwise = parts.madeOf(
    lot,
    () => true,
    (draw) => !into.includes(draw),
  );
  const pieces = new Map(
    into
      .filter(({ from }) => isPiece(from))
      .map(({ step, from, outputs }) => [
        `${step.name} of ${from.index}`,
        pieceOf(from) * (outputs[0]?.fraction.toNumber() ?? 0),
      ]),
  );
  const besides = question.scenario.steps
    .filter(({ yields }) => yields[0]?.part === lot.part.name)
    .flatMap((step) => usesBesides(step, lot, parts));
  parts.program.row(
    [...over, ...negative([...otherwise, ...besides])],
    -Infinity,
    lot.supply + sum([...pieces.values()]),
  );
}

/** What a step gives first, of a lot, for all that is used of what else it gives. */
function usesBesides({ yields: [first, ...others] }: Step, { origin }: Lot, parts: PartProgram): Term[] {
  return others.flatMap(({ part, fraction }) => {
    if (first === undefined || fraction.isZero()) return [];
    const isOther = (lot: Lot): boolean => lot.origin === origin && lot.part.name === part;
    const ratio = first.fraction.div(fraction).toNumber();
    return [
      ...parts.usesOf(({ lot }) => isOther(lot)),
      ...parts.drawsOf(({ from }) => isOther(from)),
      ...parts.keeps.filter(({ lot }) => isOther(lot)).map(once),
    ].map(({ variable, times }) => ({ variable, times: times * ratio }));
  });
}

/** What a step takes off is waste as far as another would not, or as nobody needed what it gave. */
function addUnneededWork(parts: PartProgram, question: Question): void {
  const { scenario, draws, prices } = question;
  for (const step of scenario.steps) {
    const off = takenOffBy(step, scenario);
    if (off === null) continue;
    for (const { variable, unit, draw } of parts.draws)
      if (draw.step === step) parts.program.addCost(variable, off.beyond * prices.waste * unit);
    const own = draws.filter((draw) => draw.step === step);
    for (const origin of new Set(own.map(({ from }) => from.origin))) {
      const unneeded = parts.program.amount((off.all - off.beyond) * prices.waste);
      for (const sources of choicesOf(step)) {
        const worked = parts.drawsOf(
          (draw) =>
            draw.step === step && draw.from.origin === origin && sources.includes(draw.from.part.name),
        );
        const needed = madeBy(step, scenario)
          .map((made) => neededOf(made, { sources, origin }, parts, question))
          .filter((terms) => terms.length > 0);
        const over: Term[] = [{ variable: unneeded, times: 1 }, ...negative(worked)];
        if (needed.length < 2) parts.program.row([...over, ...needed.flat()], 0, Infinity);
        else addWorkedForOne(over, needed, parts.program);
      }
    }
  }
}

/** More grams than anything worked on a small scenario. */
const MANY_GRAMS = 1e5;

/** It is worked for the one thing of which most is wanted; what else it gives comes with it. */
function addWorkedForOne(over: readonly Term[], needed: readonly Term[][], program: LinearProgram): void {
  const chosen = needed.map((terms) => {
    const isFor = { variable: program.amount(0, { whole: true, most: 1 }), times: 1 };
    program.row([...over, ...terms, { ...isFor, times: -MANY_GRAMS }], -MANY_GRAMS, Infinity);
    return isFor;
  });
  program.row(chosen, 1, 1);
}

/** Grams that a step had to take of some sources for what came of one thing it gives to go where it did. */
function neededOf(
  made: ReadonlyMap<string, number>,
  work: { readonly sources: readonly string[]; readonly origin: string },
  parts: PartProgram,
  { scenario }: Question,
): Term[] {
  return [...made].flatMap(([part, taken]) => {
    const isMade = (lot: Lot): boolean => lot.origin === work.origin && lot.part.name === part;
    return [
      ...parts.usesOf(({ lot, group, need }) => isMade(lot) && isNeeded(group, work, need, scenario)),
      ...parts.keeps.filter(({ lot }) => isMade(lot)).map(once),
    ].map(({ variable, times }) => ({ variable, times: times * taken }));
  });
}

/** Whether a step gives a part of food gram for gram, as dicing rings does. */
function onlyRenames({ from, yields, water }: Step, part: string, { scenario }: Question): boolean {
  const isFood = (source: string): boolean =>
    scenario.parts.some(({ name, class: kind }) => name === source && kind === "food");
  const isWhole = yields.some((made) => made.part === part && made.fraction.equals(1));
  return isWhole && water.isZero() && from.every(isFood);
}
