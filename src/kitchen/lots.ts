import type { Lot, LotOrigin } from "./decision.js";

/** One text for each origin; alike for lots of one date. */
export function originKey(origin: LotOrigin): string {
  return origin.kind === "cut" ? `cut ${origin.service}` : `on hand ${origin.index}`;
}

/** One text for each lot. */
export function lotKey(lot: Lot): string {
  return `${lot.part} | ${originKey(lot.origin)}`;
}
