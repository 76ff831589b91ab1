import { closest, distance } from "fastest-levenshtein";

/** Share of a name's letters that may be wrong for it still to be taken as a slip of the pen. */
const SLIP = 1 / 3;

/**
 * The candidate that a misspelt name most likely stands for, or null where none is near. Letter case and
 * spaces at the ends do not count; a name that is the last words of just one candidate is taken for it.
 */
export function didYouMean(name: string, candidates: readonly string[]): string | null {
  const wanted = plain(name);
  if (wanted === "" || candidates.length === 0) return null;
  const byTail = candidates.filter((candidate) => plain(candidate).endsWith(` ${wanted}`));
  const best = closest(wanted, candidates.map(plain));
  const allowed = Math.max(1, Math.floor(wanted.length * SLIP));
  if (distance(wanted, best) <= allowed) {
    return candidates.find((candidate) => plain(candidate) === best) ?? null;
  }
  return byTail.length === 1 ? (byTail[0] ?? null) : null;
}

function plain(name: string): string {
  return name.trim().replace(/\s+/g, " ").toLowerCase();
}
