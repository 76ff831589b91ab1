import { accountFaults } from "./recompute/accounts.js";
import { flowFaults } from "./recompute/flows.js";
import { limitFaults } from "./recompute/limits.js";
import { missingIn, type PrintedPlan } from "./recompute/printed.js";
import { wasteFaults } from "./recompute/waste.js";

/**
 * Recomputes a plan from the text of its JSON (`plan --json`) alone, with nothing of the program: what cuts, steps and
 * lots give, account totals and both identities, every term of the waste and what is counted, net spend and the figure
 * of the aim, and every limit that it was asked to keep. Says what differs, or is missing; nothing where all is as it
 * is printed. `recompute/printed.ts` says which fields it takes.
 */
export function recompute(json: string): string[] {
  const read: unknown = JSON.parse(json);
  const missing = missingIn(read);
  if (missing.length > 0) return missing;
  const plan = read as PrintedPlan;
  return [...flowFaults(plan), ...accountFaults(plan), ...wasteFaults(plan), ...limitFaults(plan)];
}
