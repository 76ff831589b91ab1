import type { Item, Scenario, Yield } from "../kitchen/index.js";
import type { Question } from "./engine.js";
import { kg, rate } from "./floats.js";
import { buildModel, type PlanModel } from "./formulate/index.js";
import { drawUnit } from "./formulate/parts.js";
import { groupBy } from "./group.js";
import { buildLotGraph, type LotNode } from "./lot-graph.js";
import { leastOf, type Model, ModelBuilder, namedPoint, Sum, startFrom, type Variable } from "./model.js";

/** Whole items keep better than cut ones: a day in store counts as such a part of a day after cutting. */
const WHOLE_DAY = 0.25;
/** What else makes one plan better than another that is as fresh, in kilogram-days. */
const WAY_OF_CUTTING = 0.1;
const CUT = 0.1;
const GOING = 0.02;
const STEP = 0.02;
/** For a kilogram that a cut or a step loses or peels off. */
const LOST = 1;
/** Weights below a milligram are rounding dust of the engines. */
const DUST = 1e-6;

/** What may still change; every other whole number stays as the plan has it. */
const FREE = new Set(["cut", "buy", "bin", "keep item", "stay item", "go", "draw"]);

export interface FreshestQuestion extends Question {
  readonly start: readonly number[];
}

/** The plan's model with the cuts that were left out of it because they repeat earlier ones, and the point in it. */
export function withEveryLot(
  plan: PlanModel,
  point: readonly number[],
): { plan: PlanModel; point: readonly number[] } {
  const { lots } = buildLotGraph(plan.scenario, "all");
  if (lots.length === plan.lotGraph.lots.length) return { plan, point };
  const every = buildModel(plan.scenario, plan.ceilings, "all");
  return { plan: every, point: startFrom(namedPoint(plan.model, point), every.model) };
}

/**
 * Which plan with the same purchases in total, the same portions and the aims held cuts latest before use: least
 * kilogram-days to use, a part of those in store whole, and a little for each other thing to do and for what is lost.
 * `model` is the plan's, with the rows that hold its aims.
 */
export function freshestQuestion(plan: PlanModel, model: Model, point: readonly number[]): FreshestQuestion {
  const { handles } = plan;
  const variables: Variable[] = model.variables.map((variable, index) => {
    const value = Math.round(point[index] ?? 0);
    const isFree = !variable.integer || FREE.has(variable.tag.family);
    return isFree ? variable : { ...variable, lower: value, upper: value };
  });
  const builder = new ModelBuilder({ variables, rows: model.rows });
  addPurchasesHeld(plan, point, builder);
  const sum = ageOf(plan);
  addLost(sum, plan);
  const start = [...point];
  /** A switch that is on as soon as one of the variables, of at most so much, is more than nothing. */
  const price = (
    most: readonly (readonly [variable: number, limit: number])[],
    each: number,
  ): number | null => {
    const able = most.filter(([, limit]) => limit > DUST);
    const first = able[0]?.[0];
    if (first === undefined) return null;
    const tag = { ...builder.tagOf(first), family: "used" };
    const used = builder.variable(tag, `${builder.nameOf(first)}, used`, 1, { integer: true });
    for (const [variable, limit] of able) {
      const only = new Sum().add(variable, 1 / limit).add(used, -1);
      builder.row(tag, `${builder.nameOf(variable)}, only if used`, only, { upper: 0 });
    }
    sum.add(used, each);
    start.push(able.some(([variable]) => (start[variable] ?? 0) > DUST) ? 1 : 0);
    return used;
  };
  const limitOf = (variable: number): number => model.variables[variable]?.upper ?? 0;
  for (const [, ways] of groupBy(
    handles.cuts,
    ({ item, breakdown }) => `${item.name} | ${breakdown.name}`,
  ).entries()) {
    const [first] = ways;
    const most = first === undefined ? 0 : unitsOf(first.item, plan, point);
    const used = ways.flatMap(
      ({ variable }) => price([[variable, Math.min(limitOf(variable), most)]], CUT) ?? [],
    );
    price(
      used.map((variable) => [variable, 1]),
      WAY_OF_CUTTING,
    );
  }
  for (const { variable } of handles.draws) price([[variable, limitOf(variable)]], STEP);
  for (const { variable } of rivalGoings(plan, point)) price([[variable, limitOf(variable)]], GOING);
  return { model: builder.build(model.name), objective: leastOf(sum), start };
}

/** As many order units of each item in all, whenever they come; what keeps for ever comes when it did. */
function addPurchasesHeld(
  { scenario, handles }: PlanModel,
  point: readonly number[],
  builder: ModelBuilder,
): void {
  for (const item of scenario.items) {
    const buys = handles.buys.filter((buy) => buy.item === item);
    const groups = item.keepsDays === null ? buys.map((buy) => [buy]) : buys.length > 0 ? [buys] : [];
    for (const group of groups) {
      const all = new Sum();
      for (const { variable } of group) all.add(variable, 1);
      const bought = group.reduce((sum, { variable }) => sum + (point[variable] ?? 0), 0);
      const tag = { family: "held", item: item.name };
      builder.row(tag, `${item.name} bought as before`, all, { lower: bought, upper: bought });
    }
  }
}

/** Most units of an item that can be cut: all that come in. */
function unitsOf(item: Item, { handles }: PlanModel, point: readonly number[]): number {
  const held = item.onHand.reduce((sum, { units }) => sum + rate(units), 0);
  return handles.buys
    .filter((buy) => buy.item === item)
    .reduce((sum, { variable }) => sum + rate(item.orderUnit.size) * (point[variable] ?? 0), held);
}

/** Kilogram-days of food between cutting and use, and of whole items in store. Frozen food does not age. */
function ageOf({ scenario, handles }: PlanModel): Sum {
  const sum = new Sum();
  const dayOf = (service: number): number => scenario.services[service]?.day ?? 0;
  const since = ({ origin }: LotNode): number => dayOf(origin.kind === "cut" ? origin.service : 0);
  const ages = ({ kind }: LotNode): boolean => kind.class === "food" && kind.state !== "frozen";
  for (const { lot, site, unit, variable } of handles.goes) {
    if (ages(lot)) sum.add(variable, unit * (dayOf(site.service) - since(lot)));
  }
  const last = dayOf(scenario.services.length - 1);
  for (const { lot, variable } of handles.keeps) if (ages(lot)) sum.add(variable, last - since(lot));
  for (const { item, service, variable } of handles.stocks) {
    const days = dayOf(service + 1) - dayOf(service);
    if (item.keepsDays !== null) sum.add(variable, WHOLE_DAY * days * kg(item.unitWeight));
  }
  return sum;
}

function addLost(sum: Sum, { scenario, handles }: PlanModel): void {
  for (const { item, breakdown, variable } of handles.cuts) {
    const lost = rate(breakdown.loss) + inedibleOf(breakdown.yields, scenario);
    sum.add(variable, LOST * lost * kg(item.unitWeight));
  }
  for (const { step, from, variable } of handles.draws) {
    sum.add(variable, LOST * (rate(step.loss) + inedibleOf(step.yields, scenario)) * drawUnit(from));
  }
}

function inedibleOf(yields: readonly Yield[], { parts }: Scenario): number {
  const isFood = (name: string): boolean => parts.some((part) => part.name === name && part.class === "food");
  return yields.reduce((sum, { part, fraction }) => (isFood(part) ? sum : sum + rate(fraction)), 0);
}

/** Goings into the lines of what is cooked that can be filled from more than one lot. */
function rivalGoings({ handles }: PlanModel, point: readonly number[]) {
  const cooked = new Set(
    [...handles.serves, ...handles.spares].flatMap(({ site, variable }) =>
      (point[variable] ?? 0) > DUST ? [site] : [],
    ),
  );
  return groupBy(
    handles.goes.filter(({ site }) => cooked.has(site)),
    ({ site, line }) => `${site.dish.name} ${site.service} ${line}`,
  )
    .entries()
    .flatMap(([, rivals]) => (rivals.length > 1 ? rivals : []));
}
