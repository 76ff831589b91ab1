import type { Plan } from "../contract/index.js";
import { NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";

const SUMS = ["foodWasted", "lostFood", "avoidablePeel", "unusedUsable", "givenAway", "counted"] as const;

/** What a cook may call waste, of one plan or of several, and what of it the aim counts. */
export interface CooksWaste extends Readonly<Record<(typeof SUMS)[number], Weight>> {
  /** Inedible parts thrown away that a step makes food of, the heaviest first. */
  readonly unusedParts: readonly { readonly part: string; readonly weight: Weight }[];
  /** At what part of its weight each counts; null of several plans that count otherwise. */
  readonly counts: Plan["waste"]["counts"] | null;
}

export function cooksWasteOf({ waste }: Pick<Plan, "waste">): CooksWaste {
  return { ...sums((key) => waste[key]), unusedParts: waste.unusedParts, counts: waste.counts };
}

/** The waste of several plans added up. */
export function cooksWasteOfAll(all: readonly CooksWaste[]): CooksWaste {
  const parts = new Map<string, Weight>();
  for (const { part, weight } of all.flatMap(({ unusedParts }) => unusedParts))
    parts.set(part, plus(parts.get(part) ?? NO_WEIGHT, weight));
  const kinds = new Set(all.map(({ counts }) => JSON.stringify(counts)));
  return {
    ...sums((key) => total(all.map((each) => each[key]))),
    unusedParts: [...parts]
      .map(([part, weight]) => ({ part, weight }))
      .sort((a, b) => Number(b.weight - a.weight)),
    counts: kinds.size === 1 ? (all[0]?.counts ?? null) : null,
  };
}

function sums(of: (key: (typeof SUMS)[number]) => Weight): Record<(typeof SUMS)[number], Weight> {
  const entries = SUMS.map((key) => [key, of(key)] as const);
  return Object.fromEntries(entries) as Record<(typeof SUMS)[number], Weight>;
}
