import { lotKey, lotName, serviceName } from "../../kitchen/index.js";
import { type Decimal, ZERO } from "../../quantity/index.js";
import { weightBeforeWorking } from "../../waste/index.js";
import { cookedAtATime } from "../demand.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import { Sum } from "../model.js";
import type { BuildContext } from "./context.js";
import { portionsOf } from "./dishes.js";
import { drawUnit } from "./parts.js";
import { weightOfPortions } from "./portion-weights.js";

/** Limits of the house: the cold room, the freezer, the hands, the vessels, and what each destination takes. */
export function addLimits(context: BuildContext): void {
  addStores(context);
  addHands(context);
  addVessels(context);
  addDestinations(context);
}

/** Hands-on hours before each service: cutting, steps and cooking. */
function addHands(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  scenario.services.forEach((service, index) => {
    const minutes = service.handsMinutes ?? scenario.limits.handsMinutes;
    if (minutes === null) return;
    const sum = trimmingHours({
      cuts: handles.cuts.filter((cut) => cut.service === index),
      draws: handles.draws.filter((draw) => draw.service === index),
    });
    for (const site of context.sites) {
      if (site.service !== index) continue;
      const perPortion =
        hours(site.dish.minutesPerBatch) / (site.dish.batch?.portions ?? cookedAtATime(site.dish));
      sum.addSum(portionsOf(site, context), perPortion);
    }
    const name = `hands before ${serviceName(scenario, index)}`;
    builder.row({ family: "hands", service: index }, name, sum, { upper: minutes / 60 });
  });
}

/** Hands-on hours of cuts and further steps. */
export function trimmingHours({ cuts, draws }: Pick<BuildContext["handles"], "cuts" | "draws">): Sum {
  const sum = new Sum();
  for (const { breakdown, variable } of cuts) sum.add(variable, hours(breakdown.minutes));
  for (const { step, from, variable } of draws) {
    sum.add(variable, hours(step.minutesPerKilogram) * drawUnit(from));
  }
  return sum;
}

function hours(minutes: Decimal | null | undefined): number {
  return rate(minutes ?? ZERO) / 60;
}

/** Batches in each vessel for each service. Half batches of one dish share a vessel, those of two dishes do not. */
function addVessels(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  for (const { vessel, most } of scenario.limits.vessels) {
    scenario.services.forEach((_, service) => {
      const sum = new Sum();
      for (const { site, variable } of handles.cooks) {
        const { name, batch } = site.dish;
        if (site.service !== service || batch?.vessel !== vessel) continue;
        if (!batch.halves) {
          sum.add(variable, 1);
          continue;
        }
        const tag = { family: "vessels", dish: name, service, vessel };
        const where = `${name} for ${serviceName(scenario, service)}: ${vessel} taken`;
        const upper = Math.ceil(builder.upperOf(variable) / 2);
        const taken = builder.variable(tag, where, upper, { integer: true });
        builder.row(tag, where, new Sum().add(taken, 2).add(variable, -1), { lower: 0 });
        sum.add(taken, 1);
      }
      const name = `${vessel} for ${serviceName(scenario, service)}`;
      builder.row({ family: "vessels", service, vessel }, name, sum, { upper: most });
    });
  }
}

function addDestinations(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  for (const destination of scenario.destinations) {
    if (destination.end !== "given away" || destination.limit === null) continue;
    const sum = new Sum();
    for (const give of handles.gives) {
      if (give.destination === destination.name)
        sum.add(give.variable, rate(weightBeforeWorking(give.lot, scenario)));
    }
    for (const spare of handles.spares) {
      if (spare.destination === destination.name)
        sum.addSum(weightOfPortions(spare.site, [spare.variable], context));
    }
    const tag = { family: "destination", destination: destination.name };
    builder.row(tag, `${destination.name} takes`, sum, { upper: kg(destination.limit) });
  }
}

/** What stays in the cold room and in the freezer after each service, the last one too. */
export function addStores(context: BuildContext): void {
  const { scenario, builder } = context;
  const { chilled, frozen } = scenario.limits;
  const flows = lotFlowsOf(context);
  for (let service = 0; service < scenario.services.length; service++) {
    const after = `after ${serviceName(scenario, service)}`;
    if (chilled !== null) {
      const sum = partsIn("chilled", service, flows, context);
      addItemsIn(sum, service, context);
      for (const { site, at, variable } of context.handles.serves) {
        if (site.service <= service && at > service) sum.addSum(weightOfPortions(site, [variable], context));
      }
      builder.row({ family: "chilled", service }, `cold room ${after}`, sum, { upper: kg(chilled) });
    }
    if (frozen !== undefined) {
      const sum = partsIn("frozen", service, flows, context);
      builder.row({ family: "frozen", service }, `freezer ${after}`, sum, { upper: kg(frozen) });
    }
  }
}

/** Whole items still there, and after the last service those kept past it. */
function addItemsIn(sum: Sum, service: number, { scenario, handles }: BuildContext): void {
  for (const stock of handles.stocks) {
    if (stock.service === service) sum.add(stock.variable, kg(stock.item.unitWeight));
  }
  if (service !== scenario.services.length - 1) return;
  for (const { item, variable } of [...handles.keptItems, ...handles.stockItems])
    sum.add(variable, kg(item.unitWeight));
}

type LotFlows = ReturnType<typeof lotFlowsOf>;

function lotFlowsOf({ handles }: BuildContext) {
  const made = handles.draws.flatMap((draw) =>
    draw.step.yields.map(({ part, fraction }) => ({
      draw,
      key: lotKey({ part, origin: draw.from.origin }),
      given: rate(fraction) * drawUnit(draw.from),
    })),
  );
  return {
    goes: groupBy(handles.goes, ({ lot }) => lot),
    draws: groupBy(handles.draws, ({ from }) => from),
    keeps: groupBy([...handles.keeps, ...handles.stays], ({ lot }) => lot),
    made: groupBy(made, ({ key }) => key),
  };
}

/** Parts bound for later dishes, later steps or past the plan. What nobody will use has left. */
function partsIn(store: "chilled" | "frozen", after: number, flows: LotFlows, context: BuildContext): Sum {
  const { scenario, builder, lotGraph } = context;
  const sum = new Sum();
  for (const lot of lotGraph.lots) {
    if (lot.firstService > after || (lot.kind.state === "frozen") !== (store === "frozen")) continue;
    const isLater = (service: number | null): boolean => service !== null && service > after;
    const wanted = new Sum();
    for (const go of flows.goes.of(lot)) if (isLater(go.site.service)) wanted.add(go.variable, go.unit);
    for (const draw of flows.draws.of(lot))
      if (isLater(draw.service)) wanted.add(draw.variable, drawUnit(lot));
    for (const keep of flows.keeps.of(lot)) wanted.add(keep.variable, 1);
    const madeLater = flows.made.of(lotKey(lot)).filter(({ draw }) => isLater(draw.service));
    if (wanted.isEmpty || madeLater.length === 0) {
      sum.addSum(wanted);
      continue;
    }
    // What is made later than this covers what is wanted later, and what is over of it covers nothing else.
    const name = `${lotName(scenario, lot)} in store after ${serviceName(scenario, after)}`;
    const tag = { family: store, part: lot.part, service: after };
    const there = builder.variable(tag, name, builder.mostOf(wanted));
    for (const { draw, given } of madeLater) wanted.add(draw.variable, -given);
    builder.row(tag, name, wanted.add(there, -1), { upper: 0 });
    sum.add(there, 1);
  }
  return sum;
}
