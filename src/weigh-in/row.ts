import { type LotOrigin, originKey, type Scenario } from "../kitchen/index.js";
import { Decimal, type Money, toCurrency, toGrams, unitNamed, type Weight } from "../quantity/index.js";

/** What a row of the weigh-in speaks of. */
export const WHATS = [
  "bought",
  "in the house",
  "cut",
  "cut gave",
  "worked",
  "worked gave",
  "into dish",
  "cooked",
  "eaten",
  "spare",
  "left over",
  "kept",
  "binned",
  "storage loss",
] as const;
export type What = (typeof WHATS)[number];

/** The row that names the plan which a weigh-in is of, by its hash. */
export const OF_PLAN = "plan";

/** Weights are milligrams, costs ten-thousandths of the currency unit, counts thousandths of one. */
export type Measure = "weight" | "count" | "cost";
export const ONE_COUNTED = 1000n;

/** What cutting or a step gives beside its parts. */
export const LOSS = "loss";
export const WATER = "water";

/** One figure to be weighed, counted or read off a bill. Its place in the work is its name: no two are alike. */
export interface RowName {
  readonly what: What;
  /** Index of the service: bought for, cut or worked before, cooked for, eaten at. Null where none matters. */
  readonly service: number | null;
  /** The item bought, cut, binned or kept; the part worked, left over or kept; the dish. */
  readonly name: string;
  /** The breakdown, the step, the recipe line, or the destination. */
  readonly way: string;
  /** The part given, or put into the dish; `loss`, `water`. */
  readonly part: string;
  /** Which lot of the part; of portions eaten, the service they were cooked for. */
  readonly lot: LotOrigin | null;
  readonly measure: Measure;
}

export interface Row extends RowName {
  /** In the measure's unit; nothing for what was not planned. */
  readonly planned: bigint;
  /** Of what a cut or a step gives: in what proportion where it is not weighed. */
  readonly share: bigint | Decimal;
}

export function rowKey({ what, service, name, way, part, lot, measure }: RowName): string {
  return JSON.stringify([what, service, name, way, part, lot === null ? null : originKey(lot), measure]);
}

/** Names shorter than written out: a row with all that is not stated left empty. */
export function aRow(stated: Partial<Row> & Pick<Row, "what" | "name">): Row {
  return {
    service: null,
    way: "",
    part: "",
    lot: null,
    measure: "weight",
    planned: 0n,
    share: 0n,
    ...stated,
  };
}

const IN_THE_HOUSE = "in the house";

/** A lot in words: the service it was cut for, or what was in the house, numbered where there is more of it. */
export function lotText(origin: LotOrigin | null, { services, partsOnHand }: Scenario): string {
  if (origin === null) return "";
  if (origin.kind === "cut") return services[origin.service]?.name ?? "";
  return partsOnHand.length === 1 ? IN_THE_HOUSE : `${IN_THE_HOUSE} ${origin.index + 1}`;
}

/** Every lot that the words may name, with its words. */
export function lotsByText(scenario: Scenario): ReadonlyMap<string, LotOrigin> {
  const origins: LotOrigin[] = [
    ...scenario.services.map((_, service): LotOrigin => ({ kind: "cut", service })),
    ...scenario.partsOnHand.map((_, index): LotOrigin => ({ kind: "onHand", index })),
  ];
  return new Map(origins.map((origin) => [lotText(origin, scenario), origin]));
}

/** Whether a unit is one of weight, so that a figure in it is a weighing and no count. */
export function isWeightUnit(unit: string): boolean {
  const named = unitNamed(unit, null);
  return named.kind === "unit" && named.unit.measure === "mass";
}

/** What counts of a row are counted in: order units, heads, portions. */
export function countedIn({ what, name }: RowName, { items }: Scenario): string {
  const item = items.find((each) => each.name === name);
  if (what === "bought") return item?.orderUnit.name ?? "";
  return item !== undefined &&
    (what === "cut" || what === "binned" || what === "kept" || what === IN_THE_HOUSE)
    ? item.unitName
    : "portion";
}

/** A figure as a decimal number of grams, currency units or what is counted. */
export function figureOf(measure: Measure, value: bigint): Decimal {
  if (measure === "weight") return toGrams(value as Weight);
  return measure === "cost" ? toCurrency(value as Money) : new Decimal(value.toString()).div(1000);
}
