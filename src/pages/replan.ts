import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { grams, money } from "../quantity/index.js";
import { documentPage } from "./document.js";
import type { Page, PageOptions } from "./render.js";
import { listed, type Writing } from "./writing.js";

/** What a plan made again on the day changes, in words. */
export interface ReplanText {
  readonly headline: string;
  readonly changes: readonly string[];
  readonly notes: readonly string[];
}

/** What there is to say beside the changes. */
export interface ReplanFacts {
  /** The first service planned anew. */
  readonly from: string;
  readonly overCeiling: readonly string[];
  /** New covers, "Saturday dinner 66". */
  readonly covers: readonly string[];
}

export function replanText(
  before: PlanJson,
  after: PlanJson,
  changes: readonly string[],
  { from, overCeiling, covers }: ReplanFacts,
  writing: Writing,
): ReplanText {
  const waste = (plan: PlanJson): string => writing.weight(grams(plan.weights.wastedFood));
  const spent = (plan: PlanJson): string => writing.money(money(plan.money.spent));
  const over =
    overCeiling.length === 0
      ? []
      : [`Above its ceiling by what went before: ${listed([...new Set(overCeiling)])}.`];
  return {
    headline: changes.length === 0 ? `Nothing changes from ${from} on.` : `What changes from ${from} on`,
    changes,
    notes: [
      `Waste ${waste(after)}, before ${waste(before)}; spent ${spent(after)}, before ${spent(before)}.`,
      ...over,
      ...covers.map((text) => `Write the new covers in the scenario too: ${text}.`),
    ],
  };
}

/** The page of what changes. */
export function replanPage(text: ReplanText, scenario: Scenario, options: PageOptions = {}): Page {
  const done = text.changes.map((change) => ({ change }));
  return documentPage(
    "replan",
    "What changes today",
    { headline: text.headline, changes: done, notes: text.notes },
    { ...options, head: [scenario.name] },
  );
}
