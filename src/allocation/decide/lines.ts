import type { Scenario } from "../../kitchen/index.js";
import { type Decimal, grams, NO_WEIGHT, ONE, ZERO } from "../../quantity/index.js";
import { groupBy } from "../group.js";
import type { GoingOut, Settling } from "./settling.js";

interface RatedGoing {
  readonly going: GoingOut;
  readonly rate: Decimal;
}

/** What milligrams of rounding may take from a line besides. */
const HAIR = grams("0.01");

/**
 * Several small goings rounded down to none can together leave a recipe line short by more than half a step for each
 * of those that stay. There they get a step each, the largest first, until what stays suffices even where what was
 * rounded up is taken back.
 */
export function keepLinesWhole(settlings: readonly Settling[], { dishes, scaleStep }: Scenario): void {
  const rated = settlings.flatMap(({ lot, goings }) =>
    goings.map((going): RatedGoing => {
      const line = dishes.find(({ name }) => name === going.dish)?.lines[going.line];
      return { going, rate: line?.from.find(({ part }) => part === lot.part)?.rate ?? ONE };
    }),
  );
  const lines = groupBy(rated, ({ going: { dish, service, line } }) => JSON.stringify([dish, service, line]));
  for (const [, line] of lines.entries()) {
    const isShort = (): boolean => {
      const short = sumOf(line, ({ proposed, weight }) => (weight < proposed ? proposed - weight : 0n));
      const allowed = sumOf(line, ({ weight }) => (weight > NO_WEIGHT ? scaleStep : NO_WEIGHT)).div(2);
      return short.plus(HAIR.toString()).greaterThan(allowed);
    };
    const dropped = line
      .map(({ going }) => going)
      .filter(({ proposed, weight }) => weight === NO_WEIGHT && proposed > HAIR)
      .sort((one, other) => Number(other.proposed - one.proposed));
    for (const going of dropped) {
      if (!isShort()) break;
      going.weight = scaleStep;
    }
  }
}

function sumOf(line: readonly RatedGoing[], of: (going: GoingOut) => bigint): Decimal {
  return line.reduce((sum, { going, rate }) => sum.plus(rate.times(of(going).toString())), ZERO);
}
