import { lotName, originKey, type Scenario, serviceName } from "../../kitchen/index.js";
import { classesOf, isRenaming } from "../../waste/index.js";
import { mostPerPortion } from "../demand.js";
import { kg, rate } from "../floats.js";
import { groupBy } from "../group.js";
import {
  type LotNode,
  outlastsPlan,
  servicesToWorkBefore,
  statedDestination,
  staysInStock,
  stepsFrom,
  usableAt,
} from "../lot-graph.js";
import { Sum } from "../model.js";
import { type BuildContext, weightInUnit } from "./context.js";

/** Where the weight of each lot comes from and goes to: every gram of a food part goes somewhere. */
export function addParts(context: BuildContext): void {
  const inflow = mostInflow(context);
  for (const lot of context.lotGraph.lots) addOutflows(lot, inflow[lot.index] ?? 0, context);
  const flows = flowsOf(context);
  for (const lot of context.lotGraph.lots) {
    addBalance(lot, flows, context);
    addWorkedInTime(lot, flows, context);
  }
  addCarryLimits(context);
  addCapacities(context);
}

/** A lot that nothing can come into has no outflows; a step that nothing is wanted of is not worked. */
function addOutflows(lot: LotNode, inflow: number, context: BuildContext): void {
  if (inflow === 0) return;
  const { scenario, builder, handles } = context;
  const piece = lot.kind.pieceWeight;
  const unit = piece === null ? 1 : kg(piece);
  const integer = piece !== null;
  const upTo = (amount: number): number => amount / unit;
  const where = lotName(scenario, lot);
  const about = { part: lot.part, ...(lot.kind.item === null ? {} : { item: lot.kind.item }) };
  const ended = { ...about, ...(lot.origin.kind === "cut" ? { service: lot.origin.service } : {}) };

  for (const site of context.sites) {
    if (!usableAt(lot, site.service, scenario)) continue;
    site.dish.lines.forEach((line, index) => {
      const most = mostPerPortion(line, lot.part) * site.mostPortions;
      if (most === 0) return;
      const tag = { family: "go", ...about, dish: site.dish.name, service: site.service, line: index };
      const name = `${where} into ${site.dish.name} for ${serviceName(scenario, site.service)}, line ${index + 1}`;
      const variable = builder.variable(tag, name, upTo(Math.min(most, inflow)), { integer });
      handles.goes.push({ lot, site, line: index, variable, unit });
    });
  }
  for (const step of stepsFrom(lot.part, scenario)) {
    const wanted = context.demand.through(step, lot);
    if (wanted === 0) continue;
    // Whole pieces are drawn, and so up to one more than is wanted.
    const most = Math.min(inflow, wanted + (integer ? unit : 0));
    for (const service of servicesToWorkBefore(step, lot, scenario)) {
      const tag = {
        family: "draw",
        ...about,
        step: step.name,
        ...(service === null ? {} : { service }),
      };
      const when = service === null ? "" : ` for ${serviceName(scenario, service)}`;
      const upper = service === null || step.capacity === null ? most : Math.min(most, kg(step.capacity));
      const variable = builder.variable(tag, `${step.name} from ${where}${when}`, upTo(upper), { integer });
      handles.draws.push({ step, from: lot, service, variable });
    }
  }
  if (lot.kind.carry !== null && outlastsPlan(lot, scenario)) {
    const tag = { family: "keep", ...ended };
    const upper = Math.min(inflow, kg(lot.kind.carry.limit));
    handles.keeps.push({ lot, variable: builder.variable(tag, `keep ${where}`, upper) });
  }
  if (staysInStock(lot, scenario)) {
    const tag = { family: "stay", ...ended };
    handles.stays.push({ lot, variable: builder.variable(tag, `${where} left in stock`, inflow) });
  }
  if (lot.kind.class !== "food") return;
  const stated = statedDestination(lot, scenario);
  for (const destination of scenario.destinations) {
    if (destination.end !== "given away" || !destination.takes.food) continue;
    if ((stated ?? destination.name) !== destination.name) continue;
    const tag = { family: "give", ...ended, destination: destination.name };
    const limit = destination.limit === null ? Number.POSITIVE_INFINITY : kg(destination.limit);
    const variable = builder.variable(tag, `${where} to ${destination.name}`, Math.min(inflow, limit));
    handles.gives.push({ lot, destination: destination.name, variable });
  }
  const tag = { family: "waste", ...ended };
  handles.wastes.push({ lot, variable: builder.variable(tag, `${where} wasted`, inflow) });
}

function addBalance(lot: LotNode, flows: Flows, context: BuildContext): void {
  const { scenario, builder } = context;
  const made = inflowsOf(lot, flows, scenario);
  const sum = new Sum().addSum(made.sum);
  for (const go of flows.goes.of(lot)) sum.add(go.variable, -go.unit);
  for (const draw of flows.drawsFrom.of(lot)) sum.add(draw.variable, -drawUnit(lot));
  for (const { variable } of flows.ends.of(lot)) sum.add(variable, -1);
  const where = lotName(scenario, lot);
  const tag = { family: "part balance", part: lot.part };
  if (lot.kind.class === "food" || staysInStock(lot, scenario)) {
    builder.row(tag, where, sum, { lower: -made.held, upper: -made.held });
  } else {
    // What is inedible and not called for is thrown away.
    builder.row(tag, where, sum, { lower: -made.held });
    context.handles.thrown.push({ lot, sum, held: made.held });
  }

  if (lot.kind.class !== "food" || !madeBySteps(lot, context)) return;
  const surplus = new Sum().addSum(made.wasteable, -1);
  for (const { variable } of flows.surplus.of(lot)) surplus.add(variable, 1);
  addUsesOfByProducts(lot, surplus, flows, context);
  builder.row({ family: "worked for use", part: lot.part }, `${where} worked for use`, surplus, {
    upper: made.wasteableAnyway,
  });
}

/** A step may also be worked for what else it gives: as far as that is used, what it gives first may be over. */
function addUsesOfByProducts(
  lot: LotNode,
  surplus: Sum,
  flows: Flows,
  { lotGraph, scenario }: BuildContext,
): void {
  for (const { yields } of scenario.steps.filter((step) => step.yields[0]?.part === lot.part)) {
    const [first, ...others] = yields;
    for (const { part, fraction } of others) {
      const other = lotGraph.lot(part, lot.origin);
      if (first === undefined || other === undefined || fraction.isZero()) continue;
      const ratio = rate(first.fraction.div(fraction));
      for (const go of flows.goes.of(other)) surplus.add(go.variable, -go.unit * ratio);
      for (const draw of flows.drawsFrom.of(other)) surplus.add(draw.variable, -drawUnit(other) * ratio);
      for (const keep of flows.keeps.of(other)) surplus.add(keep.variable, -ratio);
    }
  }
}

type Flows = ReturnType<typeof flowsOf>;

/** Flows by the lot they touch; what is surplus is given away or wasted. */
function flowsOf({ handles }: BuildContext) {
  const { gives, keeps, stays, wastes } = handles;
  return {
    cuts: groupBy(handles.cuts, ({ service }) => service),
    goes: groupBy(handles.goes, ({ lot }) => lot),
    drawsFrom: groupBy(handles.draws, ({ from }) => from),
    drawsOf: groupBy(handles.draws, ({ from }) => originKey(from.origin)),
    ends: groupBy([...gives, ...keeps, ...stays, ...wastes], ({ lot }) => lot),
    keeps: groupBy(keeps, ({ lot }) => lot),
    surplus: groupBy([...gives, ...wastes], ({ lot }) => lot),
  };
}

/**
 * What comes into a lot; of it, what may be surplus: nobody peels stems to throw them away, so what a step is worked
 * for goes into dishes or permitted stock, and only its by-products and what merely changed its name may be over.
 */
function inflowsOf(lot: LotNode, flows: Flows, scenario: Scenario) {
  const { in: sum, held } = directOf(lot, flows.cuts, scenario);
  const classOf = classesOf(scenario);
  const wasteable = new Sum().addSum(sum);
  let wasteableAnyway = held;
  for (const { step, from, variable } of flows.drawsOf.of(originKey(lot.origin))) {
    const made = step.yields.findIndex(({ part }) => part === lot.part);
    const fraction = step.yields[made]?.fraction;
    if (fraction === undefined) continue;
    const given = rate(fraction) * drawUnit(from);
    sum.add(variable, given);
    if (made > 0 || isRenaming(step, lot.part, classOf)) wasteable.add(variable, given);
    // A piece drawn whole may give more than is asked for, but less than one piece more.
    else if (from.kind.pieceWeight !== null) wasteableAnyway += given;
  }
  return { sum, held, wasteable, wasteableAnyway };
}

/** What comes into a lot by cutting, and what of it is on hand. */
function directOf(lot: LotNode, cuts: Flows["cuts"], scenario: Scenario): { in: Sum; held: number } {
  const sum = new Sum();
  if (lot.origin.kind === "onHand") {
    const stock = scenario.partsOnHand[lot.origin.index];
    return { in: sum, held: stock?.part === lot.part ? kg(stock.weight) : 0 };
  }
  for (const cut of cuts.of(lot.origin.service)) {
    const weight = weightInUnit(cut, lot.part);
    if (weight !== null) sum.add(cut.variable, weight);
  }
  return { in: sum, held: 0 };
}

/** What goes on from a lot before a service has come into it by then, where steps are worked service by service. */
function addWorkedInTime(lot: LotNode, flows: Flows, { scenario, builder }: BuildContext): void {
  const made = flows.drawsOf
    .of(originKey(lot.origin))
    .flatMap((draw) =>
      draw.step.yields.filter(({ part }) => part === lot.part).map(({ fraction }) => ({ draw, fraction })),
    );
  if (made.every(({ draw }) => draw.service === null)) return;
  const inTime = (by: number, service: number | null): boolean => service === null || service <= by;
  for (let service = lot.firstService; service < scenario.services.length - 1; service++) {
    const sum = directOf(lot, flows.cuts, scenario);
    for (const { draw, fraction } of made) {
      if (inTime(service, draw.service)) sum.in.add(draw.variable, rate(fraction) * drawUnit(draw.from));
    }
    for (const go of flows.goes.of(lot)) if (go.site.service <= service) sum.in.add(go.variable, -go.unit);
    for (const draw of flows.drawsFrom.of(lot)) {
      if (draw.service !== null && draw.service <= service) sum.in.add(draw.variable, -drawUnit(lot));
    }
    const name = `${lotName(scenario, lot)} worked by ${serviceName(scenario, service)}`;
    builder.row({ family: "worked in time", part: lot.part, service }, name, sum.in, { lower: -sum.held });
  }
}

function madeBySteps(lot: LotNode, { scenario }: BuildContext): boolean {
  return scenario.steps.some(
    (step) => step.yields[0]?.part === lot.part && !isRenaming(step, lot.part, classesOf(scenario)),
  );
}

/** Kilograms one unit of a draw from the lot stands for. */
export function drawUnit(lot: LotNode): number {
  return lot.kind.pieceWeight === null ? 1 : kg(lot.kind.pieceWeight);
}

/** Most kilograms that can come into each lot. */
function mostInflow({ scenario, lotGraph, handles, builder, demand }: BuildContext): number[] {
  const inflow: number[] = [];
  const cuts = groupBy(handles.cuts, ({ service }) => service);
  for (const lot of lotGraph.lots) {
    const direct = directOf(lot, cuts, scenario);
    let most = direct.held + builder.mostOf(direct.in);
    for (const step of scenario.steps) {
      const made = step.yields.find(({ part }) => part === lot.part);
      if (made === undefined) continue;
      for (const from of step.from) {
        const source = lotGraph.lot(from, lot.origin);
        if (source === undefined || demand.through(step, source) === 0) continue;
        most += rate(made.fraction) * (inflow[source.index] ?? 0);
      }
    }
    inflow[lot.index] = most;
  }
  return inflow;
}

function addCarryLimits({ scenario, builder, handles }: BuildContext): void {
  for (const part of scenario.parts) {
    const kept = handles.keeps.filter(({ lot }) => lot.part === part.name);
    if (part.carry === null || kept.length < 2) continue;
    const sum = new Sum();
    for (const { variable } of kept) sum.add(variable, 1);
    const tag = { family: "carry", part: part.name };
    builder.row(tag, `${part.name} kept for ${part.carry.use}`, sum, { upper: kg(part.carry.limit) });
  }
}

/** A pot holds so much before any one service. */
function addCapacities({ scenario, builder, handles }: BuildContext): void {
  for (const step of scenario.steps) {
    if (step.capacity === null) continue;
    for (let service = 0; service < scenario.services.length; service++) {
      const sum = new Sum();
      for (const draw of handles.draws) {
        if (draw.step === step && draw.service === service) sum.add(draw.variable, drawUnit(draw.from));
      }
      const name = `${step.name} for ${serviceName(scenario, service)} holds`;
      const tag = { family: "capacity", step: step.name, service };
      builder.row(tag, name, sum, { upper: kg(step.capacity) });
    }
  }
}
