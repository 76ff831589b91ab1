import type { Position, Problem } from "../../reading/index.js";
import { didYouMean } from "../../reading/index.js";
import { words as tableWords } from "../../table-files/index.js";
import { nameOf } from "../tables.js";
import type { readBreakdowns, readCuts } from "./breakdowns.js";
import type { readItems } from "./single-rows.js";
import type { readSteps } from "./steps.js";
import { words } from "./words.js";

/** The tables as read, each by itself in order. */
export interface ReadRows {
  readonly items: ReturnType<typeof readItems>;
  readonly breakdowns: ReturnType<typeof readBreakdowns>;
  readonly cuts: ReturnType<typeof readCuts>;
  readonly steps: ReturnType<typeof readSteps>;
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
  const named = breakdowns.map(({ item, form, position }) => ({ name: nameOf(item, form), position }));
  return unknownNames("item", named, known, "items.csv");
}

function itemsHaveBreakdowns({ items, breakdowns }: ReadRows): Problem[] {
  const cut = new Set(breakdowns.map(({ item, form }) => nameOf(item, form)));
  const named = items.map(({ item, position }) => ({ name: nameOf(item.name, item.form), position }));
  return named.flatMap(({ name, position }) =>
    cut.has(name) ? [] : [{ ...position, ...words.without(name, "breakdown", "the breakdowns") }],
  );
}

function breakdownsHaveCuts({ breakdowns, cuts }: ReadRows): Problem[] {
  const cut = new Set(cuts.map(({ item, form, breakdown }) => nameOf(item, form, breakdown)));
  const named = breakdowns.map((each) => ({ ...each, name: nameOf(each.item, each.form, each.name) }));
  return named.flatMap(({ name, position }) =>
    cut.has(name) ? [] : [{ ...position, ...words.without(name, "minutes and instruction", "cuts.csv") }],
  );
}

function cutsNameBreakdowns({ breakdowns, cuts }: ReadRows): Problem[] {
  const known = breakdowns.map(({ item, form, name }) => nameOf(item, form, name));
  const named = cuts.map((cut) => ({ ...cut, name: nameOf(cut.item, cut.form, cut.breakdown) }));
  return unknownNames("breakdown", named, known, "the breakdowns");
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
  const named = steps.flatMap(({ step, position }) => step.from.map((name) => ({ name, position })));
  return unknownNames("part", named, known, "the breakdowns");
}

function unknownNames(
  kind: string,
  named: readonly { readonly name: string; readonly position: Position }[],
  known: readonly string[],
  where: string,
): Problem[] {
  const names = new Set(known);
  return named
    .filter(({ name }) => !names.has(name))
    .map(({ name, position }) => ({
      ...position,
      ...tableWords.unknownName(kind, name, didYouMean(name, known), where),
    }));
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
