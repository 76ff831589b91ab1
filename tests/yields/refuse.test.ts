import { describe, expect, it } from "vitest";
import { Decimal } from "../../src/quantity/index.js";
import { loadYieldTables } from "../../src/yields/index.js";
import { PUBLISHED_REFUSE } from "./published-refuse.js";

const { tables } = loadYieldTables();

/** Cutting loss and the parts that the record calls refuse, in percent of what is bought. */
function refuseOfParts(item: string, form: string, breakdown: string, parts: readonly string[]): Decimal {
  const rows = tables.items
    .filter((entry) => entry.name === item && entry.form === form)
    .flatMap(({ breakdowns }) => breakdowns)
    .find(({ name }) => name === breakdown);
  if (rows === undefined) throw new Error(`no breakdown ${breakdown} of ${item} (${form})`);
  const fractions = parts.map((part) => {
    const row = rows.parts.find((entry) => entry.part === `${item} ${part}`);
    if (row === undefined) throw new Error(`${item} (${form}), ${breakdown} gives no ${part}`);
    return row.fraction;
  });
  return Decimal.sum(rows.loss, ...fractions).times(100);
}

const compared = PUBLISHED_REFUSE.map((record) => {
  const ours = refuseOfParts(record.item, record.form, record.breakdown, record.refuseParts);
  return { ...record, ours, difference: ours.minus(record.percent) };
});

describe("refuse of items, computed from their parts, against the USDA National Nutrient Database, SR28", () => {
  it("is met within half a point, or the difference is written down", () => {
    const differing = compared.filter(({ difference }) => !difference.isZero());
    console.log(
      `refuse: ${compared.length} items compared, ${differing.length} differ` +
        differing
          .map(
            ({ item, form, ndb, percent, ours, difference, because }) =>
              `\n  ${item} (${form}), NDB ${ndb}: published ${percent} %, ours ${ours} %,` +
              ` ${difference.isPositive() ? "+" : ""}${difference}: ${because ?? "rounding"}`,
          )
          .join(""),
    );
    for (const { item, form, difference, because } of differing) {
      if (because === undefined)
        expect(difference.abs().lte("0.5"), `${item} (${form}): ${difference}`).toBe(true);
    }
  });

  it("has no reason written down where there is no difference", () => {
    const needless = compared.filter(
      ({ because, difference }) => because !== undefined && difference.isZero(),
    );
    expect(needless.map(({ item, form }) => `${item} (${form})`)).toEqual([]);
  });

  it("compares each record once and enough of them", () => {
    const keys = compared.map(({ ndb, item, form, breakdown }) => `${ndb} ${item} ${form} ${breakdown}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(new Set(compared.map(({ item }) => item)).size).toBeGreaterThanOrEqual(100);
  });
});
