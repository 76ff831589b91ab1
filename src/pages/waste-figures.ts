import type { Plan } from "../contract/index.js";
import { type Decimal, NO_WEIGHT, ONE, roundAround, type Weight, ZERO } from "../quantity/index.js";
import { type CooksWaste, cooksWasteOf } from "../waste-accounts/index.js";
import { listed, type Writing } from "./writing.js";

/** One figure of a plan's waste, as every page and command prints it. */
export interface WasteFigure {
  readonly kind: Kind | "counted";
  readonly name: string;
  /** In whole steps of the scale. */
  readonly weight: Weight;
  /** What it is of: the parts, or for what is counted the figures that count. Empty where the name says all. */
  readonly of: string;
  /** How much of it the aim counts, where that is not all: "not counted", "25 % of it counted". */
  readonly share: string;
}

type Kind = "foodWasted" | "lostFood" | "avoidablePeel" | "unusedUsable" | "givenAway";

const NAMES: Readonly<Record<Kind, string>> = {
  foodWasted: "Wasted food",
  lostFood: "Lost food",
  avoidablePeel: "Avoidable peel",
  unusedUsable: "Unused though usable",
  givenAway: "Given away",
};
const KINDS = Object.keys(NAMES) as Kind[];
const COUNTED = "Counted by the aim";
/** So many parts are named, the heaviest; of the others their number. */
const PARTS_NAMED = 3;

/**
 * What a cook may call waste: wasted food, whatever else the scale shows of it, and, where anything but wasted food
 * counts, what the aim counts. Where all that counts does so whole, and nothing given away does, it is their sum.
 */
export function wasteFigures(waste: CooksWaste, writing: Writing): WasteFigure[] {
  const weights = weighedFigures(waste, writing);
  const shown = KINDS.filter((kind) => kind === "foodWasted" || weights[kind] !== NO_WEIGHT);
  const figures = shown.map(
    (kind): WasteFigure => ({
      kind,
      name: NAMES[kind],
      weight: weights[kind],
      of: ofWords(kind, waste),
      share: shareWords(shareOf(kind, waste), writing),
    }),
  );
  const counting = shown.filter((kind) => !shareOf(kind, waste)?.isZero());
  const counted = writing.onScale(waste.counted);
  if (counting.length === 1 && counted === weights.foodWasted) return figures;
  const there = counting.filter((kind) => weights[kind] !== NO_WEIGHT);
  const of = countedWords(there, waste, writing);
  return [...figures, { kind: "counted", name: COUNTED, weight: counted, of, share: "" }];
}

/** One line of the figures, without what they come to; empty where there is wasted food alone. */
export function wasteLine(waste: CooksWaste, writing: Writing): string {
  const figures = wasteFigures(waste, writing).filter(({ kind }) => kind !== "counted");
  const texts = figures.map(({ name, weight, share }) => {
    const text = `${name.toLowerCase()} ${writing.weight(weight)}`;
    return share === "" ? text : `${text} (${share})`;
  });
  return texts.length === 1 ? "" : texts.join(", ");
}

/** A figure as a table prints it: the last is the sum where it says what counts. */
export type WasteRow = {
  readonly name: string;
  readonly note: string;
  readonly shown: string;
  /** "yes" in the sum. */
  readonly total: string;
};

/** The rows of a plan's table of waste; none where there is wasted food alone, which other tables hold. */
export function wasteRows(plan: Pick<Plan, "waste">, writing: Writing): WasteRow[] {
  const figures = wasteFigures(cooksWasteOf(plan), writing);
  if (figures.length === 1) return [];
  return figures.map((figure) => ({
    name: figure.name,
    note: wasteNote(figure),
    shown: writing.shown(figure.weight),
    total: figure.kind === "counted" ? "yes" : "",
  }));
}

/** "Lost food 38 g: in cutting and steps, beyond need". */
export function wasteText(figure: WasteFigure, writing: Writing): string {
  const note = wasteNote(figure);
  return `${figure.name} ${writing.weight(figure.weight)}${note === "" ? "" : `: ${note}`}`;
}

/** What a figure is of and how much of it counts. */
export function wasteNote({ of, share }: WasteFigure): string {
  return [of, share].filter((each) => each !== "").join("; ");
}

/** Two plans' figures side by side, every one that either has. */
export function wasteCompared(
  planned: CooksWaste,
  actual: CooksWaste,
  writing: Writing,
): { readonly figure: WasteFigure; readonly planned: Weight; readonly actual: Weight }[] {
  const [before, after] = [wasteFigures(planned, writing), wasteFigures(actual, writing)];
  type Figures = readonly WasteFigure[];
  const isOf = (kind: WasteFigure["kind"]) => (each: WasteFigure) => each.kind === kind;
  const weightIn = (figures: Figures, kind: WasteFigure["kind"], waste: CooksWaste): Weight =>
    figures.find(isOf(kind))?.weight ?? (kind === "counted" ? writing.onScale(waste.counted) : NO_WEIGHT);
  return [...KINDS, "counted" as const].flatMap((kind) => {
    const figure = after.find(isOf(kind)) ?? before.find(isOf(kind));
    if (figure === undefined) return [];
    return [{ figure, planned: weightIn(before, kind, planned), actual: weightIn(after, kind, actual) }];
  });
}

/** To the scale: wasted food and what does not count whole to the nearest step, the others so that all add up. */
function weighedFigures(waste: CooksWaste, writing: Writing): Record<Kind, Weight> {
  const whole = KINDS.filter((kind) => kind !== "givenAway" && shareOf(kind, waste)?.equals(ONE) === true);
  const around = roundAround(
    whole.map((kind) => waste[kind]),
    writing.step,
    (index) => whole[index] === "foodWasted",
  );
  const entries = KINDS.map((kind): [Kind, Weight] => [
    kind,
    around[whole.indexOf(kind)] ?? writing.onScale(waste[kind]),
  ]);
  return Object.fromEntries(entries) as Record<Kind, Weight>;
}

/** At what part of its weight a figure counts; null where the plans added up differ in it. */
function shareOf(kind: Kind, { counts }: CooksWaste): Decimal | null {
  if (kind === "foodWasted" || kind === "lostFood") return ONE;
  return counts === null ? null : counts[kind];
}

function shareWords(share: Decimal | null, writing: Writing): string {
  if (share === null || share.equals(ONE)) return "";
  return share.equals(ZERO) ? "not counted" : `${writing.rate(share)} of it counted`;
}

function ofWords(kind: Kind, { unusedParts }: CooksWaste): string {
  if (kind === "lostFood") return "in cutting and steps, beyond need";
  if (kind !== "unusedUsable") return "";
  const named = unusedParts.slice(0, PARTS_NAMED).map(({ part }) => part);
  const more = unusedParts.length - named.length;
  return listed(more === 0 ? named : [...named, `${more} more`]);
}

function countedWords(kinds: readonly Kind[], waste: CooksWaste, writing: Writing): string {
  if (waste.counts === null) return "as each plan counts";
  return listed(
    kinds.map((kind) => {
      const share = shareOf(kind, waste) ?? ONE;
      const name = NAMES[kind].toLowerCase();
      return share.equals(ONE) ? name : `${writing.rate(share)} of what is ${name}`;
    }),
  );
}
