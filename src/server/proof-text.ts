/** How far a proof has come, without units: how much better than the plan in hand any other could still be. */
export function proofText(best: number | null, bound: number | null): string {
  if (best === null) return "no plan in hand yet";
  if (bound === null || !Number.isFinite(bound)) return "a plan in hand, nothing proved yet";
  const open = Math.abs(best - bound) / Math.max(Math.abs(best), 1e-9);
  const percent = 100 * open;
  return `a plan in hand, at most ${percent.toFixed(percent < 10 ? 1 : 0)} % from the best there can be`;
}
