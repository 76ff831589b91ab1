import type { Outcome, StageResult } from "../allocation/index.js";
import { type Aim, addDays, type Decision, type Scenario } from "../kitchen/index.js";
import { aimFigure, aimValuesOf, type Ledger } from "../ledger/index.js";
import { type Decimal, NO_MONEY, NO_WEIGHT, type Weight } from "../quantity/index.js";
import { needlessSteps } from "../waste/index.js";
import { askedOf } from "./asked.js";
import { dishesOf } from "./dishes.js";
import { aimText, figureText, gramsText, moneyText } from "./figures.js";
import { leftoversOf } from "./leftovers.js";
import { type Names, namesOf, stockOf } from "./names.js";
import type { PlanJson } from "./plan.js";

export type Warning = PlanJson["warnings"][number];
type Reason = PlanJson["reasons"][number];

/** What is known of a plan beside the decision: how it was found and what to beware of. */
export interface Findings {
  readonly outcome: Outcome;
  readonly stages: readonly StageResult[];
  readonly warnings: readonly Warning[];
  readonly reasons: readonly Reason[];
  /** Whether the time was over before all reasons had been looked for. */
  readonly reasonsCut?: boolean;
}

/** A decision and its ledger as the JSON contract. */
export function composePlan(
  scenario: Scenario,
  decision: Decision,
  ledger: Ledger,
  findings: Findings,
): PlanJson {
  const figure = aimFigure(scenario, decision, aimValuesOf(scenario, decision, ledger));
  const { outcome, ...rest } = heading(scenario, findings);
  return {
    ...rest,
    outcome: asPrinted(outcome, scenario.aim, figure),
    ...composeDecision(scenario, decision, ledger),
  };
}

/** What is decided or was done, with its ledger: all of the contract but how it was found. */
export function composeDecision(
  scenario: Scenario,
  decision: Decision,
  ledger: Ledger,
): Omit<PlanJson, keyof ReturnType<typeof heading>> {
  const names = namesOf(scenario);
  return {
    ...settingOf(scenario),
    purchases: decision.purchases.map(({ item, service, orderUnits, weight, cost, delivery }) => ({
      item,
      form: names.item(item)?.form ?? "",
      service: names.service(service),
      units: orderUnits,
      orderUnit: names.item(item)?.orderUnit.name ?? "",
      weight: gramsText(weight),
      cost: moneyText(cost),
      ...(delivery === undefined ? {} : { delivery: moneyText(delivery) }),
    })),
    onHand: onHandOf(scenario),
    cuts: decision.cuts.map(({ item, breakdown, service, units, weight, parts, loss }) => ({
      item,
      breakdown,
      service: names.service(service),
      units,
      weight: gramsText(weight),
      parts: parts.map((entry) => partWeight(entry, names)),
      loss: gramsText(loss),
    })),
    preps: decision.preps.map(({ step, from, service, weight, water, parts, loss }) => ({
      from: from.part,
      cutFor: names.cutFor(from),
      stock: stockOf(from),
      step,
      service: names.service(service),
      weight: gramsText(weight),
      water: gramsText(water),
      parts: parts.map((entry) => partWeight(entry, names)),
      loss: gramsText(loss),
    })),
    goings: decision.goings.map(({ lot, dish, service, line, weight, pieces }) => ({
      part: lot.part,
      dish,
      service: names.service(service),
      line: names.dish(dish)?.lines[line]?.name ?? "",
      lineNumber: line + 1,
      weight: gramsText(weight),
      pieces,
      cutFor: names.cutFor(lot),
      stock: stockOf(lot),
      cut: names.cutDate(lot),
      useBy: names.useBy(lot),
    })),
    dishes: dishesOf(scenario, decision, ledger),
    ...(decision.storageLosses === undefined
      ? {}
      : {
          storageLosses: decision.storageLosses.map(({ item, weight }) => ({
            item,
            weight: gramsText(weight),
          })),
        }),
    leftovers: leftoversOf(decision, ledger, names),
    transfers: ledger.transfers.map(({ from, to, weight, money, cause }) => ({
      from,
      to,
      weight: gramsText(weight),
      money: moneyText(money),
      cause,
    })),
    weights: { unit: "g", ...mapValues(ledger.weights, gramsText) },
    waste: wasteJson(scenario, decision, ledger, names),
    asked: askedOf(scenario),
    money: { currency: scenario.currency, ...mapValues(ledger.money, moneyText) },
  };
}

function wasteJson(
  scenario: Scenario,
  decision: Decision,
  { waste, losses }: Pick<Ledger, "waste" | "losses">,
  names: Names,
): PlanJson["waste"] {
  return {
    ...mapValues(waste, gramsText),
    counts: mapValues(scenario.wasteCounts, (share) => share.toFixed()),
    unusedParts: losses.unusedParts.map(({ part, weight }) => ({ part, weight: gramsText(weight) })),
    lostInCuts: decision.cuts.map(({ item }, index) => ({
      item,
      lostFood: gramsText(losses.cuts[index]?.lost ?? NO_WEIGHT),
      peelBeyond: gramsText(losses.cuts[index]?.peelBeyond ?? NO_WEIGHT),
    })),
    needless: needlessSteps(scenario, decision).flatMap((needless, going) => {
      if (needless.length === 0) return [];
      const steps = needless.map(({ step }) => step);
      return [{ going, steps, sources: needless.map(({ sources }) => [...sources]) }];
    }),
    lostInSteps: losses.steps.map(({ step, origin, lost }) => ({
      step,
      cutFor: names.cutFor({ part: step, origin }),
      stock: stockOf({ part: step, origin }),
      lostFood: gramsText(lost),
    })),
  };
}

/** The same contract where there is no plan: every list empty, every total nothing, and the reasons. */
export function composeNoPlan(scenario: Scenario, findings: Findings): PlanJson {
  const none = gramsText(NO_WEIGHT);
  const nothing = moneyText(NO_MONEY);
  return {
    ...heading(scenario, findings),
    ...settingOf(scenario),
    purchases: [],
    onHand: onHandOf(scenario),
    cuts: [],
    preps: [],
    goings: [],
    dishes: [],
    leftovers: [],
    transfers: [],
    weights: {
      unit: "g",
      purchased: none,
      onHand: none,
      absorbed: none,
      inDishes: none,
      givenAway: none,
      closingStock: none,
      wastedFood: none,
      inedible: none,
      losses: none,
      avoidablePeel: none,
    },
    waste: {
      counted: none,
      foodWasted: none,
      lostFood: none,
      avoidablePeel: none,
      unusedUsable: none,
      givenAway: none,
      counts: mapValues(scenario.wasteCounts, (share) => share.toFixed()),
      unusedParts: [],
      lostInCuts: [],
      needless: [],
      lostInSteps: [],
    },
    asked: askedOf(scenario),
    money: {
      currency: scenario.currency,
      spent: nothing,
      stockValue: nothing,
      inDishes: nothing,
      givenAway: nothing,
      closingStock: nothing,
      wasted: nothing,
    },
  };
}

function heading(scenario: Scenario, { outcome, stages, warnings, reasons, reasonsCut }: Findings) {
  return {
    schema: "trim-to-use/plan@1" as const,
    scenario: scenario.name,
    aim: scenario.aim,
    outcome: outcomeOf(outcome, scenario.aim),
    stages: stages.map(({ aim, value, bound, gap, engine }) => ({
      aim,
      value: aimText(aim, value),
      bound: aimText(aim, bound),
      gap: figureText(gap),
      engine,
    })),
    warnings: [...warnings],
    reasons: [...reasons],
    ...(reasonsCut === true && { reasonsCut }),
    risk: null,
  };
}

function settingOf({ services, destinations }: Scenario): Pick<PlanJson, "services" | "destinations"> {
  return {
    services: services.map(({ name, date, covers }) => ({ name, date, covers })),
    destinations: destinations.map(({ name, kind }) => ({ name, kind })),
  };
}

function outcomeOf(outcome: Outcome, aim: Aim): PlanJson["outcome"] {
  const seconds = Math.round(outcome.seconds * 1000) / 1000;
  const none = {
    objective: null,
    beforeRounding: null,
    rounding: null,
    bound: null,
    gap: null,
    certified: false,
  };
  switch (outcome.kind) {
    case "optimal":
    case "feasible":
      return {
        kind: outcome.kind,
        engine: outcome.engine,
        objective: aimText(aim, outcome.objective),
        beforeRounding: aimText(aim, outcome.objective),
        rounding: aimText(aim, 0),
        bound: aimText(aim, outcome.bound),
        gap: figureText(outcome.gap),
        seconds,
        certified: true,
        stoppedBy: outcome.stoppedBy?.words ?? null,
        stopCode: outcome.stoppedBy?.code ?? null,
      };
    case "failed":
      return {
        kind: outcome.kind,
        engine: outcome.engine,
        ...none,
        seconds,
        stoppedBy: outcome.reason,
        stopCode: outcome.stoppedBy?.code ?? null,
      };
    default:
      return {
        kind: outcome.kind,
        engine: outcome.engine,
        ...none,
        seconds,
        stoppedBy: null,
        stopCode: null,
      };
  }
}

/** With the aim of the plan as it is printed, by its ledger, beside that of the model before rounding to the scale. */
function asPrinted(outcome: PlanJson["outcome"], aim: Aim, figure: Decimal): PlanJson["outcome"] {
  if (outcome.beforeRounding === null) return outcome;
  const objective = aim === "waste" ? figure.times(1000) : figure;
  return {
    ...outcome,
    objective: objective.toFixed(Math.max(3, objective.decimalPlaces())),
    rounding: objective.minus(outcome.beforeRounding).toFixed(),
  };
}

function partWeight({ part, weight }: { part: string; weight: Weight }, names: Names) {
  return { part, weight: gramsText(weight), class: names.classOf(part) };
}

function onHandOf(scenario: Scenario): PlanJson["onHand"] {
  const items = scenario.items.flatMap(({ name, onHand }) =>
    onHand.map(({ weight, value, lastDay }) => ({
      kind: "item" as const,
      name,
      weight: gramsText(weight),
      value: moneyText(value),
      useBy: lastDay === null ? null : addDays(scenario.firstDate, lastDay),
    })),
  );
  const parts = scenario.partsOnHand.map(({ part, weight, value, useBy }) => ({
    kind: "part" as const,
    name: part,
    weight: gramsText(weight),
    value: moneyText(value),
    useBy,
  }));
  return [...items, ...parts];
}

function mapValues<K extends string, V>(
  record: Readonly<Record<K, V>>,
  text: (value: V) => string,
): Record<K, string> {
  const entries = Object.entries<V>(record).map(([key, value]) => [key, text(value)] as const);
  return Object.fromEntries(entries) as Record<K, string>;
}
