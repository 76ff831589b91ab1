import type { Difference, WorthJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { Decimal, grams, type Money, money, NO_MONEY, NO_WEIGHT, type Weight } from "../quantity/index.js";
import { changeText } from "./changes.js";
import type { Document } from "./document.js";
import { datesText, servicesText } from "./view.js";
import { amountOf, coins, counted, listed, type Writing, writingFor } from "./writing.js";

type Lines = { readonly lines: readonly string[]; readonly subs?: readonly string[] };

const CHANGE = { width: "half", unbroken: true } as const;

/** What each part, item and dish is worth: what the plan would waste and spend without it, or with more. */
export function worthDocument(worth: WorthJson, scenario: Scenario): Document {
  const writing = writingFor(scenario);
  const lines = (difference: WorthJson["parts"][number]["more"]): Lines => ({
    lines: differenceLines(difference, scenario, writing),
  });
  const withPurchases = (difference: WorthJson["parts"][number]["more"]): Lines => ({
    ...lines(difference),
    subs: purchaseLines(difference, writing),
  });
  return {
    slug: "worth",
    title: "What it is worth",
    head: [scenario.name, servicesText(scenario), datesText(scenario, writing)],
    blocks: [
      { kind: "words", text: leadText(worth) },
      {
        kind: "table",
        caption: "Dishes: what each one changes",
        of: "Dish",
        columns: [
          { ...CHANGE, head: "Left out", width: "whole" },
          { ...CHANGE, head: "A portion more" },
          { ...CHANGE, head: "A portion less" },
        ],
        rows: worth.dishes.map(({ dish, portions, without, more, less }) => ({
          name: dish,
          sub: counted(writing, portions, "portion"),
          cells: [withPurchases(without), lines(more), lines(less)],
        })),
      },
      {
        kind: "table",
        caption: "Dishes the plan leaves out, if they were made",
        of: "Dish",
        columns: [{ ...CHANGE, head: "Made", width: "whole" }],
        rows: worth.candidates.map(({ dish, service, made }) => ({
          name: scenario.services.length > 1 ? `${dish}, ${service}` : dish,
          cells: [withPurchases(made)],
        })),
      },
      {
        kind: "table",
        caption: "Items: one more bought, one less",
        of: "Item",
        columns: [
          { ...CHANGE, head: "One more" },
          { ...CHANGE, head: "One less" },
        ],
        rows: worth.items.map(({ item, units, orderUnit, more, less }) => ({
          name: item,
          sub: units === 0 ? "none bought" : `${amountOf(writing, units, orderUnit, item)} bought`,
          cells: [lines(more), lines(less)],
        })),
      },
      {
        kind: "table",
        caption: "Parts: a little more in the house, a little taken for something else",
        of: "Part",
        columns: [
          { head: "Step", width: "whole" },
          { ...CHANGE, head: "One step more" },
          { ...CHANGE, head: "One step less" },
        ],
        rows: worth.parts
          .map((part) => ({ part, sub: partSentence(part, scenario, writing) }))
          .filter(({ part: { more, less }, sub }) => sub !== "" || more !== null || less !== null)
          .map(({ part, sub }) => ({
            name: part.part,
            sub,
            cells: [stepText(part.step, part.part, scenario, writing), lines(part.more), lines(part.less)],
          })),
      },
      { kind: "words", text: smallText(worth, writing), look: "quiet" },
    ],
  };
}

function leadText({ outcome }: WorthJson): string {
  if (outcome === "no plan")
    return "There is no plan to speak of: plan the scenario to see what would make one.";
  if (outcome === "no answer")
    return "No plan was found in the time. That is not a proof that there is none.";
  return "What the plan would waste and spend if one thing were otherwise, + more and − less.";
}

/** "100 g", or "1 piece" where the part moves whole. */
function stepText(step: string, part: string, { parts }: Scenario, writing: Writing): string {
  const isPiece = parts.some(({ name, pieceWeight }) => name === part && pieceWeight !== null);
  return isPiece ? counted(writing, new Decimal(1), "piece") : writing.weight(grams(step));
}

function smallText({ asked: { done, of }, outcome }: WorthJson, writing: Writing): string {
  if (outcome !== "worth") return "";
  const method =
    "Each figure is what two whole plans differ by: the scenario with one thing changed is planned again, starting from the plan in hand.";
  return done < of
    ? `${method} ${writing.count(done)} of ${writing.count(of)} questions were answered in the time; the others are left blank.`
    : method;
}

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
