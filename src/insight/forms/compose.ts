import { type FormChoiceJson, gramsText, moneyText, type PlanJson } from "../../contract/index.js";
import type { Item, Scenario } from "../../kitchen/index.js";
import { Decimal, grams, money, toCurrency, toGrams, toKilograms, ZERO } from "../../quantity/index.js";
import { formsOf, pricedForms } from "../../yields/index.js";
import type { PlannedAgain, Planning } from "../planning.js";
import { type FormPlans, type FormPlansOptions, formPlans, type Verdict } from "./ways.js";

type Plans = NonNullable<FormChoiceJson["plans"]>;
type Figures = NonNullable<Plans["ways"][number]["figures"]>;

/** The forms of an item by usable weight, and by the plans of a scenario. */
export async function planFormChoice(
  of: string,
  wanted: readonly string[],
  scenario: Scenario,
  planning: Pick<Planning, "again">,
  options: FormPlansOptions,
): Promise<FormChoiceJson> {
  return composeFormChoice(of, wanted, scenario, await formPlans(of, scenario, planning, options));
}

/** The forms of an item by usable weight; with what was planned, where anything was. */
export function composeFormChoice(
  of: string,
  wanted: readonly string[],
  scenario: Scenario,
  plans: FormPlans | null,
): FormChoiceJson {
  return {
    schema: "trim-to-use/form-choice@1",
    item: of,
    scenario: plans === null ? null : scenario.name,
    currency: scenario.currency,
    wage: scenario.wage === 0n ? null : moneyText(scenario.wage),
    wanted: [...wanted],
    forms: pricedForms(of, wanted, scenario).map(formOf),
    plans:
      plans === null
        ? null
        : {
            aim: scenario.aim,
            ways: plans.ways.map(({ item, again }) => ({
              item: item?.name ?? null,
              outcome: again.kind,
              proved: again.kind === "no plan" || (again.kind === "plan" && again.proved),
              figures: again.kind === "plan" ? figuresOf(again, of, scenario) : null,
            })),
            breakEvens: plans.breakEvens.map(({ item, instead, beside }) => ({
              item: item.name,
              instead: breakEvenOf(instead, item),
              beside: breakEvenOf(beside, item),
            })),
          },
  };
}

function formOf({
  item,
  breakdown,
  offer,
  usableCost,
  overCheapest,
  breakEven,
}: ReturnType<typeof pricedForms>[number]): FormChoiceJson["forms"][number] {
  return {
    item: item.name,
    form: item.form,
    breakdown,
    unit: item.orderUnit.name,
    price: moneyText(item.buying?.price ?? money("0")),
    unitWeight: gramsText(item.orderUnit.weight),
    pricePerKilogram: rateText(offer.price),
    usable: offer.usable.toDecimalPlaces(6).toFixed(),
    minutesPerKilogram: offer.minutes.toDecimalPlaces(2).toFixed(),
    usableCost: rateText(usableCost),
    overCheapest: rateText(overCheapest),
    breakEven:
      breakEven === null
        ? null
        : {
            against: breakEven.against.name,
            price: rateText(breakEven.price),
            perKilogram: rateText(breakEven.perKilogram),
            minutesPerKilogram: breakEven.minutesPerKilogram?.toDecimalPlaces(2).toFixed() ?? null,
          },
  };
}

function breakEvenOf(found: Verdict, { orderUnit }: Item): Plans["breakEvens"][number]["instead"] {
  const { kind: verdict, proved } = found;
  if (found.kind !== "below") return { verdict, price: null, perKilogram: null, proved };
  const price = new Decimal(found.hundredths).div(100);
  return {
    verdict,
    price: price.toFixed(2),
    perKilogram: rateText(price.div(toKilograms(orderUnit.weight))),
    proved,
  };
}

function figuresOf(
  { plan, values }: Extract<PlannedAgain, { kind: "plan" }>,
  of: string,
  scenario: Scenario,
): Figures {
  const names = formsOf(of, scenario).map(({ name }) => name);
  const bought = plan.purchases.filter(({ item }) => names.includes(item));
  const used = usedGrams(plan, of, names, scenario);
  const spent = bought.reduce((sum, { cost, delivery }) => sum.plus(cost).plus(delivery ?? 0), ZERO);
  const minutes = minutesOf(plan, scenario);
  const wage = toCurrency(scenario.wage);
  return {
    bought: bought.map(({ item, units, orderUnit, weight, cost }) => ({
      item,
      units,
      unit: orderUnit,
      weight,
      cost,
    })),
    netSpend: moneyText(values.netSpend),
    waste: gramsText(values.waste),
    used: used.toFixed(),
    costPerUsed: used.isZero() ? null : rateText(spent.times(1000).div(used)),
    minutes: minutes.toDecimalPlaces(1).toFixed(),
    wageCost: wage.isZero() ? null : rateText(minutes.times(wage).div(60)),
  };
}

/** Food that cutting the forms gave and that was on hand of their parts, less what is wasted or stays in the house. */
function usedGrams(plan: PlanJson, of: string, names: readonly string[], scenario: Scenario): Decimal {
  const own = scenario.parts.filter(({ item }) => item === of);
  const parts = new Set(own.map(({ name }) => `part:${name}`));
  const foods = new Set(own.filter((part) => part.class === "food").map(({ name }) => name));
  const held = plan.onHand
    .filter(({ kind, name }) => kind === "part" && foods.has(name))
    .reduce((sum, { weight }) => sum.plus(weight), ZERO);
  const food = plan.cuts
    .filter(({ item }) => names.includes(item))
    .flatMap((cut) => cut.parts.filter((part) => part.class === "food"))
    .reduce((sum, { weight }) => sum.plus(weight), held);
  const wasted = plan.transfers
    .filter(({ from, to }) => parts.has(from) && to.startsWith("wastedFood:"))
    .reduce((sum, { weight }) => sum.plus(weight), ZERO);
  const stayed = plan.leftovers
    .filter(({ part, end, stock }) => foods.has(part) && end === "kept" && stock !== null)
    .reduce((sum, { weight }) => sum.plus(weight), ZERO);
  return Decimal.max(ZERO, food.minus(wasted).minus(stayed));
}

/** Hands-on minutes of every cut and further step, as far as they are stated. */
function minutesOf(plan: PlanJson, { items, steps }: Scenario): Decimal {
  const kilograms = (weight: string): Decimal => toKilograms(grams(weight));
  const cuts = plan.cuts.map(({ item: name, breakdown, units, weight }) => {
    const item = items.find((each) => each.name === name);
    const minutes = item?.breakdowns.find((each) => each.name === breakdown)?.minutes ?? ZERO;
    const unitsCut = item === undefined ? ZERO : toGrams(grams(weight)).div(toGrams(item.unitWeight));
    return minutes.times(units ?? unitsCut);
  });
  const preps = plan.preps.map(({ step, weight }) =>
    (steps.find(({ name }) => name === step)?.minutesPerKilogram ?? ZERO).times(kilograms(weight)),
  );
  return Decimal.sum(ZERO, ...cuts, ...preps);
}

function rateText(amount: Decimal): string {
  return amount.toDecimalPlaces(4).toFixed();
}
