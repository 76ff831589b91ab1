/** A part people must not eat, or only after a treatment, or only with a caution. */
export interface Hazard {
  /** Short name of the row, unique. */
  readonly id: string;
  readonly items: readonly string[];
  /** The parts it concerns; "any" is the item itself and whatever is cut from it. */
  readonly parts: readonly string[] | "any";
  /** Parts or states of the item that the row leaves alone: flowers of the elder, beans from a tin. */
  readonly except?: readonly string[];
  /** What harms. */
  readonly hazard: string;
  readonly rule: Rule;
  /** The stricter rule where the kitchen feeds people who fall ill easily. */
  readonly vulnerable?: Rule;
  /** Who says so. */
  readonly authority: string;
  /** Whether the authority's words were read for this table or are remembered. */
  readonly basis: "read" | "memory";
}

export type Rule =
  | { readonly kind: "never"; readonly text: string }
  | {
      readonly kind: "only if";
      readonly text: string;
      /** Any one of these, as a dish declares it; see `treatments.ts` for how they are compared. */
      readonly treatments: readonly string[];
    }
  | { readonly kind: "warn"; readonly text: string };

/** Kinds of rules, the gravest first. */
export const GRAVITY: Readonly<Record<Rule["kind"], number>> = { never: 0, "only if": 1, warn: 2 };
