import distance from "leven";
import { MOST } from "./limits.js";

/** Share of a name's letters that may be wrong for it still to be taken as a slip of the pen. */
const SLIP = 1 / 3;

/**
 * The candidate that a misspelt name most likely stands for, or null where none is near. Letter case and
 * spaces at the ends do not count, and two neighbouring letters changed about are one slip; a name that is the
 * last words of just one candidate is taken for it.
 */
export function didYouMean(name: string, candidates: readonly string[]): string | null {
  if (name.length > MOST.figure) return null;
  const wanted = plain(name);
  const allowed = Math.max(1, Math.floor(wanted.length * SLIP));
  const held = candidates.slice(0, MOST.candidates);
  const near = held
    .map((candidate) => ({ candidate, slips: slips(wanted, plain(candidate), allowed) }))
    .filter(({ slips }) => slips <= allowed && slips < wanted.length)
    .sort((left, right) => left.slips - right.slips);
  if (near[0] !== undefined) return near[0].candidate;
  const byTail = held.filter((candidate) => plain(candidate).endsWith(` ${wanted}`));
  return byTail.length === 1 ? (byTail[0] ?? null) : null;
}

function slips(wanted: string, candidate: string, allowed: number): number {
  if (Math.abs(candidate.length - wanted.length) > allowed) return Number.POSITIVE_INFINITY;
  for (let index = 1; wanted.length === candidate.length && index < wanted.length; index += 1) {
    const swapped = `${wanted.slice(0, index - 1)}${wanted[index]}${wanted[index - 1]}${wanted.slice(index + 1)}`;
    if (swapped === candidate) return 1;
  }
  return distance(wanted, candidate);
}

function plain(name: string): string {
  return name.trim().replace(/\s+/g, " ").toLowerCase();
}
