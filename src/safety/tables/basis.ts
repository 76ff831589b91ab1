/** How a row of a safety table may be known: read in the source named, or remembered. */
export const SAFETY_BASES = ["read", "memory"] as const;
export type SafetyBasis = (typeof SAFETY_BASES)[number];
