import type { OwnTests } from "../kitchen/index.js";
import { counted, type Writing } from "./writing.js";

/** "yields from 5 own tests up to 12 Oct 2026 (they count 88 to 93 %) and the tables". */
export function ownTestsWords({ tests, upTo, leastCount, mostCount }: OwnTests, writing: Writing): string {
  const counts = leastCount === mostCount ? `${mostCount} %` : `${leastCount} to ${mostCount} %`;
  const they = tests === 1 ? "it counts" : "they count";
  return `yields from ${counted(writing, tests, "own test")} up to ${writing.dates(upTo, upTo)} (${they} ${counts}) and the tables`;
}
