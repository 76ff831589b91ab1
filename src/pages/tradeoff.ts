import { decodePlan, type PlanChange, type TradeoffJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import {
  Decimal,
  grams,
  type Money,
  minus,
  money,
  NO_MONEY,
  OUNCE_MILLIGRAMS,
  roundTogether,
  toCurrency,
  toKilograms,
  type Weight,
} from "../quantity/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import { changeName, changeText } from "./changes.js";
import type { Document } from "./document.js";
import { type DrawnCurve, drawnCurve } from "./tradeoff-picture.js";
import { datesText, servicesText } from "./view.js";
import { wasteLine } from "./waste-figures.js";
import { capital, coins, listed, type Writing, writingFor } from "./writing.js";

/** A name in the picture says so many of a plan's changes, of the first kind there is; the table has them all. */
const CHANGES_NAMED = 2;
const ORDER: readonly PlanChange["kind"][] = ["buy", "dish", "cut", "keep"];

/** The plans that no other beats: a picture of them, and a row for each with what changes. */
export function tradeoffDocument(tradeoff: TradeoffJson, scenario: Scenario): Document {
  const writing = writingFor(scenario);
  const { plans } = tradeoff;
  const spends = coins(
    plans.map(({ netSpend }) => money(netSpend)),
    scenario,
  );
  const checked = "Each plan was checked and balanced to the milligram like any other.";
  return {
    slug: "tradeoff",
    title: "Waste against spend",
    head: [scenario.name, servicesText(scenario), datesText(scenario, writing)],
    blocks: [
      { kind: "words", text: leadText(tradeoff, scenario, writing) },
      { kind: "curves", curves: plans.length < 2 ? [] : picturesOf(tradeoff, scenario, writing) },
      {
        kind: "table",
        caption: "The plans, from least waste to least spend",
        of: "Plan",
        tight: true,
        columns: [
          { head: `Waste, ${writing.unit}`, figures: true },
          { head: spendHead(scenario), figures: true },
          { head: "What changes", width: "whole" },
        ],
        rows: plans.map((plan, index) => ({
          name: [writing.count(index + 1), endName(index, tradeoff)].filter((text) => text !== "").join(". "),
          sub: [
            plan.proved ? "" : "best found, not proved",
            wasteLine(cooksWasteOf(decodePlan(plan.plan)), writing),
          ]
            .filter((text) => text !== "")
            .join("; "),
          cells: [
            writing.shown(grams(plan.waste)),
            writing.money(spends[index] ?? NO_MONEY),
            {
              lines: plan.changes.map((change) => changeText(change, writing)),
              subs: [tradeoffSums(plan, plans[index - 1], scenario, writing)].filter((text) => text !== ""),
            },
          ],
        })),
      },
      {
        kind: "words",
        text: plans.length === 0 ? "" : `${completeText(tradeoff, writing)} ${checked}`,
        look: "quiet",
      },
    ],
  };
}

function leadText({ outcome, complete, plans }: TradeoffJson, scenario: Scenario, writing: Writing): string {
  if (outcome === "no plan")
    return "There is no plan to choose from: plan the scenario to see what would make one.";
  const [first] = plans;
  const last = plans.at(-1);
  if (outcome === "no answer" || first === undefined || last === undefined)
    return "No plan was found in the time. That is not a proof that there is none.";
  const waste = (plan: typeof first): string => writing.weight(grams(plan.waste));
  const spend = (plan: typeof first): string => writing.money(money(plan.netSpend));
  if (first === last)
    return `${complete ? "One plan is best in both" : "One plan was found"}: waste ${waste(first)}, ${spendHead(scenario).toLowerCase()} ${spend(first)}.`;
  return `From ${waste(first)} of waste for ${spend(first)} to ${waste(last)} for ${spend(last)}: each plan wastes more than the one before it, and costs less.`;
}

/** The ends are named as what they are; between them a plan is named by what changes. */
function endName(index: number, { complete, plans }: TradeoffJson): string {
  if (plans.length === 1) return complete ? "Least waste and least spend" : "The only plan found";
  if (index === 0) return "Least waste";
  return index === plans.length - 1 ? "Least spend" : "";
}

function picturesOf(tradeoff: TradeoffJson, scenario: Scenario, writing: Writing): DrawnCurve[] {
  const { plans } = tradeoff;
  const isMetric = writing.unit === "g";
  const across = (weight: Weight): Decimal =>
    isMetric ? toKilograms(weight) : new Decimal(weight.toString()).div(OUNCE_MILLIGRAMS);
  const dots = plans.map(({ waste, netSpend, changes }, index) => ({
    across: across(grams(waste)),
    up: toCurrency(money(netSpend)),
    name: nameOf(endName(index, tradeoff), changes, writing),
  }));
  const axes = {
    across: `Waste, ${isMetric ? "kg" : "oz"}`,
    up: `${spendHead(scenario)}, ${scenario.currency}`,
    figure: (value: Decimal) => writing.decimal(value, 3),
  };
  const describes = `${plans.length} plans by waste and spend; the table has the same figures`;
  return [drawnCurve("wide", dots, axes, describes), drawnCurve("narrow", dots, axes, describes)];
}

/** What changes most plainly: what is bought; else what is made, cut or kept. */
function nameOf(end: string, changes: readonly PlanChange[], writing: Writing): string {
  const telling = ORDER.map((kind) => changes.filter((change) => change.kind === kind)).find(
    ({ length }) => length > 0,
  );
  const words = listed((telling ?? []).slice(0, CHANGES_NAMED).map((change) => changeName(change, writing)));
  if (end !== "") return words === "" ? end : `${end}: ${words}`;
  return words === "" ? "The same bought, cut and made" : capital(words);
}

type CurvePlan = TradeoffJson["plans"][number];

/** "Net spend" where something kept is credited, else "Spend". */
export function spendHead({ parts, items }: Scenario): string {
  const isCredited = [...parts, ...items].some(({ carry }) => carry !== null && carry.valuePerKilogram > 0n);
  return isCredited ? "Net spend" : "Spend";
}

/** What two plans next to each other differ by as printed: "Saves £1.05 for 18 g more waste". Empty for the first. */
export function tradeoffSums(
  plan: CurvePlan,
  before: CurvePlan | undefined,
  scenario: Scenario,
  writing: Writing,
): string {
  if (before === undefined) return "";
  const spend = ({ netSpend }: CurvePlan): Money => coins([money(netSpend)], scenario)[0] ?? money(netSpend);
  const waste = (of: CurvePlan): Weight =>
    roundTogether([grams(of.waste)], scenario.scaleStep)[0] ?? grams(of.waste);
  const saved = writing.money(minus(spend(before), spend(plan)));
  return `Saves ${saved} for ${writing.weight(minus(waste(plan), waste(before)))} more waste`;
}

/** Whether these are all the plans there are, and how sure that is. */
export function completeText({ complete, stoppedBy, steps, plans }: TradeoffJson, writing: Writing): string {
  const by =
    steps === null
      ? ""
      : ` by ${writing.weight(grams(steps.waste))} or ${writing.money(money(steps.netSpend))} or more`;
  if (complete && plans.length === 1) return `Proved: no plan is better in either${by}.`;
  if (complete) return `Proved: there are no others that better one without worsening the other${by}.`;
  const count = writing.count(plans.length);
  if (stoppedBy === "number of plans")
    return `${count} plans, evenly spread; there may be more between them.`;
  if (stoppedBy === "a proof not reached")
    return "Not every plan could be proved in its share of the time: there may be better ones.";
  return `The time was over: there may be better plans, and more between these.`;
}
