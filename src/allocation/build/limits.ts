import { type Decimal, ZERO } from "../../quantity/index.js";
import { Sum } from "../builder.js";
import { type CookingSite, cookedAtATime } from "../demand.js";
import { kg, rate } from "../floats.js";
import { type BuildContext, serviceName } from "./context.js";
import { portionsOf } from "./dishes.js";
import { drawUnit } from "./parts.js";

/** Limits of the house: the cold room, the hands, the vessels, and what each destination takes. */
export function addLimits(context: BuildContext): void {
  addChilled(context);
  addHands(context);
  addVessels(context);
  addDestinations(context);
}

/** Kilograms of one portion as the ledger counts it, where its lines are exact; the least it can be otherwise. */
export function portionWeight({ dish }: CookingSite): number {
  return dish.lines.reduce((sum, line) => {
    const rates = line.from.map((source) => rate(source.rate));
    return sum + kg(line.least) / Math.max(...rates);
  }, 0);
}

/** What stays in the cold room after each service: whole items, parts bound for a later dish, dishes kept over. */
function addChilled(context: BuildContext): void {
  const { scenario, builder, handles } = context;
  if (scenario.limits.chilled === null) return;
  for (let service = 0; service < scenario.services.length; service++) {
    const sum = new Sum();
    for (const stock of handles.stocks) {
      if (stock.service === service) sum.add(stock.variable, kg(stock.item.unitWeight));
    }
    for (const go of handles.goes) {
      if (go.lot.firstService <= service && go.site.service > service) sum.add(go.variable, go.unit);
    }
    for (const keep of handles.keeps) if (keep.lot.firstService <= service) sum.add(keep.variable, 1);
    for (const serve of handles.serves) {
      if (serve.site.service <= service && serve.at > service)
        sum.add(serve.variable, portionWeight(serve.site));
    }
    const name = `cold room after ${serviceName(scenario, service)}`;
    builder.row({ family: "chilled", service }, name, sum, { upper: kg(scenario.limits.chilled) });
  }
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
    for (const give of handles.gives) if (give.destination === destination.name) sum.add(give.variable, 1);
    for (const spare of handles.spares) {
      if (spare.destination === destination.name) sum.add(spare.variable, portionWeight(spare.site));
    }
    const tag = { family: "destination", destination: destination.name };
    builder.row(tag, `${destination.name} takes`, sum, { upper: kg(destination.limit) });
  }
}
