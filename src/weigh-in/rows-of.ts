import type { Decision, LotOrigin, Scenario } from "../kitchen/index.js";
import { Decimal, total } from "../quantity/index.js";
import { cookingRows, cutRows, purchaseRows, stepRows } from "./groups.js";
import { aRow, ONE_COUNTED, type Row, rowKey } from "./row.js";

/**
 * Everything there is to weigh, count and read off a bill after a plan, in the order of the work: service by
 * service what comes in, is cut, worked, put into dishes and eaten; then what is left.
 */
export function rowsOf(decision: Decision, scenario: Scenario): Row[] {
  const rows = [
    ...inTheHouse(scenario),
    ...scenario.services.flatMap((_, service) => rowsBefore(service, decision, scenario)),
    ...leftRows(decision),
  ];
  return merged(rows);
}

function inTheHouse({ items, partsOnHand }: Scenario): Row[] {
  return [
    ...items.flatMap(({ name, measure, onHand }): Row[] => {
      if (onHand.length === 0) return [];
      const units = Decimal.sum(0, ...onHand.map((held) => held.units));
      return [
        ...(measure === "whole"
          ? [aRow({ what: "in the house", name, measure: "count", planned: countOf(units) })]
          : []),
        aRow({ what: "in the house", name, planned: total(onHand.map(({ weight }) => weight)) }),
      ];
    }),
    ...partsOnHand.map(({ part, weight }, index) =>
      aRow({ what: "in the house", name: part, lot: { kind: "onHand", index }, planned: weight }),
    ),
  ];
}

function countOf(units: Decimal): bigint {
  return BigInt(units.times(ONE_COUNTED.toString()).toFixed(0));
}

function rowsBefore(service: number, decision: Decision, scenario: Scenario): Row[] {
  const here = <T extends { readonly service: number }>(list: readonly T[]) =>
    list.filter((entry) => entry.service === service);
  return [
    ...here(decision.purchases).flatMap((purchase) =>
      purchaseRows(purchase.item, service, scenario, purchase),
    ),
    ...here(decision.cuts).flatMap((cut) => cutRows(cut.item, cut.breakdown, service, scenario, cut)),
    ...here(decision.preps).flatMap((prep) => stepRows(prep.step, prep.from, service, scenario, prep)),
    ...here(decision.goings).map(({ lot, dish, line, weight }) =>
      aRow({
        what: "into dish",
        service,
        name: dish,
        way: lineName(dish, line, scenario),
        part: lot.part,
        lot: lot.origin,
        planned: weight,
      }),
    ),
    ...here(decision.cookings).flatMap((cooking) => cookingRows(cooking.dish, service, cooking)),
  ];
}

/** Name of a recipe line; lines that share their name are told apart by their number. */
export function lineName(dish: string, line: number, { dishes }: Scenario): string {
  const lines = dishes.find(({ name }) => name === dish)?.lines ?? [];
  const name = lines[line]?.name ?? "";
  return lines.filter((each) => each.name === name).length > 1 ? `${name} (line ${line + 1})` : name;
}

function leftRows({ sends, kept, keptItems, binned }: Decision): Row[] {
  const partRow = (
    what: "left over" | "kept",
    lot: { part: string; origin: LotOrigin },
    way: string,
    planned: bigint,
  ) => aRow({ what, name: lot.part, way, lot: lot.origin, planned });
  const itemRows = (
    what: "kept" | "binned",
    { item, service, units, weight }: Decision["binned"][number],
  ) => {
    const common = { what, name: item, service };
    return [
      ...(units === null
        ? []
        : [aRow({ ...common, measure: "count", planned: BigInt(units) * ONE_COUNTED })]),
      aRow({ ...common, planned: weight }),
    ];
  };
  return [
    ...sends.map(({ lot, destination, weight }) => partRow("left over", lot, destination, weight)),
    ...kept.map(({ lot, weight }) => partRow("kept", lot, "", weight)),
    ...keptItems.flatMap((end) => itemRows("kept", end)),
    ...binned.flatMap((end) => itemRows("binned", end)),
  ];
}

/** A decision may do the same in two entries; they are weighed as one. */
function merged(rows: readonly Row[]): Row[] {
  const byKey = new Map<string, Row>();
  for (const row of rows) {
    const known = byKey.get(rowKey(row));
    const share =
      typeof known?.share === "bigint" && typeof row.share === "bigint" ? known.share + row.share : row.share;
    byKey.set(
      rowKey(row),
      known === undefined ? row : { ...known, planned: known.planned + row.planned, share },
    );
  }
  return [...byKey.values()];
}
