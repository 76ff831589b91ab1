import { readScenario, type Scenario } from "../kitchen/index.js";
import { kitchenYields, type OwnTestsFile } from "../kitchen-files/index.js";
import { didYouMean } from "../reading/index.js";
import { resolveScenario } from "../scenario/index.js";
import type { TableItem } from "../yields/index.js";

/** What the forms of an item cost, as given on the command line. */
export interface AskedPrices {
  /** As the tables call it. */
  readonly item: string;
  /** "FORM=PRICE" each, the price as scenario files write it. */
  readonly prices: readonly string[];
  /** Names of parts wanted, with or without the item's. */
  readonly wanted: readonly string[];
  /** "PART=PRICE" each: what a weight of trim is worth to this kitchen. */
  readonly credits: readonly string[];
  readonly currency: string;
}

export interface PricedAtHand {
  /** Every form as an item; null where there are problems. */
  readonly scenario: Scenario | null;
  /** Full names. */
  readonly wanted: readonly string[];
  readonly problems: readonly string[];
}

/** A price by which pounds are spoken of. */
const BY_POUND = /\b(?:lbs?|pounds?|oz|ounces?)\b/;
/** A day for a scenario that is not planned. */
const ANY_DAY = "2026-01-01";

/** The forms with the yields of the tables, or of the kitchen's own tests, as items of a scenario that plans nothing. */
export function formsAtPrices(
  asked: AskedPrices,
  forms: readonly TableItem[],
  ownTests: OwnTestsFile | null,
): PricedAtHand {
  const { item, prices, credits } = asked;
  const known = foodPartsOf(forms);
  const { tables } = kitchenYields(ownTests);
  const problems: string[] = [];
  const full = (name: string, where: string): string[] => {
    const part = known.find((each) => each === name || each === `${item} ${name}`);
    if (part !== undefined) return [part];
    const meant = didYouMean(name, [...known, ...known.map((each) => each.slice(item.length + 1))]);
    const remedy = meant === null ? `Write one of: ${known.join(", ")}` : `Did you mean "${meant}"?`;
    problems.push(`${where}: no form of ${item} gives a part for eating called "${name}". ${remedy}`);
    return [];
  };
  const wanted = asked.wanted.flatMap((name) => full(name, `--want ${name}`));
  const credited = credits.flatMap((written) => {
    const { name, price } = named(written);
    return full(name, `--credit "${written}"`).map((part) => `${quoted(part)}: {credit: ${quoted(price)}}`);
  });
  const asForms = prices.map((written) => named(written).name);
  for (const form of new Set(asForms.filter((each, index) => asForms.indexOf(each) < index)))
    problems.push(`--price "${form}=..." is given more than once. Write one price for each form.`);
  const scenarios = prices.flatMap((written) => {
    const { name: form, price } = named(written);
    const own = forms.filter((each) => each.form === form);
    const text = scenarioText(asked, { form, price }, foodPartsOf(own.length > 0 ? own : forms), credited);
    const found = resolveScenario(readScenario({ file: "", text }), tables);
    for (const { what, remedy } of found.problems) problems.push(`--price "${written}": ${what}. ${remedy}`);
    return found.scenario ?? [];
  });
  const [first] = scenarios;
  if (first === undefined || problems.length > 0) return { scenario: null, wanted, problems };
  const parts = new Map(scenarios.flatMap((each) => each.parts.map((part) => [part.name, part] as const)));
  const items = scenarios.flatMap((each) => each.items);
  return { scenario: { ...first, items, parts: [...parts.values()] }, wanted, problems };
}

function foodPartsOf(forms: readonly TableItem[]): string[] {
  const parts = forms.flatMap(({ breakdowns }) => breakdowns.flatMap((each) => each.parts));
  return [...new Set(parts.filter((each) => each.class === "food").map(({ part }) => part))];
}

function scenarioText(
  { item, currency, prices }: AskedPrices,
  { form, price }: { form: string; price: string },
  parts: readonly string[],
  credited: readonly string[],
): string {
  const entry = `{of: ${quoted(item)}, form: ${quoted(form)}, price: ${quoted(price)}}`;
  return [
    `scenario: ${quoted(item)}`,
    `currency: ${quoted(currency)}`,
    ...(prices.some((written) => BY_POUND.test(written)) ? ["scale_step: 0.1 oz"] : []),
    `services: [{name: any, date: ${ANY_DAY}}]`,
    `items: {${quoted(`${item}, ${form}`)}: ${entry}}`,
    ...(credited.length === 0 ? [] : [`parts: {${credited.join(", ")}}`]),
    `dishes: {any: {portions: 1, lines: [{amount: 1 kg, from: [${parts.map(quoted).join(", ")}]}]}}`,
  ].join("\n");
}

function named(written: string): { name: string; price: string } {
  const at = written.indexOf("=");
  return at < 0
    ? { name: written.trim(), price: "" }
    : { name: written.slice(0, at).trim(), price: written.slice(at + 1).trim() };
}

/** JSON is YAML. */
function quoted(text: string): string {
  return JSON.stringify(text);
}
