/** Read in the source named; from memory of it; common practice, for want of a source; weighed in this kitchen. */
export const BASES = ["read", "memory", "common practice", "own test"] as const;
export type Basis = (typeof BASES)[number];

/** Where a figure comes from, as its row says. */
export interface Provenance {
  readonly source: string;
  readonly basis: Basis;
}
