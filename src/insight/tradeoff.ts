import { gramsText, moneyText, type TradeoffJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { Decimal, grams, money, roundTogether, toKilograms, type Weight } from "../quantity/index.js";
import { changesBetween } from "./changes.js";
import {
  type AgainOptions,
  type Asked,
  Clock,
  type PlanAgain,
  type PlannedAgain,
  type Planning,
  whereCostingFits,
} from "./planning.js";

export interface CurveOptions {
  /** Most plans looked for. */
  readonly plans: number;
  /** Most seconds for all of them. */
  readonly seconds: number;
  readonly onProgress?: (asked: Asked) => void;
}

/** Plans that no other beats on both waste and net spend, from the least waste to the least spend. */
export interface Curve {
  readonly plans: readonly PlanAgain[];
  /** Whether these are all there are, steps smaller than `steps` aside; false where a limit ended the search. */
  readonly complete: boolean;
  /** What ended the search before that. */
  readonly stoppedBy: "time" | "number of plans" | "a proof not reached" | null;
  /** A plan is worth a place of its own when it is better by so much: kilograms, currency units. */
  readonly steps: Steps;
}

type CurveResult =
  | { readonly kind: "curve"; readonly curve: Curve }
  | { readonly kind: "none"; readonly again: Exclude<PlannedAgain, PlanAgain> };

interface Steps {
  readonly waste: number;
  readonly cost: number;
}

/** Two plans next to each other, between which there may be more. */
interface Gap {
  readonly thrifty: PlanAgain;
  readonly cheap: PlanAgain;
}

const LEAST_COST_STEP = 0.01;
const LEAST_WASTE_STEP = 0.001;
/**
 * The share of the time left that one plan may take, so that a hard one does not take it all; an end may take more,
 * and all of it where there is no plan yet.
 */
const SHARE = { first: 1, end: 0.45, between: 0.25 };
const LEAST_SECONDS = 1;
/** Of the time, for finding plans; the rest is for bringing each near the one before. */
const TO_FIND = 0.85;
const MOST_NEAR_SECONDS = 1;

/**
 * The curve by bounding one aim and making the other least, then the first again: both ends first, then always in
 * the middle of the widest gap, so that whenever the search is stopped the plans lie evenly; where there are few, it
 * ends with every one.
 */
export async function tradeoffCurve(
  scenario: Scenario,
  planning: Planning,
  { plans: most, seconds, onProgress }: CurveOptions,
): Promise<CurveResult> {
  const whole = new Clock(seconds);
  const clock = new Clock(TO_FIND * seconds);
  const steps = stepsOf(scenario);
  let asked = 0;
  let unproved = false;
  const least = async (
    aim: "waste" | "cost",
    bounds: AgainOptions["bounds"],
    start: PlanAgain | null,
    share: keyof typeof SHARE = bounds === undefined ? "end" : "between",
  ): Promise<PlannedAgain> => {
    const planned = planning.again(
      { ...scenario, aim },
      {
        seconds: Math.max(LEAST_SECONDS, clock.left * SHARE[share]),
        ...(bounds === undefined ? {} : { bounds }),
        ...(start === null ? {} : { start: start.point }),
      },
    );
    // Where it does not fit any plan, whoever asks is told so; where it does not fit one of several, there are others.
    const again = await (start === null ? planned : whereCostingFits(planned));
    unproved ||= again.kind === "unknown" || (again.kind === "plan" && !again.proved);
    onProgress?.({ done: ++asked, of: null });
    return again;
  };

  const first = await least("waste", undefined, null);
  const thrifty =
    first.kind === "unknown" && !clock.isOver ? await least("waste", undefined, null, "first") : first;
  if (thrifty.kind !== "plan") return { kind: "none", again: thrifty };
  unproved = !thrifty.proved;
  const other = await least("cost", undefined, thrifty);
  const cheap = other.kind === "plan" ? other : thrifty;
  const found = [thrifty, cheap];
  const gaps: Gap[] = hasRoom(thrifty, cheap, steps) ? [{ thrifty, cheap }] : [];
  while (gaps.length > 0 && unbeaten(found, scenario).length < most && !clock.isOver) {
    const gap = takeWidest(gaps, { thrifty, cheap });
    const middle = Math.min(
      (gap.thrifty.counted.cost + gap.cheap.counted.cost) / 2,
      gap.thrifty.counted.cost - steps.cost,
    );
    const lower = await least("waste", { cost: middle, waste: gap.cheap.counted.waste }, gap.cheap);
    const isNew = lower.kind === "plan" && lower.counted.waste < gap.cheap.counted.waste - steps.waste;
    const below = isNew ? lower : gap.cheap;
    if (isNew) {
      found.push(below);
      if (hasRoom(below, gap.cheap, steps)) gaps.push({ thrifty: below, cheap: gap.cheap });
    }
    const above = { thrifty: gap.thrifty, cheap: below };
    if (!hasRoom(above.thrifty, above.cheap, steps)) continue;
    if (clock.isOver || unbeaten(found, scenario).length >= most) {
      gaps.push(above);
      continue;
    }
    const bounds = { waste: below.counted.waste - steps.waste, cost: gap.thrifty.counted.cost };
    const upper = await least("cost", bounds, gap.thrifty);
    if (upper.kind !== "plan" || upper.counted.cost > gap.thrifty.counted.cost - steps.cost) continue;
    found.push(upper);
    if (hasRoom(gap.thrifty, upper, steps)) gaps.push({ thrifty: gap.thrifty, cheap: upper });
  }
  const stopped = gaps.length === 0 ? null : clock.isOver ? "time" : "number of plans";
  return {
    kind: "curve",
    curve: {
      plans: await eachNearTheOneBefore(unbeaten(found, scenario), scenario, planning, whole),
      complete: stopped === null && !unproved,
      stoppedBy: stopped ?? (unproved ? "a proof not reached" : null),
      steps,
    },
  };
}

/**
 * Of plans alike in waste and spend, those that change least from one to the next; but for those that, rounded to the
 * scale, another would then beat.
 */
async function eachNearTheOneBefore(
  plans: readonly PlanAgain[],
  scenario: Scenario,
  planning: Planning,
  clock: Clock,
): Promise<PlanAgain[]> {
  const near = [...plans];
  for (const [index, plan] of plans.entries()) {
    const to = near[index - 1]?.point;
    if (to === undefined || clock.isOver) continue;
    const seconds = Math.min(MOST_NEAR_SECONDS, clock.left / (plans.length - index));
    const other = await planning.near({ ...scenario, aim: "waste" }, plan, { to, seconds });
    if (unbeaten(near.with(index, other), scenario).length === plans.length) near[index] = other;
  }
  return near;
}

function stepsOf({ scaleStep }: Scenario): Steps {
  return { cost: LEAST_COST_STEP, waste: Math.max(LEAST_WASTE_STEP, toKilograms(scaleStep).toNumber()) };
}

/** Whether a plan could lie between the two that is a step better than each. */
function hasRoom({ counted: thrifty }: PlanAgain, { counted: cheap }: PlanAgain, steps: Steps): boolean {
  const within = 1 - 1e-6;
  return (
    cheap.waste - thrifty.waste > 2 * within * steps.waste &&
    thrifty.cost - cheap.cost > 2 * within * steps.cost
  );
}

/** The gap with the largest share of the whole in waste and cost together, taken off the list. */
function takeWidest(gaps: Gap[], whole: Gap): Gap {
  const across = ({ thrifty, cheap }: Gap) => cheap.counted.waste - thrifty.counted.waste;
  const down = ({ thrifty, cheap }: Gap) => thrifty.counted.cost - cheap.counted.cost;
  const width = (gap: Gap) => across(gap) / across(whole) + down(gap) / down(whole);
  const widest = gaps.reduce((best, gap) => (width(gap) > width(best) ? gap : best));
  gaps.splice(gaps.indexOf(widest), 1);
  return widest;
}

/**
 * Those that no other is at least as good as on both, by the ledger, with waste as the scale shows it; from the least
 * waste. Of equals, the first.
 */
export function unbeaten(plans: readonly PlanAgain[], { scaleStep }: Scenario): PlanAgain[] {
  const shown = ({ values: { waste } }: PlanAgain): Weight => roundTogether([waste], scaleStep)[0] ?? waste;
  const kept: PlanAgain[] = [];
  const inOrder = [...plans].sort(
    (one, other) =>
      compare(shown(one), shown(other)) ||
      compare(one.values.netSpend, other.values.netSpend) ||
      compare(one.values.waste, other.values.waste),
  );
  for (const plan of inOrder) {
    const before = kept.at(-1);
    if (before === undefined || plan.values.netSpend < before.values.netSpend) kept.push(plan);
  }
  return kept;
}

function compare(one: bigint, other: bigint): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

/** The curve as JSON, each plan with what it does otherwise than the one before. */
export function composeTradeoff(scenario: Scenario, result: CurveResult): TradeoffJson {
  const head = {
    schema: "trim-to-use/tradeoff@1" as const,
    scenario: scenario.name,
    currency: scenario.currency,
  };
  if (result.kind === "none") {
    const { again } = result;
    return {
      ...head,
      outcome: again.kind === "no plan" ? "no plan" : "no answer",
      complete: again.kind === "no plan",
      stoppedBy: again.kind === "unknown" ? again.why : null,
      steps: null,
      plans: [],
    };
  }
  const { plans, complete, stoppedBy, steps } = result.curve;
  return {
    ...head,
    outcome: "curve",
    complete,
    stoppedBy,
    steps: {
      waste: gramsText(grams(new Decimal(steps.waste).times(1000))),
      netSpend: moneyText(money(new Decimal(steps.cost))),
    },
    plans: plans.map(({ plan, values, proved }, index) => {
      const before = plans[index - 1];
      return {
        waste: gramsText(values.waste),
        netSpend: moneyText(values.netSpend),
        proved,
        changes: before === undefined ? [] : changesBetween(before.plan, plan, scenario),
        plan,
      };
    }),
  };
}
