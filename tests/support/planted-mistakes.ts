/** A mistake to plant in `TWO_MARROW_DISHES`: what is written, what stands there instead, and the one problem it makes. */
export interface Mistake {
  readonly name: string;
  readonly sound: string;
  readonly planted: string;
  /** From the column on; the line is that of the planted text's first changed line plus `down`. */
  readonly problem: string;
  readonly down?: number;
}

/** Mistakes that do not touch one another, so that all of them may be planted at once. In file order. */
export const MISTAKES: readonly Mistake[] = [
  {
    name: "unknown currency",
    sound: "currency: GBP",
    planted: "currency: GPB",
    problem: "11: `GPB` is no currency of ISO 4217. Did you mean `GBP`?",
  },
  {
    name: "price for the wrong thing",
    sound: "waste_price: 4.00 / kg",
    planted: "waste_price: 4.00 / head",
    problem: "14: `4.00 / head` is not a price for a weight. Write a price for a weight, such as `4.00 / kg`",
  },
  {
    name: "unknown key",
    sound: "prices_include_tax: no",
    planted: "price_include_tax: no",
    problem: "1: `price_include_tax` is no key that is known here. Did you mean `prices_include_tax`?",
  },
  {
    name: "service called like another",
    sound: "- {name: Saturday lunch",
    planted: "- {name: Friday dinner",
    problem:
      "12: a service called `Friday dinner` stands on line 15 already. Give each service a name of its own",
  },
  {
    name: "diet for more than are expected",
    sound: "vegetarian: 14",
    planted: "vegetarian: 140",
    problem: "25: 140 covers need vegetarian, and only 61 are expected. Write at most 61",
  },
  {
    name: "price below zero",
    sound: "    price: 1.35 / head",
    planted: "    price: -1.35 / head",
    problem:
      "12: `-1.35` is below zero. Write a price and what it is for, such as `1.35 / head`, `4.00 / kg` or `8.40 / case of 6`",
  },
  {
    name: "delivery after the last service",
    sound: "[2026-10-01, 2026-10-03]",
    planted: "[2026-10-01, 2026-10-13]",
    problem:
      "30: nothing is served after a delivery on 2026-10-13. Write 2026-10-03, the date of the last service, or an earlier one",
  },
  {
    name: "use-by date in the past",
    sound: "value: 1.20, use_by: 2026-10-03",
    planted: "value: 1.20, use_by: 2026-09-03",
    problem:
      "52: the use-by date 2026-09-03 is past before Friday dinner on 2026-10-02. Take the stock out of the plan, or correct the date",
  },
  {
    name: "breakdown that does not close",
    sound: "          dice: 500 g",
    planted: "          dice: 470 g",
    problem:
      "7: parts and loss are 1370 g and the unit is 1400 g: 30 g are missing. Add them to a part or to `loss`",
    down: -3,
  },
  {
    name: "percents above the whole",
    sound: "peel: 28.5 %",
    planted: "peel: 30 %",
    problem: "7: parts and loss are 101.5 %: 1.5 % are too much. Take them from a part or from `loss`",
    down: -1,
  },
  {
    name: "bad unit",
    sound: "stem: 280 g",
    planted: "stem: 280 gm",
    problem: "43: `gm` is not a unit that is known here. Did you mean `g`?",
  },
  {
    name: "misspelt part in its facts",
    sound: "  spinach stem: {class: inedible}",
    planted: "  spinach stem: {class: inedible}\n  marow dice: {keeps: 2 days}",
    problem: "3: no breakdown, step or table gives a part `marow dice`. Did you mean `marrow dice`?",
    down: 1,
  },
  {
    name: "step that does not close",
    sound: "    loss: 2 %",
    planted: "    loss: 1 %",
    problem:
      "3: what it gives and the loss are 99 % of what is taken, and with the water they should be 100 %: 1 % are missing. Correct `gives`, `loss` or `water`",
    down: -3,
  },
  {
    name: "misspelt part in a step",
    sound: "[marrow peel, spinach stem]",
    planted: "[marrow peal, spinach stem]",
    problem: "12: no breakdown, step or table gives a part `marrow peal`. Did you mean `marrow peel`?",
  },
  {
    name: "ceiling that is no number",
    sound: "ceiling: 0.95",
    planted: "ceiling: under a pound",
    problem:
      "14: `under a pound` is not an amount of money. Write a plain number in the scenario's currency, such as `0.85`",
  },
  {
    name: "least above most",
    sound: "150 to 170 g",
    planted: "170 to 150 g",
    problem: "17: the least, 170 g, is above the most, 150 g. Write the smaller one first: `150 g to 170 g`",
  },
  {
    name: "misspelt part in a dish",
    sound: "        from: marrow dice",
    planted: "        from: marrow dcie",
    problem: "15: no breakdown, step or table gives a part `marrow dcie`. Did you mean `marrow dice`?",
  },
  {
    name: "amount of nothing",
    sound: "amount: 30 g cooked",
    planted: "amount: 0 g cooked",
    problem: "17: `0 g cooked` is nothing. Write more than zero, or leave it out",
  },
  {
    name: "staple priced by another measure",
    sound: "amount: 10 g, price: 9.00 / kg",
    planted: "amount: 10 g, price: 9.00 / L",
    problem:
      "37: the price of `butter` is for another measure than its amount. Write the price for a weight, such as `4.00 / kg`, or the amount as the price is",
  },
  {
    name: "unknown course",
    sound: "    course: side",
    planted: "    course: sdie",
    problem: "13: no service has a course `sdie`. Did you mean `side`?",
  },
  {
    name: "shares that can never fill the line",
    sound: "share: 50 to 100 %",
    planted: "share: 50 to 90 %",
    problem:
      "9: the greatest shares add up to 90 %, so the line can never be full. Write shares whose greatest add up to 100 % or more",
    down: -1,
  },
  {
    name: "whole number that is none",
    sound: "portions: 20 to 30",
    planted: "portions: 20 to many",
    problem: "15: `many` is not a number. Write a whole number or two, such as `24` or `20 to 40`",
  },
  {
    name: "inedible parts given to people",
    sound: "takes: [food, portions], limit",
    planted: "takes: [food, inedible], limit",
    problem:
      "41: `staff meal` is given away, and inedible parts are not given to people. Write `takes: [food, portions]`, or another kind",
  },
  {
    name: "animal feed without a rule that allows it",
    sound: '{kind: animal feed, local_rules_allow: "County notice 12 of 2025"}',
    planted: "{kind: animal feed}",
    problem:
      "3: `animal feed` feeds animals, which is blocked until the kitchen states that its local rules allow it. Add `local_rules_allow:` with the rule or notice that does, or leave it out",
  },
  {
    name: "kind that is none",
    sound: "compost: {kind: waste,",
    planted: "compost: {kind: wast,",
    problem:
      "19: `wast` cannot stand here. Did you mean `waste`? Write one of: given away, animal feed, biomaterial, anaerobic digestion, compost, controlled combustion, land application, landfill, refuse, sewer, waste",
  },
];

export function plant(text: string, { sound, planted, name }: Mistake): string {
  if (text.split(sound).length !== 2) throw new Error(`${name}: the text to change must stand there once`);
  return text.replace(sound, planted);
}

/** The problem as printed, for a mistake planted in a text. */
export function expected(text: string, { planted, problem, down = 0 }: Mistake): string {
  const lead = planted.length - planted.replace(/^\s+/, "").length;
  const line = text.slice(0, text.indexOf(planted) + lead).split("\n").length;
  return `t.yaml:${line + down}:${problem}`;
}
