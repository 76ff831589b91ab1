/** Something a kitchen must be told: the hazard, then the rule, then who says so. */
export interface Warning {
  readonly code: string;
  readonly text: string;
  /** The authority. */
  readonly source: string;
  readonly part: string | null;
  readonly dish: string | null;
}

/** Something that must not be planned. It has the shape of a warning; nothing overrides it. */
export type SafetyBlock = Warning;

/** To be printed wherever advice of this room is. */
export const DEFERENCE =
  "Local food codes and licensed or certified professional practice come first; this check knows only its tables and replaces neither.";
