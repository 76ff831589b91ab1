import type { RulesOf } from "../kitchen/index.js";
import { limitOf, limitsOf, temperatureText } from "./limits.js";
import { rowOf, safetyTables } from "./tables/load.js";
import type { HoldingRow, Temperature } from "./tables/places.js";

/** Limits of time and temperature that a dish sheet prints, by whose rules bind. */
export interface HoldingRules extends HoldingRow {
  readonly cold: Temperature;
  readonly hot: Temperature;
  /** Each stage from the first's start, in hours. */
  readonly cooling: readonly {
    readonly from: Temperature;
    readonly to: Temperature;
    readonly withinHours: number;
  }[];
}

/** Cooling, holding and reheating by the rules that bind. */
export function holdingRules(rules: RulesOf): HoldingRules {
  return {
    ...rowOf(safetyTables().holding, rules),
    cold: limitOf(rules, "cold holding").temperature,
    hot: limitOf(rules, "hot holding").temperature,
    cooling: limitsOf(rules, "cooling").flatMap(({ from, temperature: to, withinHours }) =>
      from === null || withinHours === null ? [] : [{ from, to, withinHours }],
    ),
  };
}

/** The limits as one line each for a dish sheet; reheating is for food that was cooled before. */
export function holdingLines(rules: RulesOf): string[] {
  const { cold, hot, cooling, reheating, without, note, source } = holdingRules(rules);
  const [first] = cooling;
  const stages = cooling.map(({ to, withinHours }) => `${temperatureText(to)} within ${withinHours} h`);
  const from = first === undefined ? "" : ` from ${temperatureText(first.from)}`;
  const counted = stages.length > 1 ? ", both counted from the start" : "";
  return [
    `Hold hot at ${temperatureText(hot)} or more, cold at ${temperatureText(cold)} or less.`,
    `Cool cooked food${from} to ${stages.join(" and ")}${counted}.`,
    `Reheat what was cooled ${reheating}.`,
    `Neither hot nor cold: ${without}.`,
    ...(note === null ? [] : [`Note: ${note}.`]),
    `(${source})`,
  ];
}
