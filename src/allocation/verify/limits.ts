import type { Decision, Scenario } from "../../kitchen/index.js";
import { minus, plus, toGrams, toKilograms, total, type Weight, ZERO } from "../../quantity/index.js";
import type { Fault } from "./index.js";

const SLACK_MINUTES = 1;

/** What is given away, kept and put in pots stays within its limit; pots may be over by a step of the scale. */
export function limitFaults(decision: Decision, scenario: Scenario): Fault[] {
  return [
    ...endFaults(decision, scenario),
    ...potFaults(decision, scenario),
    ...handsFaults(decision, scenario),
    ...vesselFaults(decision, scenario),
  ];
}

/** What is given away and kept stays within its limit. */
export function endFaults(decision: Decision, scenario: Scenario): Fault[] {
  return [
    ...scenario.destinations.flatMap(({ name, limit }) =>
      over(
        name,
        total(decision.sends.filter(({ destination }) => destination === name).map(({ weight }) => weight)),
        limit,
      ),
    ),
    ...scenario.parts.flatMap(({ name, carry }) =>
      over(
        `${name} kept`,
        total(decision.kept.filter(({ lot }) => lot.part === name).map(({ weight }) => weight)),
        carry?.limit ?? null,
      ),
    ),
    ...scenario.items.flatMap(({ name, carry }) =>
      over(
        `${name} kept`,
        total(decision.keptItems.filter(({ item }) => item === name).map(({ weight }) => weight)),
        carry?.limit ?? null,
      ),
    ),
  ];
}

function over(what: string, found: Weight, limit: Weight | null): Fault[] {
  return limit !== null && found > limit ? [`${what}: ${toGrams(minus(found, limit))} g over its limit`] : [];
}

function potFaults(decision: Decision, scenario: Scenario): Fault[] {
  return scenario.steps.flatMap(({ name, capacity }) => {
    if (capacity === null) return [];
    return scenario.services.flatMap((service, index) => {
      const drawn = decision.preps.filter((prep) => prep.step === name && prep.service === index);
      const slack = plus(capacity, total(drawn.map(() => scenario.scaleStep)));
      return over(`${name} for ${service.name}`, total(drawn.map(({ weight }) => weight)), slack);
    });
  });
}

/** Hands-on minutes before each service; a minute's slack is for what rounding to the scale adds. */
function handsFaults(decision: Decision, scenario: Scenario): Fault[] {
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
      return at === index ? (step?.minutesPerKilogram ?? ZERO).times(toKilograms(weight)) : ZERO;
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

function vesselFaults(decision: Decision, scenario: Scenario): Fault[] {
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
