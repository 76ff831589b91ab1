import type { PlanJson } from "../contract/index.js";
import type { Handling } from "../kitchen/index.js";
import { Decimal, NO_WEIGHT, roundTogether, total, type Weight } from "../quantity/index.js";
import { lotWeight, lotWords, type PlanPart, usesOf } from "./lots.js";
import { BOARD_ORDER, itemsOf, planWeight, rawest, type View } from "./view.js";
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
  readonly uses: readonly string[];
};

/** A cut or a further breakdown before it is written out: what it gives, and to which lots that belongs. */
interface Work {
  readonly handling: Handling;
  readonly cutFor: string;
  readonly parts: readonly PlanPart[];
  readonly weights: readonly Weight[];
  readonly loss: Weight;
  readonly heading: Pick<Job, "title" | "about" | "steps">;
}

/** The jobs before a service in the order of the boards, cuts before further breakdowns. */
export function jobsBefore(service: string, view: View): { handling: Handling; job: Job }[] {
  const { plan } = view;
  const works = [
    ...plan.cuts.flatMap((cut, index) => (cut.service === service ? [cutWork(cut, index, view)] : [])),
    ...plan.preps.filter((prep) => prep.service === service).map((prep) => prepWork(prep, view)),
  ].sort((a, b) => BOARD_ORDER.indexOf(a.handling) - BOARD_ORDER.indexOf(b.handling));
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

function cutWork(cut: PlanJson["cuts"][number], index: number, view: View): Work {
  const { scenario, writing, movements } = view;
  const item = scenario.items.find(({ name }) => name === cut.item);
  const breakdown = item?.breakdowns.find(({ name }) => name === cut.breakdown);
  const weights = movements.cuts[index]?.parts ?? [];
  const loss = movements.cuts[index]?.loss ?? NO_WEIGHT;
  const weight = total([...weights, loss]);
  const minutes = breakdown?.minutes ?? null;
  return {
    handling: item?.handling ?? "poultry",
    cutFor: cut.service,
    parts: cut.parts,
    weights,
    loss,
    heading: {
      title: cutTitle(cut, item?.unitName ?? "", weight, view),
      about: joined([
        item?.form ?? "",
        item?.grade ?? "",
        writing.weight(weight),
        minutes === null ? "" : aboutMinutes(minutes.times(cut.units ?? kilograms(weight)), view),
      ]),
      steps: [item?.treatment ?? "", breakdown?.how ?? ""].filter((text) => text !== "").map(sentence),
    },
  };
}

/** "Cut 3 heads of broccoli in florets", "98 eggs, separated". */
function cutTitle(
  { item, breakdown, units }: PlanJson["cuts"][number],
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

function prepWork(prep: PlanJson["preps"][number], view: View): Work {
  const { scenario, writing } = view;
  const step = scenario.steps.find(({ name }) => name === prep.step);
  const water = planWeight(prep.water);
  const weight = planWeight(prep.weight);
  const minutes = step?.minutesPerKilogram ?? null;
  const rounded = roundTogether(
    [...prep.parts.map((part) => planWeight(part.weight)), planWeight(prep.loss)],
    scenario.scaleStep,
  );
  const cutFor = prep.cutFor ?? "";
  return {
    handling: rawest(itemsOf(prep.from, scenario)),
    cutFor,
    parts: prep.parts,
    weights: rounded.slice(0, -1),
    loss: rounded.at(-1) ?? NO_WEIGHT,
    heading: {
      title: capital(prep.step),
      about: joined([
        `${prep.from} ${writing.weight(weight)}`,
        lotWords(prep.from, prep.cutFor, view),
        water === 0n ? "" : `water ${writing.weight(water)}`,
        minutes === null ? "" : aboutMinutes(minutes.times(kilograms(weight)), view),
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
      uses: kind === "food" ? foodUses(part, cutFor, weight, more, view) : otherUses(part, cutFor, view),
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

/** Bones and peel: into the pot where a step takes them, the rest away. */
function otherUses(part: string, cutFor: string, { plan, writing }: View): string[] {
  const mine = (each: { readonly cutFor: string | null }): boolean => (each.cutFor ?? "") === cutFor;
  const steps = plan.preps
    .filter((prep) => prep.from === part && mine(prep))
    .map(({ step, service, weight }) => `${step}, ${service}: ${writing.weight(planWeight(weight))}`);
  const left = plan.leftovers.filter((each) => each.kind === "part" && each.part === part && mine(each));
  const ends = once(left.map(({ destination }) => destination)).map((destination) => {
    const there = left.filter((each) => each.destination === destination);
    const weight = writing.weight(total(there.map((each) => planWeight(each.weight))));
    return steps.length === 0
      ? `not for eating: ${destination}`
      : `the rest not for eating: ${destination}, ${weight}`;
  });
  return [...steps, ...ends];
}

function kilograms(weight: Weight): Decimal {
  return new Decimal(weight.toString()).div(1_000_000);
}

function aboutMinutes(minutes: Decimal, { writing }: View): string {
  return `about ${writing.decimal(minutes.toDecimalPlaces(0, Decimal.ROUND_UP), 0)}\u00a0min`;
}

function joined(texts: readonly string[]): string {
  return texts.filter((text) => text !== "").join(" · ");
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`;
}
