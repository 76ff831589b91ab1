import type { PartClass } from "../../kitchen/index.js";
import { milligrams, minus, NO_WEIGHT, total, type Weight } from "../../quantity/index.js";
import { nameOf } from "../tables.js";

/** A weighing of one item and all its parts, done in this kitchen. */
export interface YieldTest {
  readonly item: string;
  readonly form: string;
  readonly breakdown: string;
  readonly supplier: string;
  /** ISO 8601. */
  readonly date: string;
  /** Which of that day's tests of the same item, form, breakdown and supplier it is, from 1. */
  readonly number: number;
  /** Units weighed together; 1 where the item is loose. */
  readonly units: number;
  readonly apWeight: Weight;
  readonly parts: readonly WeighedPart[];
  /** Cutting loss as found: juice, drip, crumbs. */
  readonly loss: Weight;
  /** The smallest weight that the scale used shows. */
  readonly scaleStep: Weight;
  /** The weigh-in it was made from; none where it was weighed for itself. */
  readonly weighIn?: string;
}

export interface WeighedPart {
  /** Full name: item, space, part. */
  readonly part: string;
  readonly weight: Weight;
  readonly class: PartClass;
}

/** AP weight less the parts and the loss: what is missing, or below zero what is too much. */
export function gapOf({ apWeight, parts, loss }: YieldTest): Weight {
  return minus(minus(apWeight, total(parts.map(({ weight }) => weight))), loss);
}

/** How often the scale was read: once for the whole, once for each part, and for the loss where there is one. */
export function weighingsOf({ parts, loss }: YieldTest): number {
  return 1 + parts.length + (loss === NO_WEIGHT ? 0 : 1);
}

/** The most that so many readings to the nearest step can be off by together, to the milligram below. */
export function hiddenBy(test: YieldTest): Weight {
  return milligrams((BigInt(weighingsOf(test)) * test.scaleStep) / 2n);
}

/** Whether the gap is no more than half the scale's step for each weighing can explain. */
export function isClosed(test: YieldTest): boolean {
  const gap = gapOf(test);
  const size = gap < 0n ? -gap : gap;
  return size <= hiddenBy(test);
}

/** Tests of one item, form and breakdown share this name, "broccoli (crown), florets". */
export function cuttingOf({ item, form, breakdown }: YieldTest): string {
  return nameOf(item, form, breakdown);
}
