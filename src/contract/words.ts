import { type Money, minus, NO_WEIGHT, toCurrency, toGrams, type Weight } from "../quantity/index.js";
import { wordings } from "../reading/index.js";

/** What is said of a plan that is read; who reads it says what to do. */
export const words = wordings("kept-plan", {
  emptyFile: () => ({ what: "this file is empty, and no plan" }),
  noJson: () => ({ what: "from here on this is no JSON, and no plan" }),
  missingField: () => ({
    what: "this is missing, as in a file of an earlier version or one that was changed",
  }),
  wrongKind: (kind: string) => ({ what: `this is not ${KINDS[kind] ?? kind}` }),
  noneOf: (values: readonly string[]) => ({ what: `this is none of ${values.join(", ")}` }),
  notAsDescribed: (description: string) => ({ what: `this is not ${description}` }),
  unreadable: () => ({ what: "this cannot be read" }),
  noPlan: (outcome: string) => ({ what: `this says how planning ended (${outcome}), and holds no plan` }),
  otherCurrency: (planned: string, now: string) => ({
    what: `the plan is in ${planned}, the scenario in ${now}`,
  }),
  /** What another room says that cannot be. */
  impossible: (what: string) => ({ what }),
  ofAnotherScenario: (what: string) => ({
    what,
    remedy: "Write the scenario as it was when this plan was kept, or plan and keep it again",
  }),
  outOfOrder: (date: string) => ({ what: `${date} lies before the service before it` }),
  serviceTwice: (name: string) => ({ what: `there are two services named ${name}` }),
  wasteGiven: (name: string) => ({ what: `${name} gives to people, and this is waste` }),
  givenToNobody: (name: string) => ({ what: `${name} gives to nobody, and this is given away` }),
  portionsOpen: (eaten: number, over: number, all: number) => ({
    what: `${eaten} portions eaten and ${over} over are not ${all}`,
  }),
  servedOpen: (served: number, eaten: number) => ({
    what: `${served} portions served are not ${eaten} eaten`,
  }),
  sentOpen: (sent: number, over: number) => ({ what: `${sent} portions sent are not ${over} over` }),
  notEmpty: (kind: string, name: string, gap: Weight) => ({
    what: `of the ${kind} ${name}, ${missing(gap)}, from what there is to where it goes`,
  }),
  wrongTotal: (stated: string, sum: string) => ({
    what: `${stated} is not ${sum}, the sum of its transfers`,
  }),
  accountOpen: (account: string, weight: Weight, money: Money) => ({
    what: `${account} ends with ${toGrams(weight).toFixed()} g and ${coins(money)}, and not with nothing`,
  }),
  weightsOpen: (gap: Weight) => ({ what: `${missing(gap)}, from what comes in to what goes out` }),
  moneyOpen: (into: Money, out: Money) => ({ what: `${coins(into)} come in and ${coins(out)} go out` }),
  peelAboveInedible: () => ({ what: "there is more avoidable peel than inedible" }),
});

const KINDS: Readonly<Record<string, string>> = {
  string: "text in quotes",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "a group of fields",
};

function coins(money: Money): string {
  return toCurrency(money).toFixed(2);
}

function missing(gap: Weight): string {
  const weight = toGrams(gap < 0n ? minus(NO_WEIGHT, gap) : gap).toFixed();
  return gap > 0n ? `${weight} g are missing` : `${weight} g are too much`;
}
