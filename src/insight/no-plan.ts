import type { Tag } from "../allocation/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Change, type Lever, leversOf } from "./levers/index.js";
import { relevanceOf } from "./relevance.js";

/** Whether a scenario can be planned: yes with a balanced plan, no with a confirmed "infeasible", or not known in the time. */
export type Verdict = "plan" | "no plan" | "unknown";

/** Plans a changed scenario again, down to the ledger. */
export type Replan = (scenario: Scenario) => Promise<Verdict>;

/** A smallest change, alone, that would make a plan possible. */
export interface SmallestChange {
  readonly change: string;
  readonly text: string;
  /** How it was checked that no smaller step would do. */
  readonly checked: string;
}

/** Share of the time in which levers that touch nothing asked too much of are still begun. */
const FAR_AFIELD = 0.4;
/** With more smaller steps than this, not every one is tried. */
const MOST_TRIED = 60;

/**
 * For each figure of a scenario that has no plan, the smallest change of it alone that gives one, each planned
 * again down to the ledger. What the culprits touch is tried first; it stops when `seconds` are over, with what
 * it has by then.
 */
export async function smallestChanges(
  scenario: Scenario,
  culprits: readonly Tag[],
  replan: Replan,
  seconds: number,
): Promise<SmallestChange[]> {
  const began = performance.now();
  const inTime = (share = 1): boolean => performance.now() < began + share * seconds * 1000;
  const found: SmallestChange[] = [];
  const levers = leversOf(scenario).map((lever) => ({
    lever,
    relevance: relevanceOf(lever, culprits, scenario),
  }));
  for (const { lever, relevance } of levers.sort((a, b) => b.relevance - a.relevance)) {
    if (!inTime(relevance === 0 ? FAR_AFIELD : 1)) break;
    if (lever.steps < 1 || (relevance === 0 && lever.eases !== "always")) continue;
    let unsettled = false;
    const works = async (steps: number): Promise<boolean> => {
      const verdict = inTime() ? await replan(lever.change(steps).scenario) : "unknown";
      unsettled ||= verdict === "unknown";
      return verdict === "plan";
    };
    const search = await smallestOf(lever, works, () => inTime());
    if (search !== null) found.push(written(lever, lever.change(search.steps), { ...search, unsettled }));
  }
  return found;
}

interface Search {
  readonly steps: number;
  /** Whether every smaller step was tried, and not only the one before. */
  readonly exhaustive: boolean;
}

type Works = (steps: number) => Promise<boolean>;

async function smallestOf(lever: Lever, works: Works, inTime: () => boolean): Promise<Search | null> {
  if (lever.eases === "not") return byTrying(Math.min(lever.steps, MOST_TRIED), works, inTime);
  if (!(await works(lever.steps))) return null;
  const steps = await byHalving(lever.steps, works);
  if (lever.eases === "always" || steps > MOST_TRIED) return { steps, exhaustive: steps === 1 };
  return (await byTrying(steps - 1, works, inTime)) ?? { steps, exhaustive: inTime() };
}

/** The smallest number of steps that works, where more never hurts; `most` is known to work. */
async function byHalving(most: number, works: Works): Promise<number> {
  let low = 0;
  let high = most;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (await works(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Whole units can make a small step work where a larger one does not: every step is tried, from the smallest. */
async function byTrying(most: number, works: Works, inTime: () => boolean): Promise<Search | null> {
  for (let steps = 1; steps <= most && inTime(); steps++) {
    if (await works(steps)) return { steps, exhaustive: true };
  }
  return null;
}

function written(
  lever: Lever,
  change: Change,
  { steps, exhaustive, unsettled }: Search & { unsettled: boolean },
): SmallestChange {
  return {
    change: `${lever.subject}: ${change.value}`,
    text: `${change.text}.`,
    checked: unsettled
      ? "planned again; whether less would do was not settled in every case"
      : `planned again; ${smallerSteps(lever, steps, exhaustive)}`,
  };
}

function smallerSteps({ step, eases }: Lever, steps: number, exhaustive: boolean): string {
  if (steps === 1) return `there is no smaller step than ${step}`;
  if (exhaustive) return `every smaller step of ${step} tried, none gives a plan`;
  const before = `a change smaller by ${step} gives none`;
  return eases === "always" ? before : `${before}; not every smaller one was tried`;
}
