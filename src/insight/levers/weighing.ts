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
export function coarseWeighing(scenario: Scenario): Weighing {
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
