import type { Scenario } from "../../kitchen/index.js";
import { type Decimal, grams, NO_WEIGHT, ONE, total, type Weight, ZERO } from "../../quantity/index.js";
import { groupBy } from "../group.js";
import type { CookedSite } from "./portions.js";
import type { GoingOut, Settling } from "./settling.js";

interface RatedGoing {
  readonly going: GoingOut;
  readonly rate: Decimal;
}

/** What milligrams of rounding may take from a line besides. */
const HAIR = grams("0.01");

/**
 * What rounding each going by itself would do to a recipe line as a whole. Where all that goes into it is less than
 * the scale shows, it stays as it is: rounded, it would be nothing, or far too much.
 *
 * Several small goings rounded down to none can together leave a line short by more than half a step for each
 * of those that stay. There they get a step each, the largest first, until what stays suffices even where what was
 * rounded up is taken back; or, where a step were too much for the line, what was proposed.
 */
export function keepLinesWhole(
  settlings: readonly Settling[],
  cookings: readonly CookedSite[],
  { dishes, scaleStep }: Scenario,
): void {
  const rated = settlings.flatMap(({ lot, goings }) =>
    goings.map((going): RatedGoing => {
      const line = dishes.find(({ name }) => name === going.dish)?.lines[going.line];
      return { going, rate: line?.from.find(({ part }) => part === lot.part)?.rate ?? ONE };
    }),
  );
  const lines = groupBy(rated, ({ going: { dish, service, line } }) => JSON.stringify([dish, service, line]));
  for (const [, line] of lines.entries()) {
    if (isBelowOneStep(line, scaleStep)) {
      const isCooked = cookings.some((cooking) => line.some(({ going }) => isOf(going, cooking)));
      for (const { going } of line) going.weight = isCooked ? going.proposed : NO_WEIGHT;
      continue;
    }
    const isBeyond = (off: Decimal): boolean => {
      const allowed = sumOf(line, ({ weight }) => (weight > NO_WEIGHT ? scaleStep : NO_WEIGHT)).div(2);
      return off.plus(HAIR.toString()).greaterThan(allowed);
    };
    const isShort = (): boolean =>
      isBeyond(sumOf(line, ({ proposed, weight }) => (weight < proposed ? proposed - weight : 0n)));
    const isOver = (): boolean => isBeyond(sumOf(line, ({ proposed, weight }) => weight - proposed));
    const dropped = line
      .map(({ going }) => going)
      .filter(({ proposed, weight }) => weight === NO_WEIGHT && proposed > HAIR)
      .sort((one, other) => Number(other.proposed - one.proposed));
    for (const going of dropped) {
      if (!isShort()) break;
      going.weight = scaleStep;
      if (isOver()) going.weight = going.proposed;
    }
  }
}

function isBelowOneStep(line: readonly RatedGoing[], step: Weight): boolean {
  return total(line.map(({ going }) => going.proposed)) < step;
}

function isOf({ dish, service }: GoingOut, cooking: CookedSite): boolean {
  return cooking.dish === dish && cooking.service === service;
}

function sumOf(line: readonly RatedGoing[], of: (going: GoingOut) => bigint): Decimal {
  return line.reduce((sum, { going, rate }) => sum.plus(rate.times(of(going).toString())), ZERO);
}
