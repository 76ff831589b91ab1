import type { Scenario } from "../kitchen/index.js";

/** Where a part that is over goes: the waste that takes any weight of it. */
export function binFor(part: string, { parts, destinations }: Scenario): string {
  const kind = parts.find(({ name }) => name === part)?.class === "food" ? "food" : "inedible";
  const bin = destinations.find(({ end, takes, limit }) => end === "waste" && takes[kind] && limit === null);
  return bin?.name ?? "";
}
