import { lotKey, lotName, serviceName } from "../../kitchen/index.js";
import { Sum } from "../builder.js";
import { kg, rate } from "../floats.js";
import { type Groups, groupBy } from "../group.js";
import type { LotNode } from "../network.js";
import type { BuildContext, DrawHandle, GoHandle } from "./context.js";
import { drawUnit } from "./parts.js";
import { weightOfPortions } from "./portion-weights.js";

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

interface LotFlows {
  readonly goes: Groups<GoHandle, LotNode>;
  readonly draws: Groups<DrawHandle, LotNode>;
  readonly keeps: Groups<{ lot: LotNode; variable: number }, LotNode>;
  readonly made: Groups<{ draw: DrawHandle; key: string; given: number }, string>;
}

function lotFlowsOf({ handles }: BuildContext): LotFlows {
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
  const { scenario, builder, network } = context;
  const sum = new Sum();
  for (const lot of network.lots) {
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
    const most = wanted
      .terms()
      .reduce((most, { variable, coefficient }) => most + coefficient * builder.upperOf(variable), 0);
    const there = builder.variable(tag, name, most);
    for (const { draw, given } of madeLater) wanted.add(draw.variable, -given);
    builder.row(tag, name, wanted.add(there, -1), { upper: 0 });
    sum.add(there, 1);
  }
  return sum;
}
