import type { Tag } from "../allocation/index.js";
import type { Dish, Scenario } from "../kitchen/index.js";
import type { Lever } from "./levers/index.js";

/** How near a lever is to what a scenario asks too much of: 2 at it, 1 next to it, 0 elsewhere. */
export function relevanceOf({ about }: Lever, culprits: readonly Tag[], scenario: Scenario): 0 | 1 | 2 {
  const at = culprits.some(
    (tag) =>
      (about.dish !== undefined && tag.dish === about.dish) ||
      (about.item !== undefined && tag.item === about.item) ||
      (about.step !== undefined && tag.step === about.step) ||
      (about.vessel !== undefined && tag.vessel === about.vessel) ||
      (about.supplier !== undefined && tag.supplier === about.supplier),
  );
  if (at) return 2;
  return isNextTo(about, culprits, scenario) ? 1 : 0;
}

function isNextTo(about: Lever["about"], culprits: readonly Tag[], scenario: Scenario): boolean {
  const { dish, item, service, supplier } = about;
  if (supplier !== undefined)
    return scenario.items.some(
      ({ name, supplier: from }) => from === supplier && isNextTo({ item: name }, culprits, scenario),
    );
  if (service !== undefined) return culprits.some((tag) => tag.service === service);
  const touched = scenario.dishes.filter((entry) => culprits.some((tag) => concerns(tag, entry)));
  if (dish !== undefined) return touched.some(({ name }) => name === dish);
  if (item === undefined) return false;
  const parts = touched.flatMap(({ lines }) => lines.flatMap(({ from }) => from.map(({ part }) => part)));
  return parts.some((part) => comesFrom(part, item, scenario));
}

/** Whether a row is about the dish, or about the course it is part of at a service that offers it. */
function concerns(tag: Tag, { name, course, services }: Dish): boolean {
  if (tag.dish !== undefined) return tag.dish === name;
  return tag.course !== undefined && tag.course === course && services.includes(tag.service ?? -1);
}

function comesFrom(part: string, item: string, scenario: Scenario): boolean {
  const of = scenario.items.find(({ name }) => name === item)?.of;
  if (of !== undefined && scenario.parts.find(({ name }) => name === part)?.item === of) return true;
  return scenario.steps.some(
    ({ yields, from }) =>
      yields.some((made) => made.part === part) && from.some((source) => comesFrom(source, item, scenario)),
  );
}
