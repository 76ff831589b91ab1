import type { FormChoiceJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import {
  amountOf,
  arithmeticText,
  bestText,
  cheapestText,
  formName,
  minutesText,
  plansText,
  type Writing,
  writingFor,
} from "../pages/index.js";
import { Decimal, grams, money } from "../quantity/index.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";

type Plans = NonNullable<FormChoiceJson["plans"]>;

/** Prints the forms side by side, by usable weight and by plans, each with its break-even said. */
export function printFormChoice(choice: FormChoiceJson, scenario: Scenario, terminal: Terminal): void {
  const writing = writingFor(scenario);
  const cost = (text: string): string => writing.money(money(new Decimal(text)));
  const say = (text: string): void => {
    for (const line of wrapped(text, terminal.columns - 4, "  ", "    ")) terminal.print(line);
  };
  const wage = choice.wage === null ? "" : `, hands at ${cost(choice.wage)} an hour`;
  terminal.print(terminal.heading(`${choice.item}: which form to buy`));
  say(cheapestText(choice, writing));
  for (const form of choice.forms) {
    const price = form.unit === "kg" ? "" : ` (${cost(form.price)} a ${form.unit})`;
    say(
      `${formName(form.item, choice)}, ${form.breakdown}: ${cost(form.pricePerKilogram)} a kg${price}, ${writing.rate(new Decimal(form.usable))} usable, ${cost(form.usableCost)} a usable kg${wage}`,
    );
  }
  for (const form of choice.forms) {
    for (const text of [arithmeticText(form, choice, writing), minutesText(form, choice, writing)])
      if (text !== "") say(text);
  }
  if (choice.plans === null) return;
  terminal.print(terminal.heading(`Planned: ${choice.scenario ?? ""}`));
  say(bestText(choice, writing));
  for (const way of choice.plans.ways) say(wayText(way, choice, writing));
  for (const each of choice.plans.breakEvens) say(plansText(each, choice, writing));
}

function wayText(
  { item, outcome, proved, figures }: Plans["ways"][number],
  choice: FormChoiceJson,
  writing: Writing,
): string {
  const cost = (text: string): string => writing.money(money(new Decimal(text)));
  const name = item === null ? "Choice free" : `${formName(item, choice)} alone`;
  if (figures === null)
    return `${name}: ${outcome === "no plan" ? "no plan; that is proved" : "not settled in the time"}`;
  const bought = figures.bought.map(({ units, unit, item: each }) =>
    amountOf(writing, units, unit, formName(each, choice)),
  );
  const perUsed = figures.costPerUsed === null ? "" : `, ${cost(figures.costPerUsed)} a kg used`;
  const hands = figures.wageCost === null ? "" : ` for ${cost(figures.wageCost)}`;
  return `${name}${proved ? "" : " (best found)"}: buy ${bought.join(" and ") || "nothing"}; spend ${cost(figures.netSpend)} in all, waste ${writing.weight(grams(figures.waste))}, use ${writing.weight(grams(figures.used))} of it${perUsed}; ${writing.decimal(new Decimal(figures.minutes), 0)} min of cutting${hands}`;
}
