import { serviceName } from "../../kitchen/index.js";
import { lastDayLeftByLot } from "../../safety/index.js";
import { Sum } from "../builder.js";
import { groupBy } from "../group.js";
import type { BuildContext } from "./context.js";

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
