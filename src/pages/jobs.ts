import type { Plan } from "../contract/index.js";
import type { Handling } from "../kitchen/index.js";
import { Decimal, NO_WEIGHT, roundTogether, total, type Weight } from "../quantity/index.js";
import { lotWeight, lotWords, type PlanPart, usesOf } from "./lots.js";
import { ownTestsWords } from "./own-tests.js";
import { BOARD_ORDER, itemsOf, rawest, type View } from "./view.js";
import { capital, counted, cutWords, once } from "./writing.js";

export type Job = {
  readonly title: string;
  readonly about: string;
  readonly steps: readonly string[];
  readonly parts: readonly PartLine[];
  readonly loss: string;
  readonly total: string;
};

type PartLine = {
  readonly part: string;
  readonly shown: string;
  /** "yes" for what must not be eaten. */
  readonly never: string;
  readonly container: string;
  /** Of food, a line each. */
  readonly uses: readonly string[];
  /** Of the rest, where it goes: short enough to stand beside the name. */
  readonly end: string;
};

/** A cut or a further breakdown before it is written out: what it gives, and to which lots that belongs. */
export interface Work {
  readonly handling: Handling;
  readonly cutFor: string;
  /** The parts it takes, of the same lot; none for a cut. */
  readonly takes: readonly string[];
  /** Hands-on minutes, rounded up; null where the tables and the scenario state none. */
  readonly minutes: number | null;
  readonly parts: readonly Pick<PlanPart, "part" | "class">[];
  readonly weights: readonly Weight[];
  readonly loss: Weight;
  readonly heading: Pick<Job, "title" | "about" | "steps">;
}

/** The jobs before a service in the order of the boards, cuts before further breakdowns. */
export function worksBefore(service: string, view: View): Work[] {
  const { plan } = view;
  return [
    ...plan.cuts.flatMap((cut, index) => (cut.service === service ? [cutWork(cut, index, view)] : [])),
    ...inOnePot(plan.preps.filter((prep) => prep.service === service)).map((preps) => prepWork(preps, view)),
  ].sort((a, b) => BOARD_ORDER.indexOf(a.handling) - BOARD_ORDER.indexOf(b.handling));
}

/** The same written out, with what each gives and where that goes. */
export function jobsBefore(service: string, view: View): { handling: Handling; job: Job }[] {
  const works = worksBefore(service, view);
  return works.map((work, index) => ({
    handling: work.handling,
    job: {
      ...work.heading,
      parts: partLines(work, works.slice(index + 1), view),
      loss: view.writing.shown(work.loss),
      total: view.writing.shown(total([...work.weights, work.loss])),
    },
  }));
}

function cutWork(cut: Plan["cuts"][number], index: number, view: View): Work {
  const { scenario, writing, movements } = view;
  const item = scenario.items.find(({ name }) => name === cut.item);
  const breakdown = item?.breakdowns.find(({ name }) => name === cut.breakdown);
  const weights = movements.cuts[index]?.parts ?? [];
  const loss = movements.cuts[index]?.loss ?? NO_WEIGHT;
  const weight = total([...weights, loss]);
  const minutes = wholeMinutes(breakdown?.minutes, cut.units ?? kilograms(weight));
  return {
    handling: item?.handling ?? "poultry",
    cutFor: cut.service,
    takes: [],
    minutes,
    parts: cut.parts,
    weights,
    loss,
    heading: {
      title: cutTitle(cut, item?.unitName ?? "", weight, view),
      about: joined([
        item?.form ?? "",
        item?.grade ?? "",
        writing.weight(weight),
        minutes === null ? "" : aboutMinutes(minutes, view),
        breakdown?.ownTests === undefined ? "" : ownTestsWords(breakdown.ownTests, writing),
      ]),
      steps: [item?.treatment ?? "", breakdown?.how ?? ""].filter((text) => text !== "").map(sentence),
    },
  };
}

/** "Cut 3 heads of broccoli in florets", "98 eggs, separated". */
function cutTitle(
  { item, breakdown, units }: Plan["cuts"][number],
  unit: string,
  weight: Weight,
  { writing }: View,
): string {
  const itself = item === unit || item.endsWith(` ${unit}`);
  const amount =
    units === null
      ? `${writing.weight(weight)} of ${item}`
      : itself
        ? counted(writing, units, item)
        : `${counted(writing, units, unit)} of ${item}`;
  const how = cutWords(breakdown);
  return how === breakdown ? `${amount}, ${how}` : `Cut ${amount} ${how}`;
}

type Prep = Plan["preps"][number];

/** What one step takes of one day's parts is worked together. */
function inOnePot(preps: readonly Prep[]): Prep[][] {
  const keyOf = ({ step, cutFor }: Prep): string => JSON.stringify([step, cutFor]);
  return once(preps.map(keyOf)).map((key) => preps.filter((prep) => keyOf(prep) === key));
}

function prepWork(preps: readonly Prep[], view: View): Work {
  const { scenario, writing } = view;
  const [{ step: name, cutFor } = { step: "", cutFor: null }] = preps;
  const step = scenario.steps.find((each) => each.name === name);
  const taken = preps.map(({ weight }) => weight);
  const water = total(preps.map((prep) => prep.water));
  const minutes = wholeMinutes(step?.minutesPerKilogram, kilograms(total(taken)));
  const given = preps.flatMap((prep) => prep.parts);
  const parts = given.filter(({ part }, index) => given.findIndex((each) => each.part === part) === index);
  const weightOf = (part: string): Weight =>
    total(given.filter((each) => each.part === part).map(({ weight }) => weight));
  const rounded = roundTogether(
    [...parts.map(({ part }) => weightOf(part)), total(preps.map(({ loss }) => loss))],
    scenario.scaleStep,
  );
  return {
    handling: rawest(preps.flatMap(({ from }) => itemsOf(from, scenario))),
    cutFor: cutFor ?? "",
    takes: preps.map(({ from }) => from),
    minutes,
    parts,
    weights: rounded.slice(0, -1),
    loss: rounded.at(-1) ?? NO_WEIGHT,
    heading: {
      title: capital(name),
      about: joined([
        ...preps.map(({ from }, index) => {
          const label = lotWords(from, cutFor, view);
          return `${from}${label === "" ? "" : `, ${label},`} ${writing.weight(taken[index] ?? NO_WEIGHT)}`;
        }),
        water === 0n ? "" : `water ${writing.weight(water)}`,
        minutes === null ? "" : aboutMinutes(minutes, view),
      ]),
      steps: [step?.how ?? ""].filter((text) => text !== "").map(sentence),
    },
  };
}

function partLines({ parts, weights, cutFor }: Work, later: readonly Work[], view: View): PartLine[] {
  const { scenario, writing } = view;
  return parts.map(({ part, class: kind }, index): PartLine => {
    const weight = weights[index] ?? NO_WEIGHT;
    const label = kind === "food" ? capital(lotWords(part, cutFor, view)) : "";
    const container = scenario.parts.find(({ name }) => name === part)?.container ?? "";
    const more = later.some(
      (work) => work.cutFor === cutFor && work.parts.some((each) => each.part === part),
    );
    return {
      part,
      shown: writing.shown(weight),
      never: kind === "never" ? "yes" : "",
      container: label === "" ? "" : [label, container].filter((text) => text !== "").join(", "),
      ...(kind === "food"
        ? { uses: foodUses(part, cutFor, weight, more, view), end: "" }
        : endsOf(part, cutFor, view)),
    };
  });
}

/** Where a lot goes, said once a service: with the last job that adds to it. */
function foodUses(part: string, cutFor: string, weight: Weight, more: boolean, view: View): string[] {
  if (more) return ["more of it below"];
  const all = view.writing.weight(lotWeight(part, cutFor, view));
  const uses = usesOf(part, cutFor, view);
  return all === view.writing.weight(weight) ? uses : [`${all} of it in all:`, ...uses];
}

/** One end stands beside the name, several stand below it. */
function endsOf(part: string, cutFor: string, view: View): Pick<PartLine, "uses" | "end"> {
  const ends = otherUses(part, cutFor, view);
  return ends.length === 1 ? { uses: [], end: ends[0] ?? "" } : { uses: ends, end: "" };
}

/** Bones and peel: into the pot where a step takes them, the rest away. */
function otherUses(part: string, cutFor: string, { plan, writing }: View): string[] {
  const mine = (each: { readonly cutFor: string | null }): boolean => (each.cutFor ?? "") === cutFor;
  const steps = plan.preps
    .filter((prep) => prep.from === part && mine(prep))
    .map(({ step, service, weight }) => `${step}, ${service}: ${writing.weight(weight)}`);
  const left = plan.leftovers.filter((each) => each.kind === "part" && each.part === part && mine(each));
  const ends = once(left.map(({ destination }) => destination)).map((destination) => {
    const there = left.filter((each) => each.destination === destination);
    const weight = writing.weight(total(there.map((each) => each.weight)));
    return steps.length === 0
      ? `not for eating: ${destination}`
      : `the rest not for eating: ${destination}, ${weight}`;
  });
  return [...steps, ...ends];
}

function kilograms(weight: Weight): Decimal {
  return new Decimal(weight.toString()).div(1_000_000);
}

/** Minutes of work at so many minutes each, rounded up; null where no minutes are stated. */
export function wholeMinutes(each: Decimal | null | undefined, times: Decimal | number): number | null {
  return each == null ? null : each.times(times).ceil().toNumber();
}

function aboutMinutes(minutes: number, { writing }: View): string {
  return `about ${writing.count(minutes)}\u00a0min`;
}

function joined(texts: readonly string[]): string {
  return texts.filter((text) => text !== "").join(" · ");
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`;
}
