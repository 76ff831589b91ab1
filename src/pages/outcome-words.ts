import type { Plan } from "../contract/index.js";
import { Decimal, grams, type Money, money, type Weight, ZERO } from "../quantity/index.js";
import type { Writing } from "./writing.js";

const LEAST: Readonly<Record<Plan["aim"], string>> = {
  waste: "least waste",
  cost: "least cost",
  balanced: "least cost and waste together",
};
const MORE: Readonly<Record<Plan["aim"], string>> = {
  waste: "more waste than the best possible",
  cost: "dearer than the best possible",
  balanced: "above the best possible",
};

export type OutcomeWords = {
  /** "Proved least waste". */
  readonly headline: string;
  /** Bound and engine, for the small print. */
  readonly small: string;
};

/** Which engine said so and how long it took, where there is no plan to speak of. */
export function outcomeSmall({ outcome }: Plan, writing: Writing): string {
  return `Solver ${outcome.engine}, ${seconds(outcome.seconds, writing)}.`;
}

/** How good the plan is known to be, in words that a cook reads and, in small print, that a checker needs. */
export function outcomeWords({ aim, outcome, stages, risk }: Plan, writing: Writing): OutcomeWords {
  const { objective, beforeRounding, bound, engine, certified } = outcome;
  const value = (figure: Decimal) =>
    aim === "waste" ? writing.weight(grams(figure)) : writing.money(money(figure));
  const time = seconds(outcome.seconds, writing);
  const proof = bound === null ? "no bound known" : `no plan can have less than ${value(bound)}`;
  const rounded = roundingWords({ aim, outcome }, writing);
  const sentences = [
    objective === null
      ? ""
      : `${capitalAim(aim)} ${value(objective)}${rounded === "" ? "" : `, ${rounded}`}; before rounding ${proof}, says the solver ${engine}.`,
    `Solved in ${time}${stopWords(outcome)}.`,
    certified ? "Every count, weight and cost was checked again without the solver." : "Not certified.",
    ...stages.slice(1).map(stageWords),
  ];
  const small = sentences.filter((sentence) => sentence !== "").join(" ");
  if (outcome.kind === "optimal")
    return {
      headline: `Proved ${LEAST[aim]}${aim === "waste" && objective !== null ? `: ${value(objective)}` : ""}`,
      small,
    };
  const isCautious = (risk?.cautious?.lowered.length ?? 0) > 0;
  const found = isCautious ? `Sure first, then ${LEAST[aim]}` : `Best found in ${time}`;
  if (objective === null || bound === null) return { headline: `${found}: how good is not known`, small };
  return {
    headline: `${found}: up to ${distance(beforeRounding ?? objective, bound, writing, value)} ${MORE[aim]}`,
    small,
  };
}

/** Below this, in grams or currency units, a difference is that of binary floats. */
const FLOAT_NOISE = "0.001";

/**
 * What rounding to whole portions and the scale added to the aim's figure or took off it: "of it 2 g added by
 * rounding". Empty where that is nothing.
 */
export function roundingWords({ aim, outcome }: Pick<Plan, "aim" | "outcome">, writing: Writing): string {
  const by = outcome.rounding ?? ZERO;
  if (by.abs().lessThan(FLOAT_NOISE)) return "";
  const size = by.abs();
  const amount =
    aim === "waste"
      ? leastShown(grams(size), writing.step, writing.weight)
      : leastShown(money(size), writing.coin, writing.money);
  return by.isPositive() ? `of it ${amount} added by rounding` : `${amount} taken off by rounding`;
}

function leastShown<T extends Weight | Money>(amount: T, least: T, text: (amount: T) => string): string {
  return 2n * amount < least ? `under ${text(least)}` : text(amount);
}

/** What ended the search, where it was not the proof. */
function stopWords({ stoppedBy, stopCode }: Plan["outcome"]): string {
  if (stoppedBy === null) return "";
  return stopCode === "time" ? ", stopped at the time limit" : `, stopped by: ${stoppedBy}`;
}

function seconds(count: number, writing: Writing): string {
  return `${writing.decimal(new Decimal(String(count)), count < 1 ? 2 : 0)}\u00a0s`;
}

/** How far above the bound, never rounded down: as a share of it, or as an amount where the bound is nothing. */
function distance(
  objective: Decimal,
  bound: Decimal,
  writing: Writing,
  value: (figure: Decimal) => string,
): string {
  if (bound.lessThanOrEqualTo(0)) return value(objective.minus(bound));
  const share = objective.minus(bound).div(bound);
  return writing.rate(share.toDecimalPlaces(3, Decimal.ROUND_UP));
}

function capitalAim(aim: Plan["aim"]): string {
  if (aim === "waste") return "Waste counted:";
  const spend = "Spend less what is kept in stock";
  return aim === "cost" ? `${spend}:` : `${spend}, and waste at its price:`;
}

function stageWords({ aim, gap }: Plan["stages"][number]): string {
  const proved = gap.lessThanOrEqualTo("0.000001");
  return `Then ${aim}: ${proved ? "proved" : "best found"}.`;
}
