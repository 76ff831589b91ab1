import { Decimal, grams, toGrams, type Weight } from "../../quantity/index.js";
import { MOST } from "../../reading/index.js";

const KILOGRAM = grams("1000");

/** A weight as a cook writes it in the file: `620 g`, `2 kg`. */
export function weightText(weight: Weight): string {
  const whole = weight !== 0n && weight % KILOGRAM === 0n;
  return whole ? `${toGrams(weight).div(1000).toFixed()} kg` : `${toGrams(weight).toFixed()} g`;
}

/** Always in grams, for sums that a reader checks against the lines above. */
export function gramsText(weight: Weight): string {
  return `${toGrams(weight).toFixed()} g`;
}

export function percentText(fraction: Decimal): string {
  return `${fraction.times(100).toDecimalPlaces(6).toFixed()} %`;
}

/** Money to the cent, or to a hundredth of it where that says more; rounded down, so that it may be written back. */
export function moneyText(amount: Decimal): string {
  const shown = amount.toDecimalPlaces(4, Decimal.ROUND_DOWN);
  return shown.decimalPlaces() < 2 ? shown.toFixed(2) : shown.toFixed();
}

/** "a head", "an egg". */
export function aOr(name: string): string {
  return `${/^[aeio]/i.test(name) ? "an" : "a"} ${name}`;
}

/** "Did you mean `x`", or else the other remedy. */
export function meantOr(meant: string | null, remedy: string): string {
  return meant === null ? remedy : `Did you mean \`${meant}\`?`;
}

/** Names in a row; of very many, the first, and how many more there are. */
export function listText(names: readonly string[]): string {
  const rest = names.length - MOST.listed;
  const listed = names.slice(0, MOST.listed).map((name) => `\`${name}\``);
  return [...listed, ...(rest > 0 ? [`and ${rest} more`] : [])].join(", ");
}
