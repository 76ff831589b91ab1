import type { FormChoiceJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import {
  arithmeticText,
  bestText,
  boughtText,
  breakEvenHead,
  cheapestText,
  costText,
  formName,
  minutesText,
  plansText,
  rateText,
  type Writing,
  wantedText,
  withHandsOf,
  writingFor,
} from "../pages/index.js";
import { Decimal, grams } from "../quantity/index.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";

type Plans = NonNullable<FormChoiceJson["plans"]>;

/** Prints the forms side by side, by usable weight and by plans, each with its break-even said. */
export function printFormChoice(choice: FormChoiceJson, scenario: Scenario, terminal: Terminal): void {
  const writing = writingFor(scenario);
  const say = (text: string): void => {
    for (const line of wrapped(text, terminal.columns - 4, "  ", "    ")) terminal.print(line);
  };
  const kg = writing.largeUnit;
  const wage = choice.wage === null ? "" : `; hands at ${costText(choice.wage, writing)} an hour`;
  terminal.print(terminal.heading(`${choice.item}: which form to buy`));
  say(cheapestText(choice, writing));
  say(`Usable: ${wantedText(choice)}${wage}.`);
  for (const form of choice.forms) {
    const price = form.unit === kg ? "" : ` (${costText(form.price, writing)} a ${form.unit})`;
    say(
      `${formName(form.item, choice)}, ${form.breakdown}: ${rateText(form.pricePerKilogram, writing)} a ${kg}${price}, ${writing.rate(new Decimal(form.usable))} usable, ${rateText(form.usableCost, writing)} a usable ${kg}`,
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
  if (choice.plans.breakEvens.length > 0) terminal.print(terminal.heading(breakEvenHead(choice.plans.aim)));
  for (const each of choice.plans.breakEvens) say(plansText(each, choice, writing));
}

function wayText(
  { item, outcome, proved, figures }: Plans["ways"][number],
  choice: FormChoiceJson,
  writing: Writing,
): string {
  const cost = (text: string): string => costText(text, writing);
  const name = item === null ? "Choice free" : `${formName(item, choice)} alone`;
  if (figures === null)
    return `${name}: ${outcome === "no plan" ? "no plan; that is proved" : "not settled in the time"}`;
  const bought = figures.bought.map((each) => boughtText(each, choice, writing));
  const perUsed =
    figures.costPerUsed === null
      ? ""
      : `, ${rateText(figures.costPerUsed, writing)} a ${writing.largeUnit} used`;
  const hands = withHandsOf(figures).map(
    (total) => ` for ${cost(figures.wageCost ?? "0")}, ${cost(total.toFixed())} with the spend`,
  );
  return `${name}${proved ? "" : " (best found)"}: buy ${bought.join(" and ") || "nothing"}; spend ${cost(figures.netSpend)} in all, waste ${writing.weight(grams(figures.waste))}, use ${writing.weight(grams(figures.used))} of it${perUsed}; ${writing.decimal(new Decimal(figures.minutes), 0)} min of cutting${hands.join("")}`;
}
