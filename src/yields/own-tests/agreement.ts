import { Decimal, toGrams } from "../../quantity/index.js";
import { didYouMean, type Problem, type Wording } from "../../reading/index.js";
import { words as tableWords } from "../../table-files/index.js";
import { nameOf } from "../table-reading/breakdowns.js";
import type { TableBreakdown, TableItem, YieldTables } from "../tables.js";
import type { TestRow } from "./read-tests.js";
import { words } from "./words.js";
import { cuttingOf, hiddenBy, type YieldTest } from "./yield-test.js";

/** A unit this many times lighter or heavier than the tables have it is a slip of the pen. Our choice. */
const FAR_OFF = 10;
/** What the scale may hide of the weight bought. Our choice: yields from a coarser one say too little. */
const MOST_HIDDEN = new Decimal("0.1");

/**
 * What a test says otherwise than the yield tables: names that are not there, classes, parts not weighed, units of
 * quite another weight; and a scale too coarse for what it weighed.
 */
export function disagreementsWithTables(
  test: YieldTest,
  rows: readonly TestRow[],
  tables: YieldTables,
): Problem[] {
  const place = (column: string) => rows[0]?.row.cell(column).position;
  const unknown = (column: string, kind: string, name: string, known: readonly string[]): Problem[] => {
    const position = place(column);
    const wording = tableWords.unknownName(kind, name, didYouMean(name, known), "the yield tables");
    return position === undefined ? [] : [{ ...position, ...wording }];
  };
  const forms = tables.items.filter(({ name }) => name === test.item);
  if (forms.length === 0)
    return unknown("item", "item", test.item, [...new Set(tables.items.map(({ name }) => name))]);
  const item = forms.find(({ form }) => form === test.form);
  if (item === undefined)
    return unknown(
      "form",
      `form of ${test.item}`,
      test.form,
      forms.map(({ form }) => form),
    );
  const breakdown = item.breakdowns.find(({ name }) => name === test.breakdown);
  if (breakdown === undefined) {
    const kind = `breakdown of ${nameOf(test.item, test.form)}`;
    return unknown(
      "breakdown",
      kind,
      test.breakdown,
      item.breakdowns.map(({ name }) => name),
    );
  }
  const at = (column: string, wording: Wording | null): Problem[] => {
    const position = place(column);
    return position === undefined || wording === null ? [] : [{ ...position, ...wording }];
  };
  return [
    ...at("units", unitsDoubt(test, item)),
    ...at("scale_step_g", coarseness(test)),
    ...partProblems(test, rows, breakdown),
    ...notWeighed(test, rows, breakdown),
  ];
}

function unitsDoubt({ apWeight, units }: YieldTest, item: TableItem): Wording | null {
  if (item.measure === "loose") return null;
  const unit = toGrams(apWeight).div(units);
  const published = toGrams(item.unitWeight);
  return unit.times(FAR_OFF).lt(published) || unit.gt(published.times(FAR_OFF))
    ? words.unlikelyUnits(units, unit, item.unitName, published)
    : null;
}

function coarseness(test: YieldTest): Wording | null {
  return toGrams(hiddenBy(test)).gt(toGrams(test.apWeight).times(MOST_HIDDEN)) ? words.tooCoarse(test) : null;
}

function partProblems(test: YieldTest, rows: readonly TestRow[], { parts }: TableBreakdown): Problem[] {
  const short = parts.map(({ part }) => part.slice(test.item.length + 1));
  return rows.flatMap(({ row, part }): Problem[] => {
    if (part === null) return [];
    const known = parts.find((other) => other.part === part.part);
    if (known === undefined) {
      const { text, position } = row.cell("part");
      const wording = tableWords.unknownName(
        "part",
        text,
        didYouMean(text, short),
        `${cuttingOf(test)} of the yield tables`,
      );
      return [{ ...position, ...wording }];
    }
    if (known.class === part.class) return [];
    return [{ ...row.cell("class").position, ...words.otherClass(part.part, part.class, known.class) }];
  });
}

function notWeighed(test: YieldTest, rows: readonly TestRow[], { parts }: TableBreakdown): Problem[] {
  const position = rows.at(-1)?.row.cell("part").position;
  const weighed = new Set(test.parts.map(({ part }) => part));
  return parts
    .filter(({ part }) => !weighed.has(part))
    .flatMap(({ part }) =>
      position === undefined ? [] : [{ ...position, ...words.partNotWeighed(part, cuttingOf(test)) }],
    );
}
