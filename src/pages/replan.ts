import type { PlanChange, PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Decimal, grams, money } from "../quantity/index.js";
import { changeText } from "./changes.js";
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
  readonly changes: {
    readonly plan: readonly PlanChange[];
    readonly goings: readonly {
      readonly part: string;
      readonly dish: string;
      readonly service: string;
      readonly before: Decimal;
      readonly after: Decimal;
    }[];
  };
}

export function replanText(
  before: PlanJson,
  after: PlanJson,
  { from, overCeiling, changes }: ReplanFacts,
  writing: Writing,
): ReplanText {
  const lines = [
    ...changes.plan.map((change) => changeText(change, writing)),
    ...changes.goings.map((change) => goingText(change, writing)),
  ];
  const planned = new Map(before.services.map(({ name, covers }) => [name, covers]));
  const covers = after.services.filter(({ name, covers: now }) => planned.get(name) !== now);
  const waste = (plan: PlanJson): string => writing.weight(grams(plan.waste.counted));
  const spent = (plan: PlanJson): string => writing.money(money(plan.money.spent));
  const over =
    overCeiling.length === 0
      ? []
      : [`Above its ceiling by what went before: ${listed([...new Set(overCeiling)])}.`];
  return {
    headline: lines.length === 0 ? `Nothing changes from ${from} on.` : `What changes from ${from} on`,
    changes: lines,
    notes: [
      `Waste counted ${waste(after)}, before ${waste(before)}; spent ${spent(after)}, before ${spent(before)}.`,
      ...over,
      ...covers.map(({ name, covers: now }) => `Write the new covers in the scenario too: ${name} ${now}.`),
    ],
  };
}

function goingText(
  { part, dish, service, before, after }: ReplanFacts["changes"]["goings"][number],
  writing: Writing,
): string {
  const difference = writing.weight(grams(after.minus(before).abs()));
  const what = after.isZero() ? `no ${part}` : `${writing.weight(grams(after))} of ${part}`;
  return `Put ${what} in ${dish} for ${service}, ${difference} ${after.gt(before) ? "more" : "less"}`;
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
