import type { Decision, Lot, Part, Scenario } from "../../src/kitchen/index.js";

/**
 * What a plan does that could hurt someone, judged from the scenario and the decision alone; it shares nothing with
 * the program. Days: FDA Food Code 3-501.17 (7), UK cook-chill guidelines (5), and the cautions for the EU (4),
 * France (4) and Australia (5), typed again here. Day 1 is the day of preparation; a mixture takes the date of its
 * oldest part; freezing stops the clock and does not set it back.
 */
export function harm(decision: Decision, scenario: Scenario): string[] {
  return [
    ...datesBroken(decision, scenario),
    ...leftoversTooOld(decision, scenario),
    ...neverServed(decision, scenario),
  ];
}

const DAYS = { us: 7, uk: 5, eu: 4, france: 4, australia: 5 } as const;
const NEVER = /^(rhubarb (leaf|root)|tomato (leaf|stem)|potato (sprout|leaf|stem))$/;

/**
 * Cut tomato and leafy greens, and all that is cooked: Food Code 1-201.10, by the names of random kitchens. Leaf of
 * celery is a herb, and the code's leafy greens hold no herbs (from memory).
 */
function needsCold({ name, item, state }: Part): boolean {
  return (
    item === null ||
    state === "cooked" ||
    item === "tomato" ||
    item === "spinach" ||
    /\b(leaf|stock)\b/.test(name.replace("celery leaf", ""))
  );
}

function partOf({ part }: Lot, scenario: Scenario): Part {
  const found = scenario.parts.find(({ name }) => name === part);
  if (found === undefined) throw new RangeError(`${part} is no part`);
  return found;
}

function day(service: number, { services }: Scenario): number {
  return services[service]?.day ?? 0;
}

/** First day of a lot's clock, and the last day its label states. */
function ageOf({ origin }: Lot, scenario: Scenario): { from: number; label: number } {
  if (origin.kind === "cut") return { from: day(origin.service, scenario), label: Number.POSITIVE_INFINITY };
  return { from: 0, label: scenario.partsOnHand[origin.index]?.lastDay ?? Number.POSITIVE_INFINITY };
}

function datesBroken({ goings }: Decision, scenario: Scenario): string[] {
  return goings.flatMap(({ lot, dish, service, weight }) => {
    if (weight === 0n) return [];
    const part = partOf(lot, scenario);
    const { from, label } = ageOf(lot, scenario);
    const today = day(service, scenario);
    const isStock = scenario.partsOnHand.some(
      (stock, index) =>
        lot.origin.kind === "onHand" && index === lot.origin.index && stock.part === part.name,
    );
    const quality =
      lot.origin.kind === "cut" || part.state === "frozen" ? from + (part.keepsDays ?? 1000) - 1 : label;
    const legal = part.state === "frozen" || !needsCold(part) ? 1000 : from + DAYS[scenario.rules] - 1;
    const last = Math.min(isStock ? label : quality, legal);
    if (today < from) return [`${lot.part} is in ${dish} before it is cut`];
    return today > last ? [`${lot.part} is in ${dish} on day ${today}, last day ${last}`] : [];
  });
}

function leftoversTooOld({ cookings, goings }: Decision, scenario: Scenario): string[] {
  const days = DAYS[scenario.rules];
  return cookings.flatMap(({ dish: name, service, served }) => {
    const dish = scenario.dishes.find((each) => each.name === name);
    const cooked = day(service, scenario);
    const lots = goings.filter(
      (going) => going.dish === name && going.service === service && going.weight > 0n,
    );
    const left = lots.map(({ lot }) => {
      const part = partOf(lot, scenario);
      if (!needsCold(part)) return 1000;
      const { from, label } = ageOf(lot, scenario);
      if (lot.origin.kind === "onHand" && part.state === "frozen") return cooked;
      if (part.state === "frozen") return cooked + days - 2;
      return Math.min(label, from + days - 1);
    });
    const last = Math.min(cooked + (dish?.keepsDays ?? 1) - 1, cooked + days - 1, ...left);
    return served.flatMap(({ service: at, portions }) => {
      const late = at !== service && portions > 0 && (dish?.keepsDays == null || day(at, scenario) > last);
      return late ? [`${name} of day ${cooked} is eaten on day ${day(at, scenario)}, last day ${last}`] : [];
    });
  });
}

function neverServed({ goings, preps }: Decision, scenario: Scenario): string[] {
  const goesOn = goings
    .filter(({ lot, weight }) => weight > 0n && NEVER.test(lot.part))
    .map(({ lot, dish }) => `${lot.part} is in ${dish}`);
  const worked = preps
    .filter(
      ({ from, parts }) =>
        NEVER.test(from.part) &&
        parts.some(({ part }) => scenario.parts.find(({ name }) => name === part)?.class === "food"),
    )
    .map(({ from, step }) => `${from.part} is made into food by ${step}`);
  return [...goesOn, ...worked];
}

/** Allergens as the file's own words that reach a dish from items, through any steps, and from its staples. */
export function wordsReaching(dishName: string, scenario: Scenario): string[] {
  const dish = scenario.dishes.find(({ name }) => name === dishName);
  const words = new Set<string>(dish?.staples.flatMap(({ allergens }) => allergens) ?? []);
  const seen = new Set<string>();
  const visit = (part: string): void => {
    if (seen.has(part)) return;
    seen.add(part);
    for (const { of, name, breakdowns, allergens } of scenario.items)
      if (
        breakdowns.some(({ yields }) => yields.some((made) => made.part === part)) ||
        part.startsWith(`${of} `)
      )
        for (const word of [...allergens, ...(name === "celery" ? ["celery"] : [])]) words.add(word);
    for (const { from, yields } of scenario.steps)
      if (yields.some((made) => made.part === part)) from.forEach(visit);
  };
  for (const { from } of dish?.lines ?? []) for (const { part } of from) visit(part);
  return [...words];
}
