import type { Cooking, Cut, Lot, Prep, Purchase, Scenario } from "../kitchen/index.js";
import { Decimal } from "../quantity/index.js";
import { aRow, isWeightUnit, LOSS, ONE_COUNTED, type Row, WATER } from "./row.js";

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
