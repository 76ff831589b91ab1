import type { Tag } from "../allocation/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Change, type Lever, leversOf } from "./levers/index.js";
import { relevanceOf } from "./relevance.js";

/** Whether a scenario can be planned: yes with a balanced plan, no with a confirmed "infeasible", or not known in the time. */
export type Verdict = "plan" | "no plan" | "unknown";

/** Plans a changed scenario again, down to the ledger. */
type Replan = (scenario: Scenario) => Promise<Verdict>;

/** A smallest change, alone, that would make a plan possible. */
interface SmallestChange {
  readonly change: string;
  readonly text: string;
  /** How it was checked that no smaller step would do. */
  readonly checked: string;
}

export interface SmallestChanges {
  readonly changes: readonly SmallestChange[];
  /** Whether the time was over before all there is to change had been looked at. */
  readonly isCut: boolean;
}

/** Share of the time in which levers that touch nothing asked too much of are still begun. */
const FAR_AFIELD = 0.4;
/** With more smaller steps than this, not every one is tried. */
const MOST_TRIED = 60;
/** Share of the time after which, with no single change found, pairs are looked for. */
const SINGLES = 0.6;
const MOST_PAIRS = 3;
/** In so many equal steps two levers are first moved together. */
const SHARES = 64;

/** What a search for changes asks with. */
interface Asking {
  readonly replan: Replan;
  /** What a scenario asks too much of. */
  readonly culprits: (scenario: Scenario) => Promise<readonly Tag[]>;
}

/**
 * For each figure of a scenario that has no plan, the smallest change of it alone that gives one, each planned
 * again down to the ledger; where no single one does, the smallest pairs. What is asked too much of is tried first;
 * it stops when `seconds` are over, with what it has by then.
 */
export async function smallestChanges(
  scenario: Scenario,
  asking: Asking,
  seconds: number,
): Promise<SmallestChanges> {
  const began = performance.now();
  let isCut = false;
  const changes = await changesWithin(scenario, asking, (share = 1) => {
    const isInTime = performance.now() < began + share * seconds * 1000;
    isCut ||= !isInTime;
    return isInTime;
  });
  return { changes, isCut };
}

async function changesWithin(
  scenario: Scenario,
  { culprits, replan }: Asking,
  inTime: (share?: number) => boolean,
): Promise<SmallestChange[]> {
  if (!inTime()) return [];
  const levers = byRelevance(leversOf(scenario), await culprits(scenario), scenario);
  const found: SmallestChange[] = [];
  for (const { lever, relevance } of levers) {
    if (!inTime(relevance === 0 ? FAR_AFIELD : found.length === 0 ? SINGLES : 1)) break;
    if (lever.steps < 1 || (relevance === 0 && lever.eases !== "always")) continue;
    const search = await settledSearch(lever, replan, () => inTime(found.length === 0 ? SINGLES : 1));
    if (search !== null) found.push(written(lever, lever.change(search.steps), search));
  }
  if (found.length > 0) return found;
  const near = levers.filter(({ relevance }) => relevance > 0).map(({ lever }) => lever);
  return smallestPairs(near, { culprits, replan }, inTime);
}

/** Pairs of changes that would do together, where neither would alone nor with less of either. */
async function smallestPairs(
  levers: readonly Lever[],
  { culprits, replan }: Asking,
  inTime: () => boolean,
): Promise<SmallestChange[]> {
  const found: SmallestChange[] = [];
  for (const [index, one] of levers.entries()) {
    if (!inTime()) break;
    if (one.steps < 1) continue;
    const most = one.change(one.steps).scenario;
    // What is still asked too much of when the first gives all it can is where the second must lie.
    const partners = byRelevance(leversOf(most), await culprits(most), most)
      .filter(({ relevance }) => relevance > 0)
      .map(({ lever }) => lever)
      .filter(({ subject }) => levers.findIndex((other) => other.subject === subject) > index);
    for (const other of partners) {
      if (!inTime() || found.length === MOST_PAIRS) return found;
      const pair = await smallestPair(one, other.subject, replan, inTime);
      if (pair !== null) found.push(pair);
    }
  }
  return found;
}

/** The least of both: the same share of each, then less of the first and of the second as far as that goes. */
async function smallestPair(
  one: Lever,
  subject: string,
  replan: Replan,
  inTime: () => boolean,
): Promise<SmallestChange | null> {
  const second = (first: number): Lever | undefined =>
    leversOf(one.change(first).scenario).find((lever) => lever.subject === subject);
  const most = second(one.steps);
  if (most === undefined || most.steps < 1) return null;
  const both = (first: number, other: number): Change | undefined => second(first)?.change(other);
  const works = async (first: number, other: number): Promise<boolean> => {
    const changed = both(first, other);
    return changed !== undefined && inTime() && (await replan(changed.scenario)) === "plan";
  };
  if (!(await works(one.steps, most.steps))) return null;
  const part = (steps: number, share: number): number => Math.max(1, Math.ceil((steps * share) / SHARES));
  const share = await byHalving(SHARES, (shares) => works(part(one.steps, shares), part(most.steps, shares)));
  const limits = { first: part(one.steps, share), other: part(most.steps, share) };
  const withOther = { ...one, steps: limits.first };
  const first = await settledSearch(withOther, (changed) => replanWith(changed, limits.other), inTime);
  if (first === null) return null;
  const least = second(first.steps);
  if (least === undefined) return null;
  const other = await settledSearch({ ...least, steps: limits.other }, replan, inTime);
  if (other === null) return null;
  const change = one.change(first.steps);
  const more = least.change(other.steps);
  return {
    change: `${one.subject}: ${change.value}; ${subject}: ${more.value}`,
    text: `Both together: ${change.text.charAt(0).toLowerCase()}${change.text.slice(1)}, and ${more.text.charAt(0).toLowerCase()}${more.text.slice(1)}.`,
    checked: pairChecked([
      [one, first],
      [least, other],
    ]),
  };

  async function replanWith(changed: Scenario, steps: number): Promise<Verdict> {
    const lever = leversOf(changed).find((each) => each.subject === subject);
    return lever === undefined ? "unknown" : replan(lever.change(steps).scenario);
  }
}

function pairChecked(searches: readonly (readonly [Lever, Settled])[]): string {
  if (searches.some(([, { unsettled }]) => unsettled))
    return "planned again; whether less of either would do was not settled in every case";
  const each = searches.map(([lever, { steps, exhaustive }]) => smallerSteps(lever, steps, exhaustive));
  return `planned again; with the other as it is, of the first ${each[0]}, and of the second ${each[1]}`;
}

function byRelevance(levers: readonly Lever[], culprits: readonly Tag[], scenario: Scenario) {
  return levers
    .map((lever) => ({ lever, relevance: relevanceOf(lever, culprits, scenario) }))
    .sort((a, b) => b.relevance - a.relevance);
}

type Settled = Search & { readonly unsettled: boolean };

/** A search that says whether every plan asked for was settled, and not cut short. */
async function settledSearch(lever: Lever, replan: Replan, inTime: () => boolean): Promise<Settled | null> {
  let unsettled = false;
  const works = async (steps: number): Promise<boolean> => {
    const verdict = inTime() ? await replan(lever.change(steps).scenario) : "unknown";
    unsettled ||= verdict === "unknown";
    return verdict === "plan";
  };
  const search = await smallestOf(lever, works, inTime);
  return search === null ? null : { ...search, unsettled };
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

function written(lever: Lever, change: Change, { steps, exhaustive, unsettled }: Settled): SmallestChange {
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
