import { buildLotGraph, type Groups, groupBy, type LotNode, usableAt } from "../../allocation/index.js";
import {
  type Cooking,
  type Decision,
  type Dish,
  lotKey,
  type PartUse,
  type Prep,
  type RecipeLine,
  type Scenario,
} from "../../kitchen/index.js";
import { toKilograms, type Weight } from "../../quantity/index.js";

/** A plan laid out for cutting it again many times: indexes instead of names, kilograms as numbers. */
export interface Layout {
  readonly lots: readonly LotNode[];
  readonly cuts: readonly CutWork[];
  /** Columns of what a kilogram taken by a step gives, by step. */
  readonly steps: readonly StepWork[];
  /** Kilograms on hand, by lot. */
  readonly onHand: readonly { readonly lot: number; readonly kilograms: number }[];
  readonly services: readonly ServiceWork[];
  readonly lines: readonly LineWork[];
  readonly cookings: readonly CookingWork[];
  /** What the plan still draws from each lot when the first service begins. */
  readonly planned: Float64Array;
  /** Numbers drawn for one re-cutting. */
  readonly columns: number;
}

interface CutWork {
  readonly item: number;
  readonly breakdown: number;
  readonly service: number;
  readonly units: number;
  /** Lots of its yields, in order. */
  readonly lots: readonly number[];
  /** Kilograms of its yields as planned. */
  readonly planned: readonly number[];
  /** Column of the first yield, in kilograms. */
  readonly column: number;
}

interface StepWork {
  readonly step: number;
  readonly column: number;
}

export interface ServiceWork {
  /** Cuts made before it. */
  readonly cuts: readonly CutWork[];
  /** What is drawn from each lot, a step's source before what it gives. */
  readonly draws: readonly LotDraws[];
  /** Lines cooked for it, in the order of the dishes. */
  readonly lines: readonly number[];
}

export interface LotDraws {
  readonly lot: number;
  readonly planned: number;
  readonly preps: readonly { readonly kilograms: number; readonly outputs: readonly Output[] }[];
  readonly goings: readonly { readonly kilograms: number; readonly line: number; readonly rate: number }[];
}

export interface Output {
  readonly lot: number;
  readonly column: number;
}

interface LineWork {
  readonly cooking: number;
  readonly name: string;
  /** Kilograms of the line before cooking that the portions eaten ask for. */
  readonly need: number;
  /** By how much less the plan itself may miss it: half a step of the scale for each going. */
  readonly tolerance: number;
  /** Counted in pieces, which are as many as planned whatever they weigh. */
  readonly counted: boolean;
  /** Where it may be filled up from, in order. */
  readonly gaps: readonly Gap[];
  /** Lots the plan fills it from. */
  readonly lots: readonly number[];
}

export interface Gap {
  readonly lot: number;
  readonly rate: number;
  /** Most kilograms of the line it may stand for. */
  readonly most: number;
  /** The step it is worked by first, with all that step gives; null where it goes as it is. */
  readonly step: { readonly output: number; readonly outputs: readonly Output[] } | null;
}

interface CookingWork {
  readonly dish: string;
  readonly service: number;
  readonly eaten: number;
  readonly lines: readonly number[];
}

export function layOut(decision: Decision, scenario: Scenario): Layout {
  const { lots } = buildLotGraph(scenario);
  const indexes = new Map(lots.map((lot, index) => [lotKey(lot), index]));
  const lotOf = (part: string, origin: LotNode["origin"]): number =>
    indexes.get(lotKey({ part, origin })) ?? -1;
  let columns = 0;
  const cuts = decision.cuts.map((cut): CutWork => {
    const item = scenario.items.findIndex(({ name }) => name === cut.item);
    const of = scenario.items[item];
    const column = columns;
    columns += cut.parts.length;
    return {
      item,
      breakdown: of?.breakdowns.findIndex(({ name }) => name === cut.breakdown) ?? -1,
      service: cut.service,
      units: cut.units ?? kg(cut.weight) / kg(of?.unitWeight ?? cut.weight),
      lots: cut.parts.map(({ part }) => lotOf(part, { kind: "cut", service: cut.service })),
      planned: cut.parts.map(({ weight }) => kg(weight)),
      column,
    };
  });
  const steps = scenario.steps.map(({ yields }, step): StepWork => {
    const column = columns;
    columns += yields.length;
    return { step, column };
  });
  const outputsOf = (step: number, origin: LotNode["origin"]): Output[] =>
    (scenario.steps[step]?.yields ?? []).map(({ part }, index) => ({
      lot: lotOf(part, origin),
      column: (steps[step]?.column ?? 0) + index,
    }));
  const byPart = groupBy(
    lots.map((lot, index) => ({ lot, index })),
    ({ lot }) => lot.part,
  );
  const { lines, cookings } = linesOf(decision, scenario, { lots, byPart, lotOf, outputsOf });
  const lineOf = (going: PartUse): number => {
    const cooking = cookings.find(({ dish, service }) => dish === going.dish && service === going.service);
    return cooking?.lines[going.line] ?? -1;
  };
  const planned = new Float64Array(lots.length);
  const prepsOf = groupBy(
    prepsWhenNeeded(decision, lots),
    ({ service, from }) => `${service} ${lotKey(from)}`,
  );
  const goingsOf = groupBy(decision.goings, ({ service, lot }) => `${service} ${lotKey(lot)}`);
  const services = scenario.services.map((_, service): ServiceWork => {
    const draws = lots.flatMap((lot, index): LotDraws[] => {
      const preps = prepsOf.of(`${service} ${lotKey(lot)}`).map((prep) => ({
        kilograms: kg(prep.weight),
        outputs: outputsOf(
          scenario.steps.findIndex(({ name }) => name === prep.step),
          lot.origin,
        ),
      }));
      const goings = goingsOf.of(`${service} ${lotKey(lot)}`).map((going) => ({
        kilograms: kg(going.weight),
        line: lineOf(going),
        rate: rateOf(going, scenario),
      }));
      const sum = [...preps, ...goings].reduce((acc, { kilograms }) => acc + kilograms, 0);
      planned[index] = (planned[index] ?? 0) + sum;
      return sum === 0 ? [] : [{ lot: index, planned: sum, preps, goings }];
    });
    return {
      cuts: cuts.filter((cut) => cut.service === service),
      draws,
      lines: lines.flatMap(({ cooking }, index) => (cookings[cooking]?.service === service ? [index] : [])),
    };
  });
  const onHand = scenario.partsOnHand.map(({ part, weight }, index) => ({
    lot: lotOf(part, { kind: "onHand", index }),
    kilograms: kg(weight),
  }));
  return { lots, cuts, steps, onHand, services, lines, cookings, planned, columns };
}

/**
 * The plan's further steps, each at the first service that takes what it gives, so that its lack is not shared by
 * earlier ones; at the last where none does.
 */
function prepsWhenNeeded(decision: Decision, lots: readonly LotNode[]): Prep[] {
  const goings = groupBy(decision.goings, ({ lot }) => lotKey(lot));
  const preps = groupBy(decision.preps, ({ from }) => lotKey(from));
  const last = Math.max(0, ...decision.goings.map(({ service }) => service));
  const firstUse = new Map<string, number>();
  // What a step gives comes after its source, so its use is known before the source is looked at.
  return [...lots].reverse().flatMap((lot): Prep[] => {
    const moved = preps.of(lotKey(lot)).map((prep): Prep => {
      const uses = prep.parts.map(({ part }) => firstUse.get(lotKey({ part, origin: lot.origin })) ?? last);
      return { ...prep, service: Math.max(prep.service, Math.min(...uses)) };
    });
    const services = [...goings.of(lotKey(lot)), ...moved].map(({ service }) => service);
    if (services.length > 0) firstUse.set(lotKey(lot), Math.min(...services));
    return moved;
  });
}

interface Finding {
  readonly lots: readonly LotNode[];
  readonly byPart: Groups<{ readonly lot: LotNode; readonly index: number }, string>;
  readonly lotOf: (part: string, origin: LotNode["origin"]) => number;
  readonly outputsOf: (step: number, origin: LotNode["origin"]) => Output[];
}

function linesOf(
  decision: Decision,
  scenario: Scenario,
  finding: Finding,
): { lines: LineWork[]; cookings: CookingWork[] } {
  const lines: LineWork[] = [];
  const inOrder = scenario.dishes.flatMap((dish) =>
    decision.cookings.filter((cooking) => cooking.dish === dish.name).map((cooking) => ({ dish, cooking })),
  );
  const cookings = inOrder.map(({ dish, cooking }, index): CookingWork => {
    const eaten = cooking.served.reduce((sum, { portions }) => sum + portions, 0);
    const first = lines.length;
    dish.lines.forEach((line, at) => {
      const goings = decision.goings.filter(
        (going) => going.dish === dish.name && going.service === cooking.service && going.line === at,
      );
      lines.push({ cooking: index, ...lineWork({ dish, line, cooking, eaten, goings }, scenario, finding) });
    });
    const own = lines.slice(first).map((_, offset) => first + offset);
    return { dish: dish.name, service: cooking.service, eaten, lines: own };
  });
  return { lines, cookings };
}

interface Cooked {
  readonly dish: Dish;
  readonly line: RecipeLine;
  readonly cooking: Cooking;
  readonly eaten: number;
  readonly goings: readonly PartUse[];
}

function lineWork(
  { line, cooking, eaten, goings }: Cooked,
  scenario: Scenario,
  finding: Finding,
): Omit<LineWork, "cooking"> {
  const need = (kg(line.least) * eaten) / line.cookingYield.toNumber();
  const pieces = line.from.map(
    ({ part }) => scenario.parts.find(({ name }) => name === part)?.pieceWeight ?? null,
  );
  const plannedOf = (part: string): number =>
    goings.reduce(
      (sum, going) => sum + (going.lot.part === part ? rateOf(going, scenario) * kg(going.weight) : 0),
      0,
    );
  const gaps = line.from.flatMap(({ part, rate: stated, mostShare }): Gap[] => {
    const rate = stated.toNumber();
    const most = mostShare.toNumber() * need - plannedOf(part);
    if (most <= 0 && mostShare.lt(1)) return [];
    const room = mostShare.lt(1) ? most : Number.POSITIVE_INFINITY;
    const asItIs = finding.byPart
      .of(part)
      .filter(({ lot }) => usableAt(lot, cooking.service, scenario))
      .map(({ index }): Gap => ({ lot: index, rate, most: room, step: null }));
    const worked = scenario.steps.flatMap(({ from, yields }, step): Gap[] => {
      const output = yields.findIndex((made) => made.part === part);
      if (output < 0) return [];
      return from.flatMap((source) =>
        finding.byPart.of(source).flatMap(({ lot, index }): Gap[] => {
          const made = finding.lots[finding.lotOf(part, lot.origin)];
          const inTime = [lot, made].every(
            (each) => each !== undefined && usableAt(each, cooking.service, scenario),
          );
          if (!inTime || lot.kind.class !== "food") return [];
          const outputs = finding.outputsOf(step, lot.origin);
          return [{ lot: index, rate, most: room, step: { output, outputs } }];
        }),
      );
    });
    return [...asItIs, ...worked];
  });
  return {
    name: line.name,
    need,
    tolerance:
      (kg(scenario.scaleStep) / 2) * goings.reduce((sum, going) => sum + rateOf(going, scenario), 0) + 1e-9,
    counted: pieces.every((piece) => piece !== null && piece > 0n && line.least % piece === 0n),
    gaps: [...gaps.filter(({ step }) => step === null), ...gaps.filter(({ step }) => step !== null)],
    lots: [...new Set(goings.map(({ lot }) => finding.lotOf(lot.part, lot.origin)))],
  };
}

function rateOf({ dish, line, lot }: PartUse, scenario: Scenario): number {
  const stated = scenario.dishes.find(({ name }) => name === dish)?.lines[line];
  return stated?.from.find(({ part }) => part === lot.part)?.rate.toNumber() ?? 1;
}

function kg(weight: Weight): number {
  return toKilograms(weight).toNumber();
}
