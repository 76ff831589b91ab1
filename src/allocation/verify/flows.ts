import { type Decision, type Lot, lotKey, type Scenario, type Step } from "../../kitchen/index.js";
import { minus, NO_WEIGHT, ONE, plus, scale, times, toGrams, type Weight } from "../../quantity/index.js";
import { classesOf, isRenaming } from "../../waste/index.js";
import { totalWeight } from "../decision-weights.js";

type LotMovement = { readonly service: number; readonly weight: Weight };

/** A lot with all that comes into it and leaves it. */
class LotBook {
  /** Cut, or on hand. */
  direct = NO_WEIGHT;
  readonly made: (LotMovement & { readonly step: string; readonly first: boolean; readonly source: Lot })[] =
    [];
  readonly goings: LotMovement[] = [];
  readonly drawn: LotMovement[] = [];
  sent = NO_WEIGHT;
  kept = NO_WEIGHT;

  constructor(readonly lot: Lot) {}
}

/** Every lot of a decision, by its key. */
export function lotBooks(decision: Decision, scenario: Scenario): ReadonlyMap<string, Readonly<LotBook>> {
  const books = new Map<string, LotBook>();
  const book = (lot: Lot): LotBook => {
    const found = books.get(lotKey(lot)) ?? new LotBook(lot);
    books.set(lotKey(lot), found);
    return found;
  };
  const addDirect = (lot: Lot, weight: Weight): void => {
    const entry = book(lot);
    entry.direct = plus(entry.direct, weight);
  };
  scenario.partsOnHand.forEach(({ part, weight }, index) => {
    addDirect({ part, origin: { kind: "onHand", index } }, weight);
  });
  for (const { service, parts } of decision.cuts)
    for (const { part, weight } of parts) addDirect({ part, origin: { kind: "cut", service } }, weight);
  for (const { from, service, weight, parts, step } of decision.preps) {
    book(from).drawn.push({ service, weight });
    parts.forEach((given, index) => {
      const made = { service, weight: given.weight, step, first: index === 0, source: from };
      book({ part: given.part, origin: from.origin }).made.push(made);
    });
  }
  for (const { lot, service, weight } of decision.goings) book(lot).goings.push({ service, weight });
  for (const { lot, weight } of decision.sends) book(lot).sent = plus(book(lot).sent, weight);
  for (const { lot, weight } of decision.kept) book(lot).kept = plus(book(lot).kept, weight);
  return books;
}

/** Nothing goes on from a lot before a service that has not come into it by then, but for a step of the scale each. */
export function inTimeFaults(decision: Decision, scenario: Scenario): string[] {
  return [...lotBooks(decision, scenario).values()].flatMap(({ lot, direct, made, goings, drawn }) =>
    [...new Set([...goings, ...drawn].map(({ service }) => service))].flatMap((service) => {
      const by = <T extends { service: number }>(list: readonly T[]): T[] =>
        list.filter((entry) => entry.service <= service);
      const out = [...by(goings), ...by(drawn)];
      const short = minus(totalWeight(out), plus(direct, totalWeight(by(made))));
      return short > times(scenario.scaleStep, out.length)
        ? [
            `${lot.part}: ${toGrams(short)} g are used by ${scenario.services[service]?.name} that are made later`,
          ]
        : [];
    }),
  );
}

/**
 * What a step is worked for is used: of what it gives first only so much is over as came some other way, as its
 * by-products were wanted, as pieces had to be taken whole, and as weighing in steps of the scale adds.
 */
export function workedForUseFaults(decision: Decision, scenario: Scenario): string[] {
  const books = lotBooks(decision, scenario);
  const classOf = classesOf(scenario);
  const isMereRenaming = (name: string, part: string): boolean => {
    const step = stepOf(name, scenario);
    return step !== undefined && isRenaming(step, part, classOf);
  };
  return [...books.values()].flatMap((book) => {
    const { lot, direct, made, sent } = book;
    const isFood = scenario.parts.some(({ name, class: kind }) => name === lot.part && kind === "food");
    const mains = made.filter(({ step, first }) => first && !isMereRenaming(step, lot.part));
    if (!isFood || mains.length === 0) return [];
    let allowed = plus(direct, totalWeight(made.filter((entry) => !mains.includes(entry))));
    for (const { source, step } of mains) {
      const piece =
        scenario.parts.find(({ name }) => name === source.part)?.pieceWeight ?? scenario.scaleStep;
      const fraction = stepOf(step, scenario)?.yields[0]?.fraction ?? ONE;
      allowed = plus(allowed, scale(piece, fraction));
    }
    for (const { yields } of scenario.steps.filter((step) => step.yields[0]?.part === lot.part)) {
      const [main, ...others] = yields;
      for (const { part, fraction } of others) {
        const other = books.get(lotKey({ part, origin: lot.origin }));
        if (main === undefined || other === undefined || fraction.isZero()) continue;
        const used = plus(plus(totalWeight(other.goings), totalWeight(other.drawn)), other.kept);
        const rounded = times(scenario.scaleStep, movementsOf(other));
        allowed = plus(allowed, scale(plus(used, rounded), main.fraction.div(fraction)));
      }
    }
    allowed = plus(allowed, times(scenario.scaleStep, movementsOf(book)));
    const over = minus(sent, allowed);
    return over > NO_WEIGHT ? [`${lot.part}: ${toGrams(over)} g are made and not used`] : [];
  });
}

/** Movements out of a lot that rounding to the scale may have made less by a step. */
function movementsOf({ goings, drawn, kept }: Readonly<LotBook>): number {
  return goings.length + drawn.length + (kept > NO_WEIGHT ? 1 : 0);
}

function stepOf(name: string, { steps }: Scenario): Step | undefined {
  return steps.find((step) => step.name === name);
}

/** Parts that move whole are worked and go into dishes in whole pieces. */
export function pieceFaults({ preps, goings }: Decision, scenario: Scenario): string[] {
  const pieceOf = (part: string): Weight | null =>
    scenario.parts.find(({ name }) => name === part)?.pieceWeight ?? null;
  return [
    ...goings.flatMap(({ lot, dish, weight, pieces }) => {
      const piece = pieceOf(lot.part);
      const isWhole = piece === null ? pieces === null : weight === times(piece, pieces ?? 0);
      return isWhole ? [] : [`${dish}: ${lot.part} is not in whole pieces`];
    }),
    ...preps.flatMap(({ from, step, weight }) => {
      const piece = pieceOf(from.part);
      return piece === null || weight % piece === 0n ? [] : [`${step}: ${from.part} is not in whole pieces`];
    }),
  ];
}
