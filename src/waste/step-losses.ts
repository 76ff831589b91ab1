import {
  type Decision,
  type Going,
  type Lot,
  type LotOrigin,
  originKey,
  type Scenario,
  type Step,
} from "../kitchen/index.js";
import {
  larger,
  minus,
  NO_WEIGHT,
  plus,
  scale,
  smaller,
  times,
  total,
  type Weight,
  ZERO,
} from "../quantity/index.js";
import { classesOf, takenOffBy, takesAsItIs, worksInto } from "./steps.js";

/** Food that a step on food of one origin loses, where it was not needed, or where another would lose less. */
export interface LossOfStep {
  readonly step: string;
  readonly origin: LotOrigin;
  readonly lost: Weight;
}

/** What each step loses, by what it was worked on; nothing of steps that lose nothing. */
export function stepLosses(scenario: Scenario, decision: Decision): LossOfStep[] {
  const classOf = classesOf(scenario);
  return scenario.steps.flatMap((step) => {
    const takenOff = takenOffBy(step, scenario, classOf);
    if (takenOff === null) return [];
    const origins = new Map(
      decision.preps
        .filter((prep) => prep.step === step.name)
        .map(({ from }) => [originKey(from.origin), from.origin]),
    );
    return [...origins.values()].flatMap((origin) => {
      const weight = workedBy(step, origin, decision);
      const beyond = minus(weight, smaller(weight, neededFor(step, origin, decision, scenario)));
      const needless = beyond > roundingOf(step, origin, decision, scenario) ? beyond : NO_WEIGHT;
      const lost = plus(scale(weight, takenOff.beyond), scale(needless, takenOff.all.minus(takenOff.beyond)));
      return lost === NO_WEIGHT ? [] : [{ step: step.name, origin, lost }];
    });
  });
}

function workedBy({ name }: Step, origin: LotOrigin, { preps }: Decision): Weight {
  return total(
    preps
      .filter((prep) => prep.step === name && originKey(prep.from.origin) === originKey(origin))
      .map(({ weight }) => weight),
  );
}

/** What weighing in steps of the scale may add to the weight worked: a step for each movement behind it. */
function roundingOf(step: Step, origin: LotOrigin, decision: Decision, scenario: Scenario): Weight {
  const stands = worksInto(step, scenario);
  const lots = [...decision.goings, ...decision.kept].map(({ lot }) => lot);
  const movements = [...lots, ...decision.preps.map(({ from }) => from)].filter(
    (lot) =>
      originKey(lot.origin) === originKey(origin) &&
      (step.from.includes(lot.part) || stands.some((given) => given.has(lot.part))),
  );
  return times(scenario.scaleStep, movements.length);
}

/** The steps behind a going that its line could have done without: it takes what they were worked on as it is. */
export function needlessSteps({ lot, dish, service, line: index }: Going, scenario: Scenario): string[] {
  const line = scenario.dishes.find(({ name }) => name === dish)?.lines[index];
  if (line === undefined) return [];
  const classOf = classesOf(scenario);
  return scenario.steps
    .filter(
      (step) =>
        takenOffBy(step, scenario, classOf) !== null &&
        worksInto(step, scenario).some((stands) => stands.has(lot.part)) &&
        takesAsItIs({ line, service, part: lot.part, origin: lot.origin }, step, scenario),
    )
    .map(({ name }) => name);
}

/**
 * Weight that a step had to take for the lines that could not have had it as it was, and for what is kept: of what it
 * gives, for that of which most was wanted.
 */
function neededFor(step: Step, origin: LotOrigin, decision: Decision, scenario: Scenario): Weight {
  const dishes = new Map(scenario.dishes.map((dish) => [dish.name, dish]));
  const ofOrigin = ({ origin: other }: Lot): boolean => originKey(other) === originKey(origin);
  const needed = worksInto(step, scenario).map((stands) => {
    const taken = ({ part }: Lot, weight: Weight): Weight => scale(weight, stands.get(part) ?? ZERO);
    const goings = decision.goings.map(({ lot, dish, service, line: index, weight }) => {
      const line = dishes.get(dish)?.lines[index];
      if (line === undefined || !ofOrigin(lot) || !stands.has(lot.part)) return NO_WEIGHT;
      const isNeedless = takesAsItIs({ line, service, part: lot.part, origin }, step, scenario);
      return isNeedless ? NO_WEIGHT : taken(lot, weight);
    });
    const kept = decision.kept.map(({ lot, weight }) => (ofOrigin(lot) ? taken(lot, weight) : NO_WEIGHT));
    return total([...goings, ...kept]);
  });
  return needed.reduce(larger, NO_WEIGHT);
}
