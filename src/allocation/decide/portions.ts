import type { Cooking } from "../../kitchen/index.js";
import type { PlanModel } from "../build/index.js";
import { groupBy } from "../group.js";

/** Portions cooked, served and spare, whole. Spare portions nobody is given go to the first waste destination. */
export function decideCookings({ scenario, handles }: PlanModel, point: readonly number[]): Cooking[] {
  const at = (variable: number): number => Math.round(point[variable] ?? 0);
  const waste =
    scenario.destinations.find(({ end, takes }) => end === "waste" && takes.portions)?.name ?? "refuse";
  const serves = groupBy(handles.serves, ({ site }) => site);
  const spares = groupBy(handles.spares, ({ site }) => site);
  return serves.entries().flatMap(([site, here]) => {
    const served = here
      .map(({ at: service, variable }) => ({ service, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const spare = spares
      .of(site)
      .map(({ destination, variable }) => ({ destination: destination ?? waste, portions: at(variable) }))
      .filter(({ portions }) => portions > 0);
    const portions = [...served, ...spare].reduce((sum, entry) => sum + entry.portions, 0);
    return portions === 0 ? [] : [{ dish: site.dish.name, service: site.service, portions, served, spare }];
  });
}
