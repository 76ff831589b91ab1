import type { Plan } from "../contract/index.js";
import { Decimal } from "../quantity/index.js";
import type { PageMaker } from "./page.js";
import type { View } from "./view.js";
import { counted, listed, type Writing } from "./writing.js";

type RiskData = {
  /** Where it was planned on lower yields. */
  readonly cautious: readonly string[];
  readonly dishes: readonly Row[];
  readonly draws: string;
  readonly seed: string;
};

type Row = {
  readonly name: string;
  readonly about: string;
  /** Twenty dots, those that fall short filled. */
  readonly dots: readonly { readonly at: string; readonly filled: string }[];
  /** How the row of dots is read out. */
  readonly said: string;
  readonly percent: string;
  readonly missing: string;
  readonly most: string;
  readonly more: readonly { readonly chance: string; readonly what: string }[];
};

type DishRisk = NonNullable<Plan["risk"]>["dishes"][number];

/** Where no order units that were tried give a chance. */
export const NOT_ENOUGH = "as many units again are not enough";

const DOTS = 20;
/** Between the middles of two dots, in units of the picture. */
const DOT_STEP = 10;

/** How sure every dish is to be there in full, and what more to buy to be surer. */
export const riskPage: PageMaker = { slug: "risk", title: "How sure", data: riskData };

export function riskData({ plan, writing }: View): RiskData {
  const { dishes = [], draws = 0, seed = 0 } = plan.risk ?? {};
  return {
    cautious: cautiousWords(plan, writing),
    dishes: dishes.map((dish) => rowOf(dish, writing)),
    draws: writing.count(draws),
    seed: String(seed),
  };
}

/** How a plan on lower yields came to be so sure, a sentence each; none where it was not asked for. */
export function cautiousWords({ risk }: Plan, writing: Writing): string[] {
  if (risk?.cautious == null) return [];
  const { asked, reached, lowered } = risk.cautious;
  const rate = (value: Decimal): string => writing.rate(value);
  const chances = risk.dishes.map(({ chanceShort }) => new Decimal(1).minus(chanceShort));
  const least = writing.rate(Decimal.min(1, ...chances).toDecimalPlaces(3, Decimal.ROUND_DOWN));
  const lower = lowered.map(({ item, by }) => `${item} by ${rate(by)}`);
  return [
    reached
      ? `Every dish is there in full in at least ${least} of the cases; ${rate(asked)} was asked.`
      : `${rate(asked)} was asked and not reached: the least sure dish is there in full in ${least} of the cases. Lower yields leave no plan, or none found in the time.`,
    lower.length === 0
      ? "No yield had to be lowered for it."
      : `Planned on lower yields: ${listed(lower)}. What that leaves over is counted as waste.`,
  ];
}

function rowOf(risk: DishRisk, writing: Writing): Row {
  const { dish, service, portions, chanceShort, expectedShort, mostShort, more } = risk;
  const short = Math.round(chanceShort.toNumber() * DOTS);
  return {
    name: dish,
    about: `${service}, ${counted(writing, portions, "portion")}`,
    dots: Array.from({ length: DOTS }, (_, index) => ({
      at: String(DOT_STEP * (index + 0.5)),
      filled: index < short ? "filled" : "",
    })),
    said: `Falls short about ${short} times in ${DOTS}`,
    percent: chanceText(chanceShort, writing),
    missing: writing.decimal(expectedShort, 1),
    most: writing.decimal(mostShort.ceil(), 0),
    more: moreWords(more, writing),
  };
}

/** In whole percent: draws tell no more. */
export function chanceText(chance: Decimal, writing: Writing): string {
  const whole = chance.toDecimalPlaces(2);
  if (whole.isZero() && chance.greaterThan(0)) return `under ${writing.rate(new Decimal("0.01"))}`;
  if (whole.equals(1) && chance.lessThan(1)) return `over ${writing.rate(new Decimal("0.99"))}`;
  return writing.rate(whole);
}

/** What to buy beside the plan's for each chance; chances with the same purchases stand together. */
function moreWords(more: DishRisk["more"], writing: Writing): Row["more"] {
  const rows: { chances: string[]; what: string }[] = [];
  for (const { chance, units } of more) {
    const what =
      units === null
        ? NOT_ENOUGH
        : units.length === 0
          ? "as planned"
          : listed(
              units.map(({ item, units: count, orderUnit }) => orderWords(item, count, orderUnit, writing)),
            );
    const last = rows.at(-1);
    if (last?.what === what) last.chances.push(writing.rate(chance));
    else rows.push({ chances: [writing.rate(chance)], what });
  }
  return rows.map(({ chances, what }) => ({ chance: listed(chances), what }));
}

/** "3 heads of broccoli", "2 leeks". */
export function orderWords(item: string, count: number, orderUnit: string, writing: Writing): string {
  const units = counted(writing, count, orderUnit);
  return orderUnit === item ? units : `${units} of ${item}`;
}
