import type { Decision, Scenario } from "../../kitchen/index.js";
import { minus, plus, toGrams, total, type Weight } from "../../quantity/index.js";
import type { Fault } from "./index.js";

/** What is bought, given away, kept and put in pots stays within its limit; pots may be over by a step of the scale. */
export function limitFaults(decision: Decision, scenario: Scenario): Fault[] {
  return [
    ...buyingFaults(decision, scenario),
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
    ...potFaults(decision, scenario),
  ];
}

function buyingFaults(decision: Decision, scenario: Scenario): Fault[] {
  return scenario.items.flatMap(({ name, buying }) => {
    const bought = decision.purchases
      .filter(({ item }) => item === name)
      .reduce((sum, { orderUnits }) => sum + orderUnits, 0);
    if (buying === null) return bought === 0 ? [] : [`${name}: ${bought} bought where buying is off`];
    if (bought < buying.least || bought > (buying.most ?? bought))
      return [`${name}: ${bought} order units bought`];
    return [];
  });
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
