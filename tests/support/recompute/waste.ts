import { compare, Decimal, milligrams, sumOf, type Value, ZERO } from "./figures.js";
import type { PrintedLot, PrintedPlan, PrintedPrep } from "./printed.js";

/** Every term of the waste, what is counted of it, net spend, and the figure of the aim. */
export function wasteFaults(plan: PrintedPlan): string[] {
  const { waste, transfers, outcome } = plan;
  const into = (kind: string): Decimal =>
    sumOf(
      transfers.filter(({ to }) => to.startsWith(`${kind}:`)),
      ({ weight }) => weight,
    );
  const { counts } = waste;
  const counted = new Decimal(waste.foodWasted)
    .plus(waste.lostFood)
    .plus(new Decimal(waste.avoidablePeel).times(counts.avoidablePeel))
    .plus(new Decimal(waste.unusedUsable).times(counts.unusedUsable))
    .plus(new Decimal(waste.givenAway).times(counts.givenAway));
  const lost = [...waste.lostInCuts, ...waste.lostInSteps];
  return [
    ...compare("waste.foodWasted", waste.foodWasted, into("wastedFood")),
    ...compare("waste.givenAway", waste.givenAway, into("givenAway")),
    ...compare(
      "waste.lostFood",
      waste.lostFood,
      sumOf(lost, ({ lostFood }) => lostFood),
    ),
    ...cutFaults(plan),
    ...stepFaults(plan),
    ...compare("waste.avoidablePeel", waste.avoidablePeel, avoidablePeel(plan)),
    ...compare("waste.unusedUsable", waste.unusedUsable, thrown(plan, usable(plan))),
    ...compare("waste.counted", waste.counted, counted, milligrams(3)),
    ...figureFaults(plan),
    ...compare(
      "outcome.objective",
      outcome.objective ?? "0",
      new Decimal(outcome.beforeRounding ?? 0).plus(outcome.rounding ?? 0),
      "0.001",
    ),
    ...(new Decimal(outcome.bound ?? 0).minus(outcome.beforeRounding ?? 0).greaterThan("0.001")
      ? [`outcome.bound: ${outcome.bound} is above the figure it is a bound of`]
      : []),
  ];
}

/** The figure of the aim, of the plan as it is printed. */
function figureFaults({ aim, waste, money, wastePrice, outcome, keeps, leftovers }: PrintedPlan): string[] {
  const credits = keeps.map(({ name, limit, value }) => {
    const kept = sumOf(
      leftovers.filter(({ part, end }) => part === name && end === "kept"),
      ({ weight }) => weight,
    );
    return Decimal.min(kept, limit).div(1000).times(value);
  });
  const netSpend = new Decimal(money.spent ?? 0).minus(sumOf(credits, (credit) => credit));
  const figure = {
    waste: new Decimal(waste.counted),
    cost: netSpend,
    balanced: netSpend.plus(new Decimal(waste.counted).div(1000).times(wastePrice)),
  }[aim];
  const rounded = new Decimal("0.000001").plus(new Decimal("0.0001").times(credits.length));
  return compare(
    "outcome.objective",
    outcome.objective ?? "0",
    figure,
    aim === "waste" ? milligrams(1) : rounded,
  );
}

/** What each cut loses, and leaves as peel, beyond the least of its item's breakdowns. */
function cutFaults({ cuts, waste, parts }: PrintedPlan): string[] {
  const peel = new Set(parts.filter((part) => part.peel).map(({ part }) => part));
  if (waste.lostInCuts.length !== cuts.length) return ["waste.lostInCuts: not one of each cut"];
  return cuts.flatMap(({ item, weight, loss, leastLoss, leastPeel, parts: given }, index) => {
    const printed = waste.lostInCuts[index];
    const peeled = sumOf(
      given.filter(({ part }) => peel.has(part)),
      (each) => each.weight,
    );
    const beyond = (found: Value, least: string): Decimal =>
      new Decimal(found).minus(new Decimal(weight).times(least));
    const within = milligrams(given.length + 2);
    return [
      ...compare(
        `food lost in cut ${index + 1} of ${item}`,
        printed?.lostFood ?? 0,
        beyond(loss, leastLoss),
        within,
      ),
      ...compare(
        `peel beyond in cut ${index + 1} of ${item}`,
        printed?.peelBeyond ?? 0,
        beyond(peeled, leastPeel),
        within,
      ),
    ];
  });
}

/** What steps on food take off: beyond another for the same thing, and where what they gave was not needed. */
function stepFaults(plan: PrintedPlan): string[] {
  const { preps, waste, parts, goings, leftovers } = plan;
  const isFood = (name: string): boolean => parts.some((part) => part.part === name && part.class === "food");
  const worked = new Map(preps.map((prep) => [`${prep.step} ${originOf(prep)}`, prep]));
  const printed = (step: string, lot: PrintedLot): Decimal =>
    sumOf(
      waste.lostInSteps.filter((each) => each.step === step && originOf(each) === originOf(lot)),
      ({ lostFood }) => lostFood,
    );
  const unknown = waste.lostInSteps
    .filter((each) => !worked.has(`${each.step} ${originOf(each)}`))
    .map(({ step }) => `food lost in ${step}: is stated where it was not worked`);
  const faults = [...worked.values()].flatMap((first) => {
    const own = preps.filter((prep) => prep.step === first.step && originOf(prep) === originOf(first));
    const taken = sumOf(own, ({ weight }) => weight);
    const what = `food lost in ${first.step}`;
    if (taken.isZero() || !own.every(({ from }) => isFood(from)))
      return compare(what, printed(first.step, first), ZERO);
    const given = (name: string): Decimal =>
      sumOf(
        own.flatMap((prep) => prep.parts.filter(({ part }) => part === name)),
        ({ weight }) => weight,
      );
    const outputs = [...new Set(own.flatMap((prep) => prep.parts.map(({ part }) => part)))];
    const food = sumOf(outputs.filter(isFood), given);
    const off = Decimal.max(0, taken.minus(food)).div(taken);
    const made = madeBy(first, plan);
    const needed = sumOf(
      [
        ...goings.filter(({ needless }) => !needless.includes(first.step)),
        ...leftovers.filter(({ end }) => end === "kept"),
      ].filter((lot) => originOf(lot) === originOf(first)),
      ({ part, weight }) => (made.get(part) ?? ZERO).times(weight),
    );
    const lost = taken
      .times(first.beyond)
      .plus(Decimal.max(0, taken.minus(needed)).times(off.minus(first.beyond)));
    return compare(what, printed(first.step, first), lost, milligrams(5 * (own.length + goings.length)));
  });
  return [...unknown, ...faults];
}

/** Parts that came of a step, at once or by further steps of its origin, with the most weight taken for one of each. */
function madeBy(first: PrintedPrep, { preps }: PrintedPlan): ReadonlyMap<string, Decimal> {
  const most = new Map<string, Decimal>();
  const ofOrigin = preps.filter((prep) => originOf(prep) === originOf(first));
  const follow = (step: string, taken: Decimal): void => {
    const own = ofOrigin.filter((prep) => prep.step === step);
    const all = sumOf(own, ({ weight }) => weight);
    const given = own.flatMap(({ parts }) => parts);
    for (const part of new Set(given.map((each) => each.part))) {
      const weight = sumOf(
        given.filter((each) => each.part === part),
        (each) => each.weight,
      );
      const each = weight.isZero() ? ZERO : taken.times(all).div(weight);
      if (each.lessThanOrEqualTo(most.get(part) ?? 0)) continue;
      most.set(part, each);
      for (const further of new Set(ofOrigin.filter(({ from }) => from === part).map((prep) => prep.step)))
        follow(further, each);
    }
  };
  follow(first.step, new Decimal(1));
  return most;
}

/** By family: peel beyond the least, but no more than was thrown of what the cuts gave. */
function avoidablePeel(plan: PrintedPlan): Decimal {
  const { cuts, parts, waste } = plan;
  const families = [...new Set(cuts.map(({ family }) => family))];
  return sumOf(families, (family) => {
    const own = cuts.flatMap((cut, index) => (cut.family === family ? [{ cut, index }] : []));
    const given = new Set(own.flatMap(({ cut }) => cut.parts.map(({ part }) => part)));
    const peel = parts.filter((part) => part.peel && given.has(part.part)).map(({ part }) => part);
    const beyond = sumOf(own, ({ index }) => waste.lostInCuts[index]?.peelBeyond ?? 0);
    return Decimal.min(beyond, thrown(plan, peel, true));
  });
}

function usable({ parts }: PrintedPlan): string[] {
  return parts.filter((part) => part.usable).map(({ part }) => part);
}

function thrown({ leftovers }: PrintedPlan, parts: readonly string[], ofCutsOnly = false): Decimal {
  return sumOf(
    leftovers.filter(
      ({ part, kind, end, cutFor }) =>
        kind === "part" && end === "sent" && parts.includes(part) && !(ofCutsOnly && cutFor === null),
    ),
    ({ weight }) => weight,
  );
}

export function originOf({ cutFor, stock }: PrintedLot): string {
  return cutFor === null ? `on hand ${stock}` : `cut for ${cutFor}`;
}
