import type { Plan } from "../contract/index.js";
import { total, type Weight } from "../quantity/index.js";
import type { View } from "./view.js";
import { counted, once } from "./writing.js";

/** All of a part that was cut before one service: it shares a label and a date. */
export interface Lot {
  readonly part: string;
  /** Service; "" for what a step makes of stock on hand. */
  readonly cutFor: string;
  /** Number on its label, the same on every page. */
  readonly label: number;
}

/** Lots of food in the order of the work; what a step makes joins the lot of the day its source was cut. */
export function lotsOf({ plan, scenario }: View): Lot[] {
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

/** One thing that becomes of a lot. */
export interface LotUse {
  readonly kind: "dish" | "step" | "rest";
  /** Dish, step or destination. */
  readonly to: string;
  /** Service; "" for what is no service's. */
  readonly service: string;
  readonly weight: Weight;
  readonly pieces: number | null;
}

/** What becomes of a lot: dishes, further breakdowns, and where the rest goes. */
export function lotUses(part: string, cutFor: string, view: View): LotUse[] {
  const { plan, movements } = view;
  const mine = (each: { readonly cutFor: string | null }) => (each.cutFor ?? "") === cutFor;
  const dishes = plan.goings.flatMap((going, index): LotUse[] => {
    if (going.part !== part || !mine(going)) return [];
    const weight = movements.goings[index] ?? going.weight;
    return [{ kind: "dish", to: going.dish, service: going.service, weight, pieces: going.pieces }];
  });
  const steps = plan.preps
    .filter((prep) => prep.from === part && mine(prep))
    .map(
      ({ step, service, weight }): LotUse => ({
        kind: "step",
        to: step,
        service,
        weight,
        pieces: null,
      }),
    );
  const rest = plan.leftovers
    .filter((each) => each.kind === "part" && each.part === part && mine(each))
    .filter(({ weight }) => !printsAsNothing(weight, view))
    .map(
      ({ destination, weight }): LotUse => ({
        kind: "rest",
        to: destination,
        service: "",
        weight,
        pieces: null,
      }),
    );
  return [...dishes, ...steps, ...rest];
}

/** The same, a line each. */
export function usesOf(part: string, cutFor: string, view: View): string[] {
  const { writing } = view;
  return lotUses(part, cutFor, view).map(({ kind, to, service, weight, pieces }) => {
    const inPieces = pieces === null ? "" : `, ${counted(writing, pieces, "piece")}`;
    const where = kind === "rest" ? destinationWords(to) : `${to}, ${service}`;
    return `${where}: ${writing.weight(weight)}${inPieces}`;
  });
}

/** Weight of a lot, over all that gives it. */
export function lotWeight(part: string, cutFor: string, { plan }: View): Weight {
  const given = (parts: readonly PlanPart[]) =>
    parts.filter((each) => each.part === part).map(({ weight }) => weight);
  return total([
    ...plan.cuts.filter(({ service }) => service === cutFor).flatMap(({ parts }) => given(parts)),
    ...plan.preps.filter((prep) => (prep.cutFor ?? "") === cutFor).flatMap(({ parts }) => given(parts)),
  ]);
}

function printsAsNothing(weight: Weight, { scenario }: View): boolean {
  return 2n * weight < scenario.scaleStep;
}

/** A destination as it is said; two of the plan's are no places of the scenario. */
export function destinationWords(destination: string): string {
  if (destination === "closingStock") return "closing stock";
  return destination === "wastedFood" ? "wasted food" : destination;
}

export type PlanPart = Plan["cuts"][number]["parts"][number];
