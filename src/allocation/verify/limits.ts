import type { Decision, Scenario } from "../../kitchen/index.js";
import {
  larger,
  minus,
  NO_WEIGHT,
  plus,
  toGrams,
  toKilograms,
  total,
  type Weight,
  ZERO,
} from "../../quantity/index.js";
import type { Fault } from "./index.js";

const SLACK_MINUTES = 1;

function over(what: string, found: Weight, limit: Weight | null): Fault[] {
  return limit !== null && found > limit ? [`${what}: ${toGrams(minus(found, limit))} g over its limit`] : [];
}

/** Pots are over by no more than a step of the scale for each thing put in. */
export function potFaults(decision: Decision, scenario: Scenario): Fault[] {
  return scenario.steps.flatMap(({ name, capacity }) => {
    if (capacity === null) return [];
    return scenario.services.flatMap((service, index) => {
      const drawn = decision.preps.filter((prep) => prep.step === name && prep.service === index);
      const slack = plus(capacity, total(drawn.map(() => scenario.scaleStep)));
      return over(`${name} for ${service.name}`, total(drawn.map(({ weight }) => weight)), slack);
    });
  });
}

/** Hands-on minutes before each service; a step of the scale for each further step, and a minute, are for rounding. */
export function handsFaults(decision: Decision, scenario: Scenario): Fault[] {
  return scenario.services.flatMap((service, index) => {
    const limit = service.handsMinutes ?? scenario.limits.handsMinutes;
    if (limit === null) return [];
    const cuts = decision.cuts.map(({ item: name, breakdown, service: at, weight }) => {
      const item = scenario.items.find((entry) => entry.name === name);
      const minutes = item?.breakdowns.find((entry) => entry.name === breakdown)?.minutes ?? ZERO;
      return at === index && item !== undefined
        ? minutes.times(toGrams(weight)).div(toGrams(item.unitWeight))
        : ZERO;
    });
    const preps = decision.preps.map(({ step: name, service: at, weight }) => {
      const step = scenario.steps.find((entry) => entry.name === name);
      const surely = larger(NO_WEIGHT, minus(weight, scenario.scaleStep));
      return at === index ? (step?.minutesPerKilogram ?? ZERO).times(toKilograms(surely)) : ZERO;
    });
    const cookings = decision.cookings.map(({ dish: name, service: at, portions }) => {
      const dish = scenario.dishes.find((entry) => entry.name === name);
      const each = dish?.minutesPerBatch ?? ZERO;
      return at === index ? each.times(portions).div(dish?.batch?.portions ?? 1) : ZERO;
    });
    const over = [...cuts, ...preps, ...cookings]
      .reduce((sum, minutes) => sum.plus(minutes), ZERO)
      .minus(limit);
    return over.gt(SLACK_MINUTES)
      ? [`hands before ${service.name}: ${over.toFixed(1)} minutes too much`]
      : [];
  });
}

/** No more batches are cooked for a service than there are vessels for. */
export function vesselFaults(decision: Decision, scenario: Scenario): Fault[] {
  return scenario.limits.vessels.flatMap(({ vessel, most }) =>
    scenario.services.flatMap(({ name }, index) => {
      const taken = decision.cookings.reduce((sum, { dish, service, portions }) => {
        const batch = scenario.dishes.find((entry) => entry.name === dish)?.batch;
        return service === index && batch?.vessel === vessel
          ? sum + Math.ceil(portions / batch.portions)
          : sum;
      }, 0);
      return taken > most ? [`${vessel} for ${name}: ${taken} taken of ${most}`] : [];
    }),
  );
}
