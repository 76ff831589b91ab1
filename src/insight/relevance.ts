import type { Tag } from "../allocation/index.js";
import type { Scenario } from "../kitchen/index.js";
import type { Lever } from "./levers/index.js";

/** How near a lever is to what a scenario asks too much of: 2 at it, 1 next to it, 0 elsewhere. */
export function relevanceOf({ about }: Lever, culprits: readonly Tag[], scenario: Scenario): 0 | 1 | 2 {
  const same = culprits.some(
    (tag) =>
      (about.dish !== undefined && tag.dish === about.dish) ||
      (about.item !== undefined && tag.item === about.item) ||
      (about.step !== undefined && tag.step === about.step),
  );
  if (same) return 2;
  return culprits.some((tag) => touches(about, tag, scenario)) ? 1 : 0;
}

function touches(about: Lever["about"], tag: Tag, scenario: Scenario): boolean {
  if (about.service !== undefined) return tag.service === about.service;
  if (about.dish !== undefined) {
    const dish = scenario.dishes.find(({ name }) => name === about.dish);
    return (
      tag.course !== undefined && dish?.course === tag.course && dish.services.includes(tag.service ?? -1)
    );
  }
  const item = scenario.items.find(({ name }) => name === about.item);
  const dish = scenario.dishes.find(({ name }) => name === tag.dish);
  const parts = dish?.lines.flatMap(({ from }) => from.map(({ part }) => part)) ?? [];
  return item !== undefined && parts.some((part) => partComesFrom(part, item.name, scenario));
}

function partComesFrom(part: string, item: string, scenario: Scenario): boolean {
  if (scenario.parts.find(({ name }) => name === part)?.item === item) return true;
  return scenario.steps.some(
    (step) =>
      step.yields.some((made) => made.part === part) &&
      step.from.some((from) => partComesFrom(from, item, scenario)),
  );
}
