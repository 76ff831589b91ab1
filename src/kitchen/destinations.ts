import type { Weight } from "../quantity/index.js";
import type { PartClass } from "./scenario.js";

/** What happens to what nobody eats at a service; "waste" is carted away and what becomes of it is not stated. */
export const DESTINATION_KINDS = [
  "given away",
  "animal feed",
  "biomaterial",
  "anaerobic digestion",
  "compost",
  "controlled combustion",
  "land application",
  "landfill",
  "refuse",
  "sewer",
  "waste",
] as const;
export type DestinationKind = (typeof DESTINATION_KINDS)[number];

/** Where food nobody eats at a service goes. */
export interface Destination {
  readonly name: string;
  readonly kind: DestinationKind;
  readonly end: "given away" | "waste";
  readonly takes: { readonly food: boolean; readonly inedible: boolean; readonly portions: boolean };
  /** Most weight over the whole plan. */
  readonly limit: Weight | null;
}

/**
 * Whether a destination for waste takes a class of part. What people must never eat feeds no animals either: its
 * poisons are theirs too (rhubarb leaves and green potatoes, Merck Veterinary Manual, from memory).
 */
export function isBinFor(kind: PartClass, { kind: leads, end, takes }: Destination): boolean {
  if (end !== "waste" || (kind === "never" && leads === "animal feed")) return false;
  return kind === "food" ? takes.food : takes.inedible;
}
