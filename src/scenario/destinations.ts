import { type Destination, isBinFor, type ScenarioFile } from "../kitchen/index.js";
import type { Resolving } from "./context.js";
import { words } from "./wording/index.js";

/** Where goes what no other destination takes. */
const REST = "refuse";

type DestinationEntry = NonNullable<ScenarioFile["destinations"]>[string];
type Takes = Destination["takes"];

/**
 * The destinations of a scenario. Where no waste destination takes food, inedible parts or portions without
 * limit, one called "refuse" is added that does, so that every gram has somewhere to go.
 */
export function resolveDestinations(context: Resolving): Destination[] {
  const stated = Object.entries(context.file.destinations ?? {}).map(([name, entry]) =>
    resolveDestination(context, name, entry),
  );
  const open = stated.filter(({ end, limit }) => end === "waste" && limit === null);
  const rest: Takes = {
    food: !open.some(({ takes }) => takes.food),
    inedible: !open.some((destination) => isBinFor("never", destination)),
    portions: !open.some(({ takes }) => takes.portions),
  };
  if (!rest.food && !rest.inedible && !rest.portions) return stated;
  if (context.namesWritten(["destinations"]).includes(REST)) {
    if (!context.isLeftOut(["destinations"]))
      context.atKey(["destinations", REST], words.refuseNotOpen(REST));
    return stated;
  }
  return [...stated, { name: REST, kind: "waste", end: "waste", takes: rest, limit: null }];
}

function resolveDestination(context: Resolving, name: string, entry: DestinationEntry): Destination {
  const path = ["destinations", name];
  const takes = takesOf(entry);
  if (entry.kind === "given away" && takes.inedible)
    context.at([...path, "takes"], words.inedibleGivenAway(name));
  if (entry.kind === "animal feed" && entry.local_rules_allow === undefined) {
    if (!context.isLeftOut([...path, "local_rules_allow"]))
      context.atKey(path, words.animalFeedBlocked(name));
  }
  return {
    name,
    kind: entry.kind,
    end: entry.kind === "given away" ? "given away" : "waste",
    takes,
    limit: entry.limit ?? null,
  };
}

function takesOf({ kind, takes }: DestinationEntry): Takes {
  if (takes !== undefined) {
    return {
      food: takes.includes("food"),
      inedible: takes.includes("inedible"),
      portions: takes.includes("portions"),
    };
  }
  return { food: true, inedible: kind !== "given away", portions: kind !== "animal feed" };
}
