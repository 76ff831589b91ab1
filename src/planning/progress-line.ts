const PROVED = 1e-6;
const STAGES: Readonly<Record<string, string>> = {
  waste: "Least waste",
  cost: "Least cost",
  balanced: "Least cost and waste together",
  freshest: "Cut latest before use",
};

/** A line on a plan being made: what is looked for, how far the proof has come, and the time. */
export function progressLine(
  {
    stage,
    best,
    bound,
    seconds,
  }: { stage: string; best: number | null; bound: number | null; seconds: number },
  allowed: number,
): string {
  return `${STAGES[stage] ?? stage}: ${proofText(best, bound)}; ${seconds.toFixed(0)} s of at most ${allowed} s`;
}

/** Without units: how much better than the plan in hand any other could still be, never rounded down. */
function proofText(best: number | null, bound: number | null): string {
  if (best === null) return "no plan in hand yet";
  if (bound === null || !Number.isFinite(bound)) return "a plan in hand, nothing proved yet";
  const open = Math.abs(best - bound) / Math.max(Math.abs(best), 1e-9);
  if (open <= PROVED) return "proved";
  const steps = open < 0.1 ? 10 : 1;
  const percent = Math.ceil(open * 100 * steps - PROVED) / steps;
  return `a plan in hand, at most ${percent} % from the best there can be`;
}

/** A line on a row of questions, each of them a plan: how many are answered, and the time. */
export function askedLine(
  { done, of }: { readonly done: number; readonly of: number | null },
  began: number,
  allowed: number,
): string {
  const seconds = (performance.now() - began) / 1000;
  const plans = of === null ? `${done} plans made` : `${done} of ${of} plans made`;
  return `${plans}; ${seconds.toFixed(0)} s of at most ${allowed} s`;
}
