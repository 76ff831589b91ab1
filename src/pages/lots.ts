import type { PlanJson } from "../contract/index.js";
import { planWeight, type View } from "./view.js";
import { once } from "./writing.js";

/** A part that one cutting or step puts into a container of its own, with the number on its label. */
export interface Container {
  readonly part: string;
  readonly service: string;
  readonly label: number;
}

/** Containers in the order of the work; one number a part and service, the same on every page. */
export function containers({ plan, scenario }: View): Container[] {
  const made = scenario.services.flatMap(({ name: service }) =>
    once(
      [...plan.cuts, ...plan.preps]
        .filter((each) => each.service === service)
        .flatMap(({ parts }) => parts.filter((part) => part.class === "food").map(({ part }) => part)),
    ).map((part) => ({ part, service })),
  );
  return made.map((each, index) => ({ ...each, label: index + 1 }));
}

export interface Use {
  readonly where: string;
  readonly weight: string;
  readonly pieces: number | null;
}

/** What becomes of a part cut or made before a service: its dishes of that date's lot, in order of service. */
export function usesOf(part: string, service: string, { plan, scenario, writing }: View): Use[] {
  const date = scenario.services.find(({ name }) => name === service)?.date ?? null;
  return plan.goings
    .filter((going) => going.part === part && going.cut === date)
    .map(({ dish, service: when, weight, pieces }) => ({
      where: `${dish}, ${when}`,
      weight: writing.weight(planWeight(weight)),
      pieces,
    }));
}

export type PlanPart = PlanJson["cuts"][number]["parts"][number];

/** A destination as it is said; two of the plan's are no places of the scenario. */
export function destinationWords(destination: string): string {
  if (destination === "closingStock") return "closing stock";
  return destination === "wastedFood" ? "wasted food" : destination;
}
