import { serviceName } from "../../kitchen/index.js";
import { type Decimal, ZERO } from "../../quantity/index.js";
import { weightBeforeWorking } from "../../waste/index.js";
import { Sum } from "../builder.js";
import { cookedAtATime } from "../demand.js";
import { kg, rate } from "../floats.js";
import type { BuildContext } from "./context.js";
import { portionsOf } from "./dishes.js";
import { drawUnit } from "./parts.js";
import { weightOfPortions } from "./portion-weights.js";
import { addStores } from "./stores.js";

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
  for (const { item, breakdown, variable } of cuts) {
    sum.add(variable, hours(item.breakdowns.find(({ name }) => name === breakdown)?.minutes));
  }
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
