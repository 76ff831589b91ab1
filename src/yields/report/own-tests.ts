import { Decimal, toGrams } from "../../quantity/index.js";
import { type CombinedShare, yieldsAfterTests } from "../own-tests/combine.js";
import {
  type Drift,
  FEWEST_FOR_OUTLIERS,
  FEWEST_TESTS,
  LOSS,
  OUTLYING,
  type ShareSummary,
  summariseTests,
  type TestSummary,
} from "../own-tests/summary.js";
import { unitWeightAfterTests } from "../own-tests/unit-weight.js";
import type { YieldTest } from "../own-tests/yield-test.js";
import { grouped } from "../table-reading/groups.js";
import type { TableBreakdown, TableItem } from "../tables.js";
import { counted, daysText, dayText, monthText, percentText, wholeGrams, withUnits } from "./figures.js";

/**
 * A kitchen's own tests of one breakdown beside the published figures, as text, in percents of the AP weight; none
 * where there are no tests of it.
 */
export function testedYields(item: TableItem, breakdown: TableBreakdown, tests: readonly YieldTest[]) {
  if (tests.length === 0) return [];
  const summary = summariseTests(tests);
  const { shares } = yieldsAfterTests(breakdown, tests);
  const nameOf = (of: string) => (of === LOSS ? "cutting loss" : of.slice(item.name.length + 1));
  const units = item.measure === "loose" ? "" : ` of ${counted(summary.units, item.unitName)}`;
  return [
    {
      what: withUnits(
        `${counted(summary.tests, "own test")}${units}, ${wholeGrams(summary.apWeight)} g, ${daysText(summary.from, summary.upTo)}`,
      ),
      rows: shares.map((share) =>
        testedRow(
          nameOf(share.of),
          share,
          summary.shares.find(({ of }) => of === share.of),
        ),
      ),
      /** Outliers and drift, a sentence each. */
      remarks: [...outlierWords(summary, nameOf), ...driftWords(summary.drifts, nameOf)].map(withUnits),
    },
  ];
}

export type TestedYields = ReturnType<typeof testedYields>[number];

function testedRow(part: string, share: CombinedShare, own: ShareSummary | undefined) {
  const error = own?.standardError ?? null;
  return {
    part,
    published: percentText(share.published),
    own: percentText(share.tested),
    /** In points; a dash for a single test. */
    error: error === null ? "–" : percentText(error),
    together: percentText(share.combined),
    /** Percent that the tests count for. */
    counts: (share.testsCount * 100).toFixed(0),
    figures: share,
  };
}

/** The weight of a unit by the kitchen's tests of this form, beside the published one; "" where there are none. */
export function testedUnitWeight(item: TableItem, tests: readonly YieldTest[]): string {
  const after = unitWeightAfterTests(item, tests);
  if (after === null) return "";
  const error = after.standardError === null ? "" : ` ± ${after.standardError.toFixed(1)} g`;
  const own = `${after.grams.toFixed(0)} g${error} by ${counted(after.tests, "own test")} of ${counted(after.units, item.unitName)}`;
  const far = after.outliers.map(
    ({ test, grams }) =>
      `. Far off: ${test.supplier}, ${dayText(test.date)}, test ${test.number}: ${grams.toFixed(0)} g; it still counts: look whether its units were counted right`,
  );
  return withUnits(
    `published ${wholeGrams(after.published)} g; ${own}; together ${toGrams(after.combined).toFixed(0)} g, the tests counting ${(after.testsCount * 100).toFixed(0)} %${far.join("")}`,
  );
}

type NameOf = (of: string) => string;

function outlierWords({ tests, outliers, shares }: TestSummary, nameOf: NameOf): string[] {
  if (tests < FEWEST_FOR_OUTLIERS)
    return [`Tests far from the others are looked for from ${FEWEST_FOR_OUTLIERS} tests on.`];
  if (outliers.length === 0) return ["No test lies far from the others."];
  return [...new Set(outliers.map(({ test }) => test))].map((test) => {
    const mine = outliers.filter((each) => each.test === test);
    const found = mine.map(({ of, fraction }) => {
      const all = shares.find((share) => share.of === of)?.fraction ?? 0;
      return `${nameOf(of)} ${percentText(fraction)} % (all tests ${percentText(all)} %)`;
    });
    return `Far off: ${test.supplier}, ${dayText(test.date)}, test ${test.number}: ${found.join(", ")}. The rule: a modified z-score beyond ${OUTLYING} (NIST/SEMATECH e-Handbook 1.3.5.17). It still counts: take it out of the file if it was a slip.`;
  });
}

function driftWords(drifts: readonly Drift[], nameOf: NameOf): string[] {
  if (drifts.length === 0)
    return [`Suppliers and months are compared from ${FEWEST_TESTS} tests on each side.`];
  const flagged = drifts.filter((drift) => drift.flagged);
  if (flagged.length === 0) return ["No supplier and no month stands out."];
  return grouped(flagged, ({ by, group }) => `${by} ${group}`).map(({ rows }) => {
    const [first] = rows;
    if (first === undefined) return "";
    const { by, group, tests, otherTests } = first;
    const found = rows.map(({ of, difference }) => {
      const points = percentText(Math.abs(difference));
      return `${points} points ${difference > 0 ? "more" : "less"} ${nameOf(of)}`;
    });
    const chance = Math.max(...rows.map((drift) => drift.chance));
    return `Drift: ${by === "month" ? monthText(group) : group} gives ${found.join(", ")} than the others (${counted(tests, "test")} against ${otherTests}; by chance alone in ${chanceText(chance)}).`;
  });
}

function chanceText(chance: number): string {
  if (chance < 0.001) return "less than 1 case of 1,000";
  return `about 1 case of ${new Decimal(1 / chance).toFixed(0)}`;
}
