import type { Scenario } from "../../kitchen/index.js";
import {
  Decimal,
  grams,
  milligrams,
  minus,
  OUNCE_MILLIGRAMS,
  plus,
  roundToInteger,
  scaleWithStep,
  times,
  toGrams,
  type Weight,
} from "../../quantity/index.js";
import { type Lever, percentText } from "./lever.js";

const HANDS_STEP = 5;

/** Overage and hands by service. */
export function serviceLevers(scenario: Scenario): Lever[] {
  return scenario.services.flatMap((service, index) => {
    const withService = (changed: Partial<typeof service>): Scenario => ({
      ...scenario,
      services: scenario.services.map((other) => (other === service ? { ...service, ...changed } : other)),
    });
    const { overage, handsMinutes } = service;
    const levers: Lever[] = [
      {
        subject: `overage at ${service.name}`,
        about: { service: index },
        step: "1 %",
        steps: 100,
        eases: "always",
        change: (steps) => {
          const raised = overage.plus(new Decimal(steps).div(100));
          return {
            scenario: withService({ overage: raised }),
            value: percentText(raised),
            text: `Allow ${percentText(raised)} spare portions at ${service.name} instead of ${percentText(overage)}`,
          };
        },
      },
    ];
    const minutes = handsMinutes ?? scenario.limits.handsMinutes;
    if (minutes !== null) {
      levers.push({
        subject: `hands before ${service.name}`,
        about: { service: index },
        step: `${HANDS_STEP} minutes`,
        steps: 400,
        eases: "always",
        change: (steps) => {
          const raised = minutes + HANDS_STEP * steps;
          return {
            scenario: withService({ handsMinutes: raised }),
            value: `${raised} minutes`,
            text: `Have ${raised} minutes of hands before ${service.name} instead of ${minutes}`,
          };
        },
      });
    }
    return levers;
  });
}

/** The cold room, the freezer, the pots and the vessels. What destinations take is none: there is always one without a limit. */
export function houseLevers(scenario: Scenario): Lever[] {
  const levers: Lever[] = [];
  const { chilled, frozen } = scenario.limits;
  const weighing = coarseWeighing(scenario);
  const roomLever = (
    subject: string,
    about: Lever["about"],
    limit: Weight,
    withLimit: (limit: Weight) => Scenario,
    text: (now: string, before: string) => string,
  ): Lever => ({
    subject,
    about,
    step: weighing.step,
    steps: 1000,
    eases: "always",
    change: (steps) => {
      const raised = weighing.moved(limit, steps);
      return {
        scenario: withLimit(raised.weight),
        value: raised.text,
        text: text(raised.text, weighing.moved(limit, 0).text),
      };
    },
  });
  if (chilled !== null) {
    levers.push(
      roomLever(
        "cold room",
        {},
        chilled,
        (limit) => ({ ...scenario, limits: { ...scenario.limits, chilled: limit } }),
        (now, before) => `Have ${now} of cold room instead of ${before}`,
      ),
    );
  }
  if (frozen !== undefined) {
    levers.push(
      roomLever(
        "freezer",
        {},
        frozen,
        (limit) => ({ ...scenario, limits: { ...scenario.limits, frozen: limit } }),
        (now, before) => `Have ${now} of freezer instead of ${before}`,
      ),
    );
  }
  for (const step of scenario.steps) {
    if (step.capacity === null) continue;
    levers.push(
      roomLever(
        step.name,
        { step: step.name },
        step.capacity,
        (capacity) => ({
          ...scenario,
          steps: scenario.steps.map((other) => (other === step ? { ...step, capacity } : other)),
        }),
        (now, before) => `Take ${now} in ${step.name} instead of ${before}`,
      ),
    );
  }
  for (const limit of scenario.limits.vessels) {
    const { vessel, most } = limit;
    levers.push({
      subject: `${vessel} for each service`,
      about: { vessel },
      step: "1",
      steps: Math.max(10, 2 * most),
      eases: "always",
      change: (steps) => {
        const vessels = scenario.limits.vessels.map((other) =>
          other === limit ? { vessel, most: most + steps } : other,
        );
        return {
          scenario: { ...scenario, limits: { ...scenario.limits, vessels } },
          value: `${most + steps}`,
          text: `Have ${most + steps} x ${vessel} for each service instead of ${most}`,
        };
      },
    });
  }
  return levers;
}

/** A weight and how it is written in the scenario's file. */
export interface Written {
  readonly weight: Weight;
  readonly text: string;
}

/** How a kitchen's weights go up and down: by grams, or by ounces where its scale reads in them. */
export interface Weighing {
  /** How large one step is, in words. */
  readonly step: string;
  /** A weight so many steps higher, or lower where they are negative; as a file reads what is written. */
  moved(weight: Weight, steps: number): Written;
  /** How many steps there are in a weight. */
  stepsIn(weight: Weight): number;
}

/** Decimals that an amount in ounces is written with. */
const OUNCE_PLACES = 3;

/** Steps of 1 g, or of the scale where it reads in ounces. */
export function fineWeighing(scenario: Scenario): Weighing {
  const { unit, read } = scaleWithStep(scenario.scaleStep);
  return unit === "g" ? byGrams("1") : byOunces(read(scenario.scaleStep));
}

/** Steps for a cold room, a pot or a bin: 100 g, or 4 oz. */
function coarseWeighing(scenario: Scenario): Weighing {
  return scaleWithStep(scenario.scaleStep).unit === "g" ? byGrams("100") : byOunces(new Decimal(4));
}

function byGrams(step: string): Weighing {
  const size = grams(step);
  return {
    step: `${step} g`,
    moved: (weight, steps) => {
      const moved = steps < 0 ? minus(weight, times(size, -steps)) : plus(weight, times(size, steps));
      return { weight: moved, text: `${toGrams(moved).toFixed()} g` };
    },
    stepsIn: (weight) => Number(weight / size),
  };
}

function byOunces(step: Decimal): Weighing {
  const written = (weight: Weight): Decimal =>
    new Decimal(weight.toString()).div(OUNCE_MILLIGRAMS).toDecimalPlaces(OUNCE_PLACES);
  return {
    step: `${step.toFixed()} oz`,
    moved: (weight, steps) => {
      const ounces = written(weight).plus(step.times(steps));
      return {
        weight: milligrams(roundToInteger(ounces.times(OUNCE_MILLIGRAMS))),
        text: `${ounces.toFixed()} oz`,
      };
    },
    stepsIn: (weight) => written(weight).div(step).floor().toNumber(),
  };
}
