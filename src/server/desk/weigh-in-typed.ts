import { type Change, carriedOver } from "../../weigh-in/index.js";

/** So many fields has the form of a large week. */
const MOST_FIELDS = 50_000;
const FIELDS = ["key", "was", "wasReason", "actual", "reason"];

/** The rows of the weigh-in's form that were typed otherwise than they were shown; null for what no form of ours sends. */
export function typedIn(body: string): { changes: ReadonlyMap<string, Change>; initials: string } | null {
  const fields = new URLSearchParams(body);
  if (fields.size > MOST_FIELDS) return null;
  const list = (name: string): string[] =>
    fields.getAll(name).map((each) => each.trim().replace(/\s+/g, " "));
  const [keys = [], was = [], wasReason = [], actual = [], reason = []] = FIELDS.map(list);
  const isOurs = [...fields.keys()].every((name) => name === "initials" || FIELDS.includes(name));
  const counts = [keys, was, wasReason, actual, reason].map(({ length }) => length);
  if (!isOurs || keys.length === 0 || new Set(counts).size > 1) return null;
  const changes = new Map<string, Change>();
  keys.forEach((key, index) => {
    const change = {
      ...(actual[index] === was[index] ? {} : { actual: actual[index] ?? "" }),
      ...(reason[index] === wasReason[index] ? {} : { reason: reason[index] ?? "" }),
    };
    if (Object.keys(change).length > 0) changes.set(key, change);
  });
  return { changes, initials: list("initials")[0] ?? "" };
}

/** What was written to a row that the form has no place for. */
export function strayWords({ words, change }: { words: string; change: Change }): string {
  return `${words}: ${[change.actual, change.reason].filter((text) => text !== undefined && text !== "").join(", ")}`;
}

/** What was written where there is no form to write it back into. */
export function lostWords(changes: ReadonlyMap<string, Change>): string[] {
  const lost = carriedOver(changes, []).strays.map(strayWords);
  return lost.length === 0 ? [] : [`You wrote: ${lost.join("; ")}.`];
}

/** What was done last: who saved, or how many cuts were learnt from; empty texts where nothing was. */
export function saidOf(saved: string, learnt: string): string {
  if (saved !== "") return "Saved.";
  if (!/^\d+$/.test(learnt)) return "";
  return learnt === "0"
    ? "No cut was weighed whole and part for part: there is nothing to learn."
    : `Learnt: yield tests of ${learnt} ${learnt === "1" ? "cut" : "cuts"} count from the next plan on.`;
}
