import type { Cooking, Going, Scenario } from "../../kitchen/index.js";
import { NO_WEIGHT } from "../../quantity/index.js";
import { portionWeights } from "../cooked-weights.js";
import type { PlanModel } from "../formulate/index.js";
import { groupBy } from "../group.js";
import type { Rooms } from "./ends.js";

/**
 * Portions cooked, served and spare, whole. Spare portions nobody is given go to the first waste destination that has
 * room for what they weigh.
 */
export function decideCookings(
  { scenario, handles }: PlanModel,
  point: readonly number[],
  goings: readonly Going[],
  rooms: Rooms,
): Cooking[] {
  const at = (variable: number): number => Math.round(point[variable] ?? 0);
  const serves = groupBy(handles.serves, ({ site }) => site);
  const spares = groupBy(handles.spares, ({ site }) => site);
  const cookings = serves.entries().flatMap(([site, here]) => {
    const served = here
      .map(({ at: service, variable }) => ({ service, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const spare = spares
      .of(site)
      .map(({ destination, variable }) => ({ destination, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const portions = [...served, ...spare].reduce((sum, entry) => sum + entry.portions, 0);
    return portions === 0 ? [] : [{ dish: site.dish.name, service: site.service, portions, served, spare }];
  });
  return cookings.map((cooking) => sent(cooking, goings, scenario, rooms));
}

/** A dish cooked for a service. */
export type CookedSite = Pick<Cooking, "dish" | "service">;

/** What a point has any portion of. */
export function cookedIn({ handles }: PlanModel, point: readonly number[]): CookedSite[] {
  const sites = [...handles.serves, ...handles.spares].filter(
    ({ variable }) => Math.round(point[variable] ?? 0) > 0,
  );
  return [...new Set(sites.map(({ site }) => site))].map(({ dish, service }) => ({
    dish: dish.name,
    service,
  }));
}

type Unsent = Omit<Cooking, "spare"> & {
  readonly spare: readonly { readonly destination: string | null; readonly portions: number }[];
};

function sent(cooking: Unsent, goings: readonly Going[], scenario: Scenario, rooms: Rooms): Cooking {
  const bins = scenario.destinations.filter(({ end, takes }) => end === "waste" && takes.portions);
  const named = cooking.spare.map(({ destination, portions }) => ({
    destination: destination ?? "",
    portions,
  }));
  const weights = portionWeights({ ...cooking, spare: named }, goings, scenario).spare;
  const spare = cooking.spare.map(({ destination, portions }, index) => {
    const weight = weights[index] ?? NO_WEIGHT;
    const to = destination ?? bins.find(({ name }) => rooms.has(name, weight))?.name ?? "refuse";
    rooms.take(to, weight);
    return { destination: to, portions };
  });
  return { ...cooking, spare };
}
