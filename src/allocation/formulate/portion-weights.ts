import { type RecipeLine, serviceName } from "../../kitchen/index.js";
import type { CookingSite } from "../demand.js";
import { kg, rate } from "../floats.js";
import { Sum } from "../model.js";
import type { BuildContext, PortionWeight, WeightRange } from "./context.js";
import { portionsOf } from "./dishes.js";

/** Ranges narrower than this, in kilograms, are rounding dust: the portion has one weight. */
const DUST = 1e-9;

/** Kilograms of one portion as the ledger counts it, at the least and at the most that its lines and shares allow. */
export function portionWeightRange({ dish }: CookingSite): WeightRange {
  const ranges = dish.lines.map(lineWeightRange);
  return {
    least: ranges.reduce((sum, { least }) => sum + least, 0),
    most: ranges.reduce((sum, { most }) => sum + most, 0),
  };
}

function lineWeightRange(line: RecipeLine): WeightRange {
  const sources = [...line.from].sort((one, other) => rate(other.rate) - rate(one.rate));
  return {
    least: kg(line.least) * weightByShares(sources),
    most: kg(line.most) * weightByShares([...sources].reverse()),
  };
}

/** Weight per weight of a line that takes as much of the first source as its shares allow, then of the next. */
function weightByShares(sources: RecipeLine["from"]): number {
  let free = 1 - sources.reduce((sum, { leastShare }) => sum + rate(leastShare), 0);
  return sources.reduce((sum, source) => {
    const extra = Math.max(0, Math.min(free, rate(source.mostShare) - rate(source.leastShare)));
    free -= extra;
    return sum + (rate(source.leastShare) + extra) / rate(source.rate);
  }, 0);
}

/**
 * Kilograms, as the ledger counts them, of as many portions of a cooking as some of its variables say together. Where
 * a portion has no one weight, it is the weight of the cooking by portions: exact in whole numbers of them.
 */
export function weightOfPortions(
  site: CookingSite,
  variables: readonly number[],
  context: BuildContext,
): Sum {
  const range = portionWeightRange(site);
  const sum = new Sum();
  if (variables.length === 0) return sum;
  if (range.most - range.least < DUST) {
    for (const variable of variables) sum.add(variable, range.least);
    return sum;
  }
  const weight = portionWeightOf(site, range, context);
  for (const variable of variables) sum.addSum(weightOfVariable(site, weight, variable, context));
  return sum;
}

/** The variable of a portion's weight, with the row that makes it the cooking's weight by its portions. */
function portionWeightOf(site: CookingSite, range: WeightRange, context: BuildContext): PortionWeight {
  const { builder, handles } = context;
  const known = handles.portionWeights.get(site);
  if (known !== undefined) return known;
  const tag = tagOf(site);
  const where = `${site.dish.name} for ${serviceName(context.scenario, site.service)}`;
  const { least: lower, most: upper } = range;
  const variable = builder.variable(tag, `${where}, kilograms a portion`, upper, { lower });
  const weight: PortionWeight = { variable, range, of: new Map() };
  handles.portionWeights.set(site, weight);
  const balance = new Sum();
  for (const go of handles.goes) {
    if (go.site !== site) continue;
    const line = site.dish.lines[go.line];
    balance.add(go.variable, go.unit * (line?.stated === "cooked" ? rate(line.cookingYield) : 1));
  }
  const cook = handles.cooks.find((entry) => entry.site === site);
  if (cook === undefined) {
    const most = Math.min(site.mostPortions, builder.mostOf(portionsOf(site, context)));
    const portions = { of: portionsOf(site, context), name: `${where}, portions`, lower: 0, upper: most };
    balance.addSum(timesWeight(site, weight, portions, context), -1);
  } else {
    balance.addSum(weightOfVariable(site, weight, cook.variable, context), -site.unitPortions);
  }
  builder.row(tag, `${where}, weight by portions`, balance, { lower: 0, upper: 0 });
  return weight;
}

function weightOfVariable(
  site: CookingSite,
  weight: PortionWeight,
  variable: number,
  context: BuildContext,
): Sum {
  const { builder } = context;
  const known = weight.of.get(variable);
  if (known !== undefined) return known;
  const portions = {
    of: new Sum().add(variable, 1),
    name: builder.nameOf(variable),
    lower: builder.lowerOf(variable),
    upper: builder.upperOf(variable),
  };
  const sum = timesWeight(site, weight, portions, context);
  weight.of.set(variable, sum);
  return sum;
}

interface Whole {
  readonly of: Sum;
  readonly name: string;
  readonly lower: number;
  readonly upper: number;
}

/**
 * The portion's weight times a whole number: the number is written in binary digits, and each digit times the weight
 * held by the four rows that are exact for a digit of 0 or 1 (McCormick, Mathematical Programming 10, 1976, from
 * memory).
 */
function timesWeight(site: CookingSite, weight: PortionWeight, whole: Whole, context: BuildContext): Sum {
  const { builder } = context;
  const { least, most } = weight.range;
  const tag = tagOf(site);
  const product = new Sum().add(weight.variable, whole.lower);
  const digits = new Sum().addSum(whole.of);
  for (let size = 1; size <= whole.upper - whole.lower; size *= 2) {
    const name = `${whole.name}, ${size} more`;
    const digit = builder.variable(tag, name, 1, { integer: true });
    digits.add(digit, -size);
    const taken = builder.variable(tag, `${name}, kilograms each`, most);
    product.add(taken, size);
    const row = (what: string, sum: Sum, bounds: { lower?: number; upper?: number }): void =>
      builder.row(tag, `${name}, ${what}`, sum, bounds);
    const times = (portion: number): Sum => new Sum().add(taken, 1).add(digit, -portion);
    row("none of the weight unless so", times(most), { upper: 0 });
    row("at least the least if so", times(least), { lower: 0 });
    row("at most the weight", times(least).add(weight.variable, -1), { upper: -least });
    row("all of the weight if so", times(most).add(weight.variable, -1), { lower: -most });
  }
  if (whole.upper > whole.lower)
    builder.row(tag, `${whole.name} in digits`, digits, { lower: whole.lower, upper: whole.lower });
  return product;
}

function tagOf({ dish, service }: CookingSite) {
  return { family: "portion weight", dish: dish.name, service };
}
