import { atLeast, atMost, compare, Decimal, milligrams, ONE, sumOf } from "./figures.js";
import { classOf, dishNamed } from "./lots.js";
import type { AskedLine, PrintedDish, PrintedGoing, PrintedPlan } from "./printed.js";

/** What goes into dishes: each line's weight and shares, whole pieces, and what a cooking weighs of it all. */
export function recipeFaults(plan: PrintedPlan): string[] {
  const { goings, dishes } = plan;
  return [
    ...goings
      .filter(({ dish, service }) => !dishes.some((each) => each.dish === dish && each.service === service))
      .map(({ part, dish, service }) => `${part} goes into ${dish} @ ${service}, which is not cooked`),
    ...goings
      .filter(({ part }) => classOf(part, plan) === "never")
      .map(({ part, dish }) => `${part} must never go into ${dish}`),
    ...pieceFaults(plan),
    ...dishes.flatMap((cooking) => cookingFaults(cooking, plan)),
  ];
}

function cookingFaults(cooking: PrintedDish, plan: PrintedPlan): string[] {
  const lines = dishNamed(cooking.dish, plan)?.lines ?? [];
  const into = plan.goings.filter(
    ({ dish, service }) => dish === cooking.dish && service === cooking.service,
  );
  const ofLine = (index: number): PrintedGoing[] => into.filter(({ lineNumber }) => lineNumber === index + 1);
  const weight = sumOf([...lines.entries()], ([index, { cookingYield }]) =>
    sumOf(ofLine(index), (going) => going.weight).times(cookingYield),
  );
  const what = `${cooking.dish} @ ${cooking.service}`;
  return [
    ...compare(`${what} weight by its lines`, cooking.weight, weight, milligrams(lines.length)),
    ...lines.flatMap((line, index) =>
      lineFaults(`${what}, ${line.line}`, line, cooking.portions, ofLine(index), plan),
    ),
  ];
}

/** What is over or short is no more than half a step of the scale for each going, at what the line counts it for. */
function lineFaults(
  what: string,
  line: AskedLine,
  portions: number,
  goings: readonly PrintedGoing[],
  { asked }: PrintedPlan,
): string[] {
  const rateOf = (part: string): Decimal =>
    new Decimal(line.from.find((source) => source.part === part)?.rate ?? 0).times(line.cookingYield);
  const counted = (list: readonly PrintedGoing[]): Decimal =>
    sumOf(list, ({ part, weight }) => rateOf(part).times(weight));
  const slack = sumOf(goings, ({ part }) => rateOf(part).times(asked.scaleStep).div(2));
  const sum = counted(goings);
  return [
    ...goings
      .filter(({ part }) => !line.from.some((source) => source.part === part))
      .map(({ part }) => `${what}: does not take ${part}`),
    ...atLeast(what, sum, new Decimal(line.least).times(portions), slack),
    ...atMost(what, sum, new Decimal(line.most).times(portions), slack),
    ...line.from.flatMap(({ part: name, leastShare, mostShare }) => {
      const own = counted(goings.filter(({ part }) => part === name));
      const share = `${what}, share of ${name}`;
      return [
        ...(new Decimal(leastShare).isZero() ? [] : atLeast(share, own, sum.times(leastShare), slack)),
        ...(ONE.equals(mostShare) ? [] : atMost(share, own, sum.times(mostShare), slack)),
      ];
    }),
  ];
}

/** All pieces of a part weigh the same, and what is worked of it is whole pieces. */
function pieceFaults({ goings, preps }: PrintedPlan): string[] {
  const counted = goings.filter(({ pieces }) => pieces !== null && pieces > 0);
  const first = new Map(counted.toReversed().map((going) => [going.part, going]));
  return [
    ...goings
      .filter(({ part, weight, pieces }) => {
        const other = first.get(part);
        return (
          other !== undefined &&
          !new Decimal(weight).times(other.pieces ?? 0).equals(new Decimal(other.weight).times(pieces ?? 0))
        );
      })
      .map(({ part, dish }) => `${part} does not go into ${dish} in whole pieces`),
    ...preps
      .filter(({ from, weight }) => {
        const other = first.get(from);
        return (
          other !== undefined &&
          !new Decimal(weight)
            .times(other.pieces ?? 0)
            .mod(other.weight)
            .isZero()
        );
      })
      .map(({ from, step }) => `${from} is not worked by ${step} in whole pieces`),
  ];
}
