import type { Difference, WorthJson } from "../../contract/index.js";
import type { Scenario } from "../../kitchen/index.js";
import { grams, type Money, money, NO_MONEY, NO_WEIGHT, type Weight } from "../../quantity/index.js";
import { changeText } from "../changes.js";
import { coins, listed, type Writing } from "../writing.js";

type PartWorth = WorthJson["parts"][number];

/** What a changed plan has more or less of: "waste +100 g", "spend −£0.24"; each a line. Nothing where it was not asked. */
export function differenceLines(
  difference: Difference | null,
  scenario: Scenario,
  writing: Writing,
): string[] {
  if (difference === null) return [];
  if (difference.kind === "no plan") return ["no plan"];
  if (difference.kind === "no answer") return ["not known"];
  const { waste, netSpend, aim, proved } = difference;
  const lines = [
    ...signedWeight("waste", grams(waste), scenario, writing),
    ...signedMoney("spend", money(netSpend), scenario, writing),
    ...(scenario.aim === "balanced" ? signedMoney("together", money(aim), scenario, writing) : []),
  ];
  return [...(lines.length === 0 ? ["no change"] : lines), ...(proved ? [] : ["not proved"])];
}

/** What else is bought: "Buy 3 heads of leek, 1 more". */
export function purchaseLines(difference: Difference | null, writing: Writing): string[] {
  return difference?.kind === "plan" ? difference.purchases.map((change) => changeText(change, writing)) : [];
}

/** "These 400 g save £1.80; beyond 650 g they are waste." Empty where neither is known. */
export function partSentence(
  { weight, without, mostUsed }: PartWorth,
  scenario: Scenario,
  writing: Writing,
): string {
  const most = mostUsed === null ? null : grams(mostUsed);
  if (most === NO_WEIGHT) return "No dish takes it.";
  const amount = writing.weight(grams(weight));
  const beyond = most === null ? "" : `beyond ${writing.weight(most)} there is no use for it`;
  const saved =
    grams(weight) === NO_WEIGHT || without === null ? "" : savingText(amount, without, scenario, writing);
  const text = [saved, beyond].filter((each) => each !== "").join("; ");
  return text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

function savingText(amount: string, without: Difference, scenario: Scenario, writing: Writing): string {
  if (without.kind === "no plan") return `there is no plan without these ${amount}`;
  if (without.kind === "no answer") return "";
  const [spend = NO_MONEY] = coins([money(without.netSpend)], scenario);
  const waste = grams(without.waste);
  const saved = [
    ...(spend > NO_MONEY ? [writing.money(spend)] : []),
    ...(isShown(waste, scenario) && waste > NO_WEIGHT ? [`${writing.weight(waste)} of waste`] : []),
  ];
  return saved.length === 0 ? `these ${amount} save nothing` : `these ${amount} save ${listed(saved)}`;
}

function signedWeight(what: string, weight: Weight, scenario: Scenario, writing: Writing): string[] {
  return isShown(weight, scenario) ? [`${what} ${sign(weight)}${writing.weight(absolute(weight))}`] : [];
}

function signedMoney(what: string, amount: Money, scenario: Scenario, writing: Writing): string[] {
  const [coin = amount] = coins([absolute(amount)], scenario);
  return coin === NO_MONEY ? [] : [`${what} ${sign(amount)}${writing.money(coin)}`];
}

/** Less than half a step of the scale is no change. */
function isShown(weight: Weight, { scaleStep }: Scenario): boolean {
  return 2n * absolute(weight) >= scaleStep;
}

function sign(amount: bigint): string {
  return amount < 0n ? "\u2212" : "+";
}

function absolute<T extends Weight | Money>(amount: T): T {
  return (amount < 0n ? -amount : amount) as T;
}
