/** Set where random tests that have no variable of their own are to run in full. */
export const IS_DEEP = process.env.DEEP !== undefined;

/** How often a random test is run: so often with DEEP=1, a quarter of that without. */
export function often(runs: number): number {
  return IS_DEEP ? runs : Math.ceil(runs / 4);
}
