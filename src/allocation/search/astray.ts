import { MENU } from "./menu-rounding.js";
import type { Problem } from "./problem.js";
import type { Relaxation } from "./solver.js";

/** A whole number so far from what the relaxation would have is astray. */
const FAR = 1e-3;

/** Whole columns that a point has otherwise than the relaxation would, with all of the menu held but what is free. */
export type AstrayOf = (free: ReadonlySet<number>) => number[];

/** Asks the relaxation anew each time: what is astray under this menu says more than what is under none. */
export function astrayOf(
  { matrix, wholes, tags }: Problem,
  relaxation: Relaxation,
  point: Float64Array,
): AstrayOf {
  return (free) => {
    for (const column of wholes) {
      const value = point[column] ?? 0;
      const isHeld = MENU.has(tags[column]?.family ?? "") && !free.has(column);
      relaxation.bound(
        column,
        isHeld ? value : (matrix.lower[column] ?? 0),
        isHeld ? value : (matrix.upper[column] ?? 0),
      );
    }
    const relaxed = relaxation.solve();
    if (relaxed === null) return [];
    return wholes.filter((column) => Math.abs((point[column] ?? 0) - (relaxed[column] ?? 0)) > FAR);
  };
}
