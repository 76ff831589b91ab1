import type { PlanJson } from "../contract/index.js";
import { total, type Weight } from "../quantity/index.js";
import { planWeight, type View } from "./view.js";
import { counted, once } from "./writing.js";

/** All of a part that was cut before one service: it shares a container, a label and a date. */
interface Lot {
  readonly part: string;
  /** Service; "" for what a step makes of stock on hand. */
  readonly cutFor: string;
  /** Number on its label, the same on every page. */
  readonly label: number;
}

/** Lots of food in the order of the work; what a step makes joins the lot of the day its source was cut. */
function lotsOf({ plan, scenario }: View): Lot[] {
  const keys = scenario.services.flatMap(({ name }) => [
    ...plan.cuts
      .filter(({ service }) => service === name)
      .flatMap(({ parts }) => parts.map((part) => ({ ...part, cutFor: name }))),
    ...plan.preps
      .filter(({ service }) => service === name)
      .flatMap(({ parts, cutFor }) => parts.map((part) => ({ ...part, cutFor: cutFor ?? "" }))),
  ]);
  const food = once(
    keys.filter((each) => each.class === "food").map(({ part, cutFor }) => JSON.stringify([part, cutFor])),
  );
  return food.map((key, index) => {
    const [part = "", cutFor = ""] = JSON.parse(key) as string[];
    return { part, cutFor, label: index + 1 };
  });
}

/** How a lot is found: by its label, or as what was there before. */
export function lotWords(part: string, cutFor: string | null, view: View): string {
  const lot = lotsOf(view).find((each) => each.part === part && each.cutFor === (cutFor ?? ""));
  if (lot !== undefined) return `label ${lot.label}`;
  return cutFor === null ? "in the house" : "";
}

/** What becomes of a lot, a line each: dishes, further breakdowns, and where the rest goes. */
export function usesOf(part: string, cutFor: string, view: View): string[] {
  const { plan, writing, movements } = view;
  const mine = (each: { readonly cutFor: string | null }) => (each.cutFor ?? "") === cutFor;
  const dishes = plan.goings.flatMap((going, index) => {
    if (going.part !== part || !mine(going)) return [];
    const pieces = going.pieces === null ? "" : `, ${counted(writing, going.pieces, "piece")}`;
    const weight = writing.weight(movements.goings[index] ?? planWeight(going.weight));
    return [`${going.dish}, ${going.service}: ${weight}${pieces}`];
  });
  const steps = plan.preps
    .filter((prep) => prep.from === part && mine(prep))
    .map(({ step, service, weight }) => `${step}, ${service}: ${writing.weight(planWeight(weight))}`);
  const rest = plan.leftovers
    .filter((each) => each.kind === "part" && each.part === part && mine(each))
    .filter(({ weight }) => !printsAsNothing(planWeight(weight), view))
    .map(
      ({ destination, weight }) => `${destinationWords(destination)}: ${writing.weight(planWeight(weight))}`,
    );
  return [...dishes, ...steps, ...rest];
}

/** Weight of a lot, over all that gives it. */
export function lotWeight(part: string, cutFor: string, { plan }: View): Weight {
  const given = (parts: readonly PlanPart[]) =>
    parts.filter((each) => each.part === part).map(({ weight }) => planWeight(weight));
  return total([
    ...plan.cuts.filter(({ service }) => service === cutFor).flatMap(({ parts }) => given(parts)),
    ...plan.preps.filter((prep) => (prep.cutFor ?? "") === cutFor).flatMap(({ parts }) => given(parts)),
  ]);
}

function printsAsNothing(weight: Weight, { scenario }: View): boolean {
  return 2n * weight < scenario.scaleStep;
}

/** A destination as it is said; two of the plan's are no places of the scenario. */
function destinationWords(destination: string): string {
  if (destination === "closingStock") return "closing stock";
  return destination === "wastedFood" ? "wasted food" : destination;
}

export type PlanPart = PlanJson["cuts"][number]["parts"][number];
