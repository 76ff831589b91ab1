import type { Item, Scenario } from "../kitchen/index.js";
import { milligrams } from "../quantity/index.js";
import type { Problem } from "../reading/index.js";
import {
  numberedAfter,
  readYieldTests,
  type TableBreakdown,
  writeYieldTests,
  type YieldTables,
  type YieldTest,
} from "../yields/index.js";
import type { WeighedRow } from "./happened.js";
import { LOSS, ONE_COUNTED } from "./row.js";

/** A cut that makes no yield test, and why. */
export interface NoTest {
  readonly item: string;
  readonly breakdown: string;
  readonly why: string;
}

const NO_SUPPLIER = "not stated";

/**
 * The yield tests that a weigh-in makes: one of every cut weighed whole and part for part, as far as the tables know
 * it by its name and its parts. `weighIn` is the weigh-in's name, by which its tests are known again.
 */
export function yieldTestsOf(
  rows: readonly WeighedRow[],
  scenario: Scenario,
  tables: YieldTables,
  weighIn: string,
): { tests: YieldTest[]; without: NoTest[] } {
  const tests: YieldTest[] = [];
  const without: NoTest[] = [];
  for (const cut of rows.filter(
    ({ what, measure, actual }) => what === "cut" && measure === "weight" && actual > 0n,
  )) {
    const item = scenario.items.find(({ name }) => name === cut.name);
    const service = scenario.services[cut.service ?? 0];
    if (item === undefined || service === undefined) continue;
    const gave = rows.filter(
      ({ what, service: before, name, way }) =>
        what === "cut gave" && before === cut.service && name === cut.name && way === cut.way,
    );
    const parts = gave.filter(({ part }) => part !== LOSS);
    const noTest = (why: string) => without.push({ item: cut.name, breakdown: cut.way, why });
    const known = breakdownOf(cut, item, tables);
    const why = whyNot(cut, parts, known);
    if (known === undefined || why !== null) {
      noTest(why ?? NOT_HELD);
      continue;
    }
    const units = rows.find(
      ({ what, measure, service: before, name, way }) =>
        what === "cut" &&
        measure === "count" &&
        before === cut.service &&
        name === cut.name &&
        way === cut.way,
    );
    const counted = units === undefined ? null : otherCount(cut, units);
    if (counted !== null) {
      noTest(counted);
      continue;
    }
    const loss = gave.find(({ part, weighed }) => part === LOSS && weighed);
    const test: YieldTest = {
      item: item.of,
      form: item.form,
      breakdown: cut.way,
      supplier: item.supplier ?? NO_SUPPLIER,
      date: service.date,
      number: 1,
      units: units === undefined ? 1 : Math.max(1, Number(units.actual / ONE_COUNTED)),
      apWeight: milligrams(cut.reading),
      parts: parts.map((row) => ({
        part: row.part,
        weight: milligrams(row.reading),
        class: known.parts.find(({ part }) => part === row.part)?.class ?? "food",
      })),
      loss: milligrams(loss?.reading ?? 0n),
      scaleStep: scenario.scaleStep,
      weighIn,
    };
    const [refusal] = readYieldTests({ file: "", text: textOf(test) }, tables).problems;
    if (refusal === undefined) tests.push(numberedAfter(tests, test));
    else noTest(refusal.what);
  }
  return { tests, without };
}

/** Why units that nobody counted are not known: what was cut weighs as more or fewer of them would. */
function otherCount(cut: WeighedRow, units: WeighedRow): string | null {
  const off = cut.actual - cut.planned;
  const halfOfOne = (cut.planned * ONE_COUNTED) / (2n * (units.planned > 0n ? units.planned : ONE_COUNTED));
  return units.weighed || (off < 0n ? -off : off) <= halfOfOne
    ? null
    : "how many were cut was not counted, and it weighs as more or fewer than planned";
}

const NOT_HELD = "the yield tables do not hold this cut";

function breakdownOf(cut: WeighedRow, { of, form }: Item, tables: YieldTables): TableBreakdown | undefined {
  const item = tables.items.find((each) => each.name === of && each.form === form);
  return item?.breakdowns.find(({ name }) => name === cut.way);
}

function whyNot(
  cut: WeighedRow,
  parts: readonly WeighedRow[],
  breakdown: TableBreakdown | undefined,
): string | null {
  if (parts.length === 0 || !parts.every(({ weighed }) => weighed)) return "its parts were not weighed";
  if (!cut.weighed) return "its weight as purchased was not weighed";
  if (breakdown === undefined) return NOT_HELD;
  const known = breakdown.parts.map(({ part }) => part);
  return known.length === parts.length && parts.every(({ part }) => known.includes(part))
    ? null
    : "the scenario cuts it into other parts than the yield tables";
}

/** The kitchen's tests after learning; `added` is 0 where they were learnt before. */
export type Learnt =
  | {
      readonly kind: "learnt";
      readonly text: string;
      readonly added: number;
      readonly replaced: number;
      /** Those that the weigh-in taught before and no longer holds. */
      readonly removed: number;
    }
  | { readonly kind: "unreadable"; readonly problems: readonly Problem[] };

/**
 * The kitchen's file of yield tests (null where there is none yet) with those of a weigh-in. Learnt again, they take
 * the place of what the same weigh-in of the same days taught before, so that nothing counts twice and a weight
 * corrected afterwards is corrected here too.
 */
export function learn(
  file: string,
  text: string | null,
  { tests, weighIn, dates }: { tests: readonly YieldTest[]; weighIn: string; dates: readonly string[] },
  tables: YieldTables,
): Learnt {
  const { tests: known, problems } =
    text === null ? { tests: [], problems: [] } : readYieldTests({ file, text }, tables);
  if (problems.length > 0) return { kind: "unreadable", problems };
  const isOurs = (test: YieldTest) => test.weighIn === weighIn && dates.includes(test.date);
  const before = known.filter(isOurs);
  const others = known.filter((test) => !isOurs(test));
  const fresh: YieldTest[] = [];
  const free = [...before];
  for (const test of tests) {
    const at = free.findIndex((old) => isSameCutting(old, test));
    const [old] = at < 0 ? [] : free.splice(at, 1);
    fresh.push(
      old === undefined
        ? numberedAfter([...others, ...before, ...fresh], test)
        : { ...test, number: old.number },
    );
  }
  const changed = fresh.filter((test) => !before.some((old) => textOf(old) === textOf(test)));
  if (text !== null && changed.length === 0 && before.length === fresh.length)
    return { kind: "learnt", text, added: 0, replaced: 0, removed: 0 };
  const added = Math.max(0, fresh.length - before.length);
  return {
    kind: "learnt",
    text: writeYieldTests([...others, ...fresh]),
    added,
    replaced: changed.length - Math.min(changed.length, added),
    removed: free.length,
  };
}

function isSameCutting(left: YieldTest, right: YieldTest): boolean {
  return (["item", "form", "breakdown", "supplier", "date"] as const).every(
    (key) => left[key] === right[key],
  );
}

function textOf(test: YieldTest): string {
  return writeYieldTests([test]);
}
