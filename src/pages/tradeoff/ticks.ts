import { Decimal } from "../../quantity/index.js";

const MOST_STEPS = 5;
const NICE = ["1", "2", "2.5", "5", "10"].map((each) => new Decimal(each));

/** Round figures from nothing to at least `most`, no more than six of them. */
export function ticksTo(most: Decimal): Decimal[] {
  if (most.lessThanOrEqualTo(0)) return [new Decimal(0), new Decimal(1)];
  const rough = most.div(MOST_STEPS);
  const power = new Decimal(10).pow(rough.log(10).floor());
  const step = (NICE.find((each) => each.times(power).greaterThanOrEqualTo(rough)) ?? new Decimal(10)).times(
    power,
  );
  const count = most.div(step).ceil().toNumber();
  return Array.from({ length: count + 1 }, (_, index) => step.times(index));
}
