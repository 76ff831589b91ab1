import { type RecipeLine, serviceName } from "../../kitchen/index.js";
import { lastDayLeftByLot } from "../../safety/index.js";
import { type CookingSite, mostEaten, overagePortions } from "../demand.js";
import { currency, kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { Sum } from "../model.js";
import type { BuildContext, GoHandle } from "./context.js";

/** Dishes: what is cooked, eaten and left over, and what each recipe line asks for. */
export function addDishes(context: BuildContext): void {
  for (const site of context.sites) addPortions(site, context);
  const goes = groupBy(context.handles.goes, ({ site }) => site);
  for (const site of context.sites) {
    site.dish.lines.forEach((line, index) => {
      addLine(site, line, index, goes.of(site), context);
    });
    addCeiling(site, goes.of(site), context);
  }
}

/** All portions cooked at a site, as a sum over where they go. */
export function portionsOf(site: CookingSite, { handles }: BuildContext): Sum {
  const sum = new Sum();
  for (const serve of handles.serves) if (serve.site === site) sum.add(serve.variable, 1);
  for (const spare of handles.spares) if (spare.site === site) sum.add(spare.variable, 1);
  return sum;
}

function addPortions(site: CookingSite, context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const { dish, service } = site;
  const tag = { dish: dish.name, service };
  const where = `${dish.name} for ${serviceName(scenario, service)}`;
  for (const at of site.eatenAt) {
    const most = Math.min(site.mostPortions, mostEaten(dish, at, scenario));
    const name = at === service ? `${where} eaten` : `${where} eaten at ${serviceName(scenario, at)}`;
    // What must be eaten and can come from nowhere else is a number, not a decision.
    const onlySource =
      context.sites.filter((other) => other.dish === dish && other.eatenAt.includes(at)).length === 1;
    const lower = onlySource && !dish.optional ? (dish.portions?.least ?? 0) : 0;
    const variable = builder.variable({ family: "serve", ...tag }, name, Math.max(most, lower), {
      lower,
      integer: true,
    });
    handles.serves.push({ site, at, variable });
  }
  const overage = overagePortions(dish, service, scenario);
  if (overage > 0) {
    const takers = scenario.destinations.filter(({ end, takes }) => end === "given away" && takes.portions);
    // Only a whole batch gives portions over that nobody wants: a single one would not be cooked to be thrown away.
    for (const destination of [...takers.map(({ name }) => name), ...(dish.batch === null ? [] : [null])]) {
      const name = `${where} spare, ${destination ?? "wasted"}`;
      const variable = builder.variable({ family: "spare", ...tag }, name, overage, { integer: true });
      handles.spares.push({ site, destination, variable });
    }
  }
  if (dish.batch === null) return;
  const upper = Math.floor(site.mostPortions / site.unitPortions);
  const cook = builder.variable({ family: "cook", ...tag }, `${where} ${dish.batch.vessel}`, upper, {
    integer: true,
  });
  handles.cooks.push({ site, variable: cook });
  builder.row(
    { family: "batch", ...tag },
    `${where} in whole batches`,
    portionsOf(site, context).add(cook, -site.unitPortions),
    { lower: 0, upper: 0 },
  );
}

function addLine(
  site: CookingSite,
  line: RecipeLine,
  index: number,
  goes: readonly GoHandle[],
  context: BuildContext,
): void {
  const { scenario, builder } = context;
  const tag = { dish: site.dish.name, service: site.service, line: index };
  const where = `${site.dish.name} for ${serviceName(scenario, site.service)}: ${line.name}`;
  const whole = lineSum(site, index, null, goes);
  const least = kg(line.least);
  const most = kg(line.most);
  const balance = (amount: number): Sum =>
    new Sum().addSum(whole, 1 / amount).addSum(portionsOf(site, context), -1);
  const family = "recipe line";
  if (line.least === line.most) {
    builder.row({ family, ...tag }, where, balance(most), { lower: 0, upper: 0 });
  } else {
    if (least > 0) builder.row({ family, ...tag }, `${where}, at least`, balance(least), { lower: 0 });
    builder.row({ family, ...tag }, `${where}, at most`, balance(most), { upper: 0 });
  }
  for (const source of line.from) {
    const share = lineSum(site, index, source.part, goes);
    const versus = (part: number): Sum => new Sum().addSum(share).addSum(whole, -part);
    const name = `${where}, share of ${source.part}`;
    const shareTag = { family: "share", part: source.part, ...tag };
    if (rate(source.leastShare) > 0) {
      builder.row(shareTag, `${name}, at least`, versus(rate(source.leastShare)), { lower: 0 });
    }
    if (rate(source.mostShare) < 1) {
      builder.row(shareTag, `${name}, at most`, versus(rate(source.mostShare)), { upper: 0 });
    }
  }
}

/** Kilograms that count towards a line, as the line is stated; of one part, or of all. */
function lineSum(site: CookingSite, index: number, part: string | null, goes: readonly GoHandle[]): Sum {
  const line = site.dish.lines[index];
  const sum = new Sum();
  if (line === undefined) return sum;
  for (const go of goes) {
    if (go.line !== index || (part !== null && go.lot.part !== part)) continue;
    const source = line.from.find((from) => from.part === go.lot.part);
    if (source !== undefined) sum.add(go.variable, rate(source.rate) * rate(line.cookingYield) * go.unit);
  }
  return sum;
}

/** No portion costs more than it may, at the least its parts can cost. */
function addCeiling(site: CookingSite, goes: readonly GoHandle[], context: BuildContext): void {
  const { scenario, builder, handles, costOf, marginOf } = context;
  const { dish, service } = site;
  if (dish.ceiling === null) return;
  const sum = new Sum();
  for (const go of goes) sum.add(go.variable, costOf(go.lot, site) * go.unit);
  const room = currency(dish.ceiling) - stapleCost(site) - marginOf(site);
  const name = `${dish.name} for ${serviceName(scenario, service)} within its ceiling`;
  sum.addSum(portionsOf(site, context), -room);
  builder.row({ family: "ceiling", dish: dish.name, service }, name, sum, { upper: 0 });
  handles.ceilings.push({ site, goes, sum });
}

/** Staples of one portion, in currency units. */
export function stapleCost({ dish }: CookingSite): number {
  return dish.staples.reduce((sum, { costPerPortion }) => sum + rate(costPerPortion), 0);
}

/** Portions of a course eaten at a service, as a sum over the cookings they come from. */
export function eatenSum(
  service: number,
  context: BuildContext,
  dishFits: (site: CookingSite) => boolean,
): Sum {
  const sum = new Sum();
  for (const { site, at, variable } of context.handles.serves) {
    if (at === service && dishFits(site)) sum.add(variable, 1);
  }
  return sum;
}

/**
 * What is left of a dish takes the date of the oldest part in it that bears a legal date: it is either offered again, or holds none of the
 * lots whose date does not reach that service.
 */
export function addOffering(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  const goes = groupBy(handles.goes, ({ site }) => site);
  const dayOf = (service: number): number => scenario.services[service]?.day ?? 0;
  for (const { site, at, variable } of handles.serves) {
    if (at === site.service) continue;
    const late = goes.of(site).filter(({ lot }) => {
      const last = lastDayLeftByLot(lot, dayOf(site.service), scenario);
      return last !== null && last < dayOf(at);
    });
    if (late.length === 0) continue;
    const tag = { family: "offered", dish: site.dish.name, service: site.service };
    const where = `${site.dish.name} for ${serviceName(scenario, site.service)} offered at ${serviceName(scenario, at)}`;
    const offered = builder.variable(tag, where, 1, { integer: true });
    const served = new Sum().add(variable, 1).add(offered, -builder.upperOf(variable));
    builder.row(tag, `${where}, none unless offered`, served, { upper: 0 });
    for (const go of late) {
      const upper = builder.upperOf(go.variable);
      if (upper === 0) continue;
      const sum = new Sum().add(go.variable, 1 / upper).add(offered, 1);
      builder.row(tag, `${where}, no ${go.lot.part} that is too old`, sum, { upper: 1 });
    }
  }
}
