import type { Position, Problem } from "../../reading/index.js";
import { didYouMean } from "../../reading/index.js";
import { words as tableWords } from "../../table-files/index.js";
import { nameOf } from "../tables.js";
import type { BreakdownRows, CutRow } from "./breakdowns.js";
import type { ItemRow } from "./single-rows.js";
import type { StepRows } from "./steps.js";
import { words } from "./words.js";

/** The tables as read, each by itself in order. */
export interface ReadRows {
  readonly items: readonly ItemRow[];
  readonly breakdowns: readonly BreakdownRows[];
  readonly cuts: readonly CutRow[];
  readonly steps: readonly StepRows[];
}

/** What each table must find in the others. */
const AGREEMENTS: readonly ((rows: ReadRows) => Problem[])[] = [
  breakdownsNameItems,
  itemsHaveBreakdowns,
  breakdownsHaveCuts,
  cutsNameBreakdowns,
  breakdownsStandOnce,
  stepsTakeKnownParts,
  partsAgree,
  piecesAgree,
];

export function disagreements(rows: ReadRows): Problem[] {
  return AGREEMENTS.flatMap((check) => check(rows));
}

function breakdownsNameItems({ items, breakdowns }: ReadRows): Problem[] {
  const known = items.map(({ item }) => nameOf(item.name, item.form));
  const names = new Set(known);
  return breakdowns.flatMap(({ item, form, position }) => {
    const name = nameOf(item, form);
    if (names.has(name)) return [];
    return [{ ...position, ...tableWords.unknownName("item", name, didYouMean(name, known), "items.csv") }];
  });
}

function itemsHaveBreakdowns({ items, breakdowns }: ReadRows): Problem[] {
  const cut = new Set(breakdowns.map(({ item, form }) => nameOf(item, form)));
  return items.flatMap(({ item, position }) => {
    const name = nameOf(item.name, item.form);
    return cut.has(name) ? [] : [{ ...position, ...words.without(name, "breakdown", "the breakdowns") }];
  });
}

function breakdownsHaveCuts({ breakdowns, cuts }: ReadRows): Problem[] {
  const known = new Set(cuts.map(({ item, form, breakdown }) => nameOf(item, form, breakdown)));
  return breakdowns.flatMap(({ item, form, name, position }) => {
    const full = nameOf(item, form, name);
    return known.has(full)
      ? []
      : [{ ...position, ...words.without(full, "minutes and instruction", "cuts.csv") }];
  });
}

function cutsNameBreakdowns({ breakdowns, cuts }: ReadRows): Problem[] {
  const known = breakdowns.map(({ item, form, name }) => nameOf(item, form, name));
  const names = new Set(known);
  return cuts.flatMap(({ item, form, breakdown, position }) => {
    const name = nameOf(item, form, breakdown);
    if (names.has(name)) return [];
    return [
      {
        ...position,
        ...tableWords.unknownName("breakdown", name, didYouMean(name, known), "the breakdowns"),
      },
    ];
  });
}

/** The same breakdown in two files would be two halves of one. */
function breakdownsStandOnce({ breakdowns }: ReadRows): Problem[] {
  const first = new Map<string, Position>();
  return breakdowns.flatMap(({ item, form, name, position }) => {
    const full = nameOf(item, form, name);
    const before = first.get(full);
    if (before !== undefined) return [{ ...position, ...words.inTwoFiles(full, before.file) }];
    first.set(full, position);
    return [];
  });
}

function stepsTakeKnownParts({ breakdowns, steps }: ReadRows): Problem[] {
  const known = [
    ...breakdowns.flatMap(({ parts }) => parts.map(({ part }) => part.part)),
    ...steps.flatMap(({ step }) => step.yields.map(({ part }) => part)),
  ];
  const names = new Set(known);
  return steps.flatMap(({ step, position }) =>
    step.from
      .filter((part) => !names.has(part))
      .map((part) => ({
        ...position,
        ...tableWords.unknownName("part", part, didYouMean(part, known), "the breakdowns"),
      })),
  );
}

interface PartMention {
  readonly part: string;
  readonly class: string;
  readonly keepsDays: number | null;
  readonly position: Position;
}

/** A part is one thing wherever it comes from: its class and the days it keeps are the same everywhere. */
function partsAgree({ breakdowns, steps }: ReadRows): Problem[] {
  const mentions: PartMention[] = [
    ...breakdowns.flatMap(({ parts }) => parts.map(({ part, position }) => ({ ...part, position }))),
    ...steps.flatMap(({ step, yieldPositions, position }) =>
      step.yields.map((stepYield, index) => ({ ...stepYield, position: yieldPositions[index] ?? position })),
    ),
  ];
  const first = new Map<string, PartMention>();
  return mentions.flatMap((mention) => {
    const before = first.get(mention.part);
    if (before === undefined) {
      first.set(mention.part, mention);
      return [];
    }
    return [
      ...differing(mention, before, "class", mention.class, before.class),
      ...differing(mention, before, "keeps_days", days(mention.keepsDays), days(before.keepsDays)),
    ];
  });
}

function days(keepsDays: number | null): string {
  return keepsDays === null ? "empty" : String(keepsDays);
}

/** Pieces are counted in every breakdown of a form that gives the part, or in none. */
function piecesAgree({ breakdowns }: ReadRows): Problem[] {
  const first = new Map<string, { readonly counted: string; readonly position: Position }>();
  return breakdowns.flatMap(({ form, parts }) =>
    parts.flatMap(({ part, position }) => {
      const key = nameOf(part.part, form);
      const counted = part.pieces === null ? "empty" : "counted";
      const before = first.get(key);
      if (before === undefined) first.set(key, { counted, position });
      if (before === undefined) return [];
      return differing({ part: part.part, position }, before, "pieces", counted, before.counted);
    }),
  );
}

function differing(
  mention: { readonly part: string; readonly position: Position },
  before: { readonly position: Position },
  column: string,
  here: string,
  there: string,
): Problem[] {
  if (here === there) return [];
  const place = `${before.position.file}:${before.position.line}`;
  return [{ ...mention.position, ...words.differsElsewhere(mention.part, column, here, there, place) }];
}
