import { wordsOf } from "./names/fold.js";

/** A clause of a treatment: what is done, as its words, and a time it takes at least or at most (0: none stated). */
interface Clause {
  readonly deed: string;
  readonly minutes: number;
  readonly atMost: boolean;
}

const UNITS: readonly { readonly unit: RegExp; readonly minutes: number }[] = [
  { unit: /^(m|min|minute)$/, minutes: 1 },
  { unit: /^(h|hr|hour)$/, minutes: 60 },
  { unit: /^day$/, minutes: 1440 },
];
const FILLER = new Set("for at least in to it its are is all or more less c".split(" "));
const OVERNIGHT_MINUTES = 8 * 60;

/**
 * Whether what a dish declares covers a treatment: every clause of it ("boiled 10 minutes", "water discarded")
 * is declared in the same words, for as long or longer, or within as short a time where it says "within". Any other
 * word, such as "not", makes it another deed.
 */
export function isTreated(declared: readonly string[], treatment: string): boolean {
  const deeds = declared.flatMap(clausesOf);
  return clausesOf(treatment).every((wanted) => deeds.some((done) => covers(done, wanted)));
}

function covers(done: Clause, wanted: Clause): boolean {
  if (done.deed !== wanted.deed || done.atMost !== wanted.atMost) return false;
  return wanted.atMost ? done.minutes > 0 && done.minutes <= wanted.minutes : done.minutes >= wanted.minutes;
}

function clausesOf(text: string): Clause[] {
  return text
    .split(/[,;&+]|\.(?!\d)|\band\b|\bthen\b/i)
    .map(clauseOf)
    .filter(({ deed }) => deed !== "");
}

/** Times are in minutes, hours or days; of a range the lower counts. */
function clauseOf(text: string): Clause {
  const lowest = text.replace(/(\d+)\s*(?:-|–|to)\s*\d+/g, "$1");
  const words = wordsOf(lowest.replace(/(\d)(?=\p{L})/gu, "$1 ")).filter((word) => !FILLER.has(word));
  const deed: string[] = [];
  let minutes = 0;
  for (let at = 0; at < words.length; at++) {
    const word = words[at] ?? "";
    const unit = UNITS.find((entry) => entry.unit.test(words[at + 1] ?? ""));
    if (word === "overnight") minutes = OVERNIGHT_MINUTES;
    else if (/^\d+$/.test(word) && unit !== undefined) {
      minutes = Number(word) * unit.minutes;
      at++;
    } else deed.push(word.replace(/(?:ed|ing|e)$/, ""));
  }
  return { deed: deed.sort().join(" "), minutes, atMost: words.includes("within") };
}
