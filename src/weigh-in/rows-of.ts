import type { Cooking, Cut, Decision, Lot, LotOrigin, Prep, Purchase, Scenario } from "../kitchen/index.js";
import { Decimal, total } from "../quantity/index.js";
import { aRow, isWeightUnit, LOSS, ONE_COUNTED, type Row, rowKey, WATER } from "./row.js";

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

/** The figures of one purchase: order units, weight and cost. Without a plan they are planned as nothing. */
export function purchaseRows(item: string, service: number, { items }: Scenario, planned?: Purchase): Row[] {
  const unit = items.find(({ name }) => name === item)?.orderUnit.name ?? "";
  const common = { what: "bought" as const, service, name: item };
  const units = new Decimal(planned?.orderUnits ?? 0).times(ONE_COUNTED.toString());
  return [
    ...(isWeightUnit(unit) ? [] : [aRow({ ...common, measure: "count", planned: BigInt(units.toFixed(0)) })]),
    aRow({ ...common, planned: planned?.weight ?? 0n }),
    aRow({ ...common, measure: "cost", planned: planned?.cost ?? 0n }),
  ];
}

/** The figures of one cut: units, weight as purchased, every part, and the loss. */
export function cutRows(
  item: string,
  breakdown: string,
  service: number,
  { items }: Scenario,
  planned?: Cut,
): Row[] {
  const noun = items.find(({ name }) => name === item);
  const stated = noun?.breakdowns.find(({ name }) => name === breakdown);
  const common = { service, name: item, way: breakdown };
  const isCounted = planned === undefined ? noun?.measure === "whole" : planned.units !== null;
  const parts =
    planned?.parts.map(({ part, weight }) => ({ part, weight, share: weight })) ??
    stated?.yields.map(({ part, fraction }) => ({ part, weight: 0n, share: fraction })) ??
    [];
  return [
    ...(isCounted
      ? [
          aRow({
            ...common,
            what: "cut",
            measure: "count",
            planned: BigInt(planned?.units ?? 0) * ONE_COUNTED,
          }),
        ]
      : []),
    aRow({ ...common, what: "cut", planned: planned?.weight ?? 0n }),
    ...parts.map(({ part, weight, share }) =>
      aRow({ ...common, what: "cut gave", part, planned: weight, share }),
    ),
    aRow({
      ...common,
      what: "cut gave",
      part: LOSS,
      planned: planned?.loss ?? 0n,
      share: planned?.loss ?? stated?.loss ?? 0n,
    }),
  ];
}

/** The figures of one step worked on one lot: taken, water, every part given, and the loss. */
export function stepRows(
  step: string,
  from: Lot,
  service: number,
  { steps }: Scenario,
  planned?: Prep,
): Row[] {
  const stated = steps.find(({ name }) => name === step);
  const common = { service, name: from.part, way: step, lot: from.origin };
  const takesWater = planned === undefined ? stated?.water.isZero() === false : planned.water !== 0n;
  const parts =
    planned?.parts.map(({ part, weight }) => ({ part, weight, share: weight })) ??
    stated?.yields.map(({ part, fraction }) => ({ part, weight: 0n, share: fraction })) ??
    [];
  const gave = (part: string, weight: bigint, share: bigint | Decimal) =>
    aRow({ ...common, what: "worked gave", part, planned: weight, share });
  return [
    aRow({
      ...common,
      what: "worked",
      planned: planned?.weight ?? 0n,
      share: planned?.weight ?? new Decimal(1),
    }),
    ...(takesWater ? [gave(WATER, planned?.water ?? 0n, planned?.water ?? stated?.water ?? 0n)] : []),
    ...parts.map(({ part, weight, share }) => gave(part, weight, share)),
    gave(LOSS, planned?.loss ?? 0n, planned?.loss ?? stated?.loss ?? 0n),
  ];
}

/** The portions of one cooking: cooked, eaten at each service, and over. */
export function cookingRows(dish: string, service: number, planned?: Cooking): Row[] {
  const counted = { name: dish, measure: "count" as const };
  const portions = (count: number) => BigInt(count) * ONE_COUNTED;
  return [
    aRow({ ...counted, what: "cooked", service, planned: portions(planned?.portions ?? 0) }),
    ...(planned?.served ?? []).map((sitting) =>
      aRow({
        ...counted,
        what: "eaten",
        service: sitting.service,
        lot: { kind: "cut", service },
        planned: portions(sitting.portions),
      }),
    ),
    ...(planned?.spare ?? []).map((over) =>
      aRow({ ...counted, what: "spare", service, way: over.destination, planned: portions(over.portions) }),
    ),
  ];
}
