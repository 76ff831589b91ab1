import type { Service } from "../../kitchen/index.js";
import { type Decimal, minus, type Weight } from "../../quantity/index.js";
import { wordings } from "../../reading/index.js";
import { aOr, gramsText, listText, meantOr, moneyText, percentText, weightText } from "./figures.js";

export interface Unit {
  readonly name: string;
  readonly weight: Weight;
}

export const ingredients = wordings("scenario", {
  noItems: () => ({
    what: "the scenario buys and holds nothing",
    remedy: "Add an item under `items:`, such as `marrow: {price: 1.35 / head}`",
  }),
  unknownItem: (name: string, meant: string | null) => ({
    what: `no yield table holds \`${name}\``,
    remedy: meantOr(meant, "Give it `breakdowns:` of its own"),
  }),
  handlingStays: (name: string, handling: string) => ({
    what: `\`${name}\` is food of animals by the yield tables, and is handled and dated as such`,
    remedy: `Write \`handling: ${handling}\`, or leave it out`,
  }),
  formOfUnknown: (name: string, of: string, meant: string | null) => ({
    what: `\`${name}\` is another form of \`${of}\`, which neither the tables nor this scenario hold`,
    remedy: meantOr(meant, `Write an item of either, or leave \`of:\` out`),
  }),
  formWithoutYields: (name: string, of: string) => ({
    what: `no yield table holds \`${of}\`, so nothing tells how \`${name}\` yields`,
    remedy: "Give it `breakdowns:` of its own",
  }),
  formOfForm: (of: string, root: string) => ({
    what: `\`${of}\` is itself a form of \`${root}\``,
    remedy: `Write \`of: ${root}\``,
  }),
  whichForm: (name: string, forms: readonly string[]) => ({
    what: `the tables hold \`${name}\` in several forms`,
    remedy: `Add \`form:\` with one of: ${listText(forms)}`,
  }),
  unknownForm: (name: string, form: string, meant: string | null, forms: readonly string[]) => ({
    what: `the tables hold no form \`${form}\` of \`${name}\``,
    remedy: meantOr(meant, `Write one of: ${listText(forms)}`),
  }),
  noUnitWeight: (name: string, unit: string) => ({
    what: `what ${unit === "each" ? "one" : aOr(unit)} of \`${name}\` weighs is not known`,
    remedy: "Add `unit_weight:`, such as `unit_weight: 620 g`, or write the price for a weight",
  }),
  noPrice: (name: string, unit: string) => ({
    what: `\`${name}\` has no price`,
    remedy: `Add \`price:\`, such as \`price: 1.35 / ${unit}\`, or \`buy: no\``,
  }),
  breakOfOtherUnit: (from: number, found: string, ordered: string) => ({
    what: `the price from ${from} on is for ${aOr(found)}, and what is ordered is ${aOr(ordered)}`,
    remedy: `Write it for ${aOr(ordered)}, or the other unit as an item of its own with \`of:\``,
  }),
  breakNotLower: (from: number, price: Decimal, before: Decimal) => ({
    what: `the price from ${from} on, ${moneyText(price)}, is not below the ${moneyText(before)} before it`,
    remedy: "Write the lower prices of larger orders only",
  }),
  unknownSupplier: (name: string, meant: string | null, names: readonly string[]) => ({
    what: `no item is bought from a supplier \`${name}\``,
    remedy: meantOr(
      meant,
      names.length === 0
        ? `Write \`supplier: ${name}\` at the items that come from there`
        : `Write one that items name: ${listText(names)}`,
    ),
  }),
  supplierNotListed: (name: string, meant: string) => ({
    what: `\`${name}\` is not among the \`suppliers:\` at the top, and comes near one that is`,
    remedy: `Did you mean \`${meant}\`? If it is another, add \`${name}: {}\` there`,
  }),
  wrongUnit: (name: string, priced: string, counted: string, amount: Decimal, isSlip: boolean) => ({
    what: `the price is for ${aOr(priced)}, and \`${name}\` is counted by the ${counted}`,
    remedy: isSlip
      ? `Did you mean \`${amount.toFixed()} / ${counted}\`?`
      : `Write \`${amount.toFixed()} / ${counted}\`, or the price for a weight`,
  }),
  barePack: (pack: string, amount: Decimal) => ({
    what: `the price is for ${aOr(pack)}, and how many that holds is not said`,
    remedy: `Write how many, such as \`${amount.toFixed()} / ${pack} of 6\`, or the price of one`,
  }),
  packByWeight: (pack: string, unit: Unit, count: Decimal, amount: Decimal) => ({
    what: `a ${pack} is priced by weight, and whole units are bought by count`,
    remedy: count.isZero()
      ? `Write the price of one ${unit.name}, which weighs ${weightText(unit.weight)}`
      : `Write how many it holds, such as \`${amount.toFixed()} / ${pack.split(" of ")[0]} of ${count.toFixed()}\``,
  }),
  itemByVolume: (name: string) => ({
    what: `\`${name}\` is priced by volume, and what that weighs is not known`,
    remedy: "Write the price for a weight, such as `4.00 / kg`",
  }),
  orderInNotLoose: (name: string) => ({
    what: `\`order_in\` is for what is cut and priced by weight, and \`${name}\` is not`,
    remedy: "Leave it out, or write the price for a weight",
  }),
  noKeeps: (name: string) => ({
    what: `how long \`${name}\` keeps is not known, and the plan runs over more than one day`,
    remedy: "Add `keeps:`, such as `keeps: 5 days`",
  }),
  deliveryTooLate: (date: string, last: Service) => ({
    what: `nothing is served after a delivery on ${date}`,
    remedy: `Write ${last.date}, the date of the last service, or an earlier one`,
  }),
  spoiltBeforeUse: (name: string, keeps: number) => ({
    what: `\`${name}\` keeps ${days(keeps)} and would be past it at the service after its delivery`,
    remedy: "Write a later delivery, or a longer `keeps:`",
  }),
  noUseBy: () => ({
    what: "the stock has no use-by date",
    remedy: "Add `use_by:`, such as `use_by: 2026-10-03`",
  }),
  useByPast: (useBy: string, first: Service) => ({
    what: `the use-by date ${useBy} is past before ${first.name} on ${first.date}`,
    remedy: "Take the stock out of the plan, or correct the date",
  }),
  partOfUnit: (held: string, unit: Unit, count: Decimal) => ({
    what: `${held} is no whole number of units of ${weightText(unit.weight)}`,
    remedy: `Write whole units, such as \`${count.toFixed()} ${unit.name}\``,
  }),
  looseOnHand: () => ({
    what: "what is cut by weight is held by weight",
    remedy: "Write a weight, such as `1.2 kg`",
  }),
  wrongHeldUnit: (written: string, counted: string, units: Decimal) => ({
    what: `\`${written}\` is neither a weight nor how this item is counted`,
    remedy: `Write \`${units.toFixed()} ${counted}\`, or a weight such as \`1.2 kg\``,
  }),
  unknownBreakdown: (item: string, name: string, meant: string | null, names: readonly string[]) => ({
    what: `\`${item}\` has no breakdown \`${name}\``,
    remedy: meantOr(meant, `Write some of: ${listText(names)}`),
  }),
  noParts: (item: string) => ({
    what: `the breakdown gives no part of \`${item}\``,
    remedy: "Write the parts and their weights, such as `ring: 480 g`",
  }),
  emptyPart: (name: string) => ({
    what: `\`${name}\` is nothing of the whole`,
    remedy: "Write more than zero, or leave it out",
  }),
  mixedYields: () => ({
    what: "some parts are given by weight and some in percent",
    remedy: "Write all of them, and the loss, one way",
  }),
  weightsOpen: (unit: Unit, sum: Weight) => ({
    what: `parts and loss are ${gramsText(sum)} and the unit is ${gramsText(unit.weight)}: ${
      sum < unit.weight
        ? `${gramsText(minus(unit.weight, sum))} are missing`
        : `${gramsText(minus(sum, unit.weight))} are too much`
    }`,
    remedy: sum < unit.weight ? "Add them to a part or to `loss`" : "Take them from a part or from `loss`",
  }),
  percentsOpen: (sum: Decimal) => ({
    what: `parts and loss are ${percentText(sum)}: ${
      sum.lessThan(1)
        ? `${percentText(sum.negated().plus(1))} are missing`
        : `${percentText(sum.minus(1))} are too much`
    }`,
    remedy: sum.lessThan(1) ? "Add them to a part or to `loss`" : "Take them from a part or from `loss`",
  }),
  unknownPiece: (name: string, meant: string | null, parts: readonly string[]) => ({
    what: `the breakdown gives no part \`${name}\``,
    remedy: meantOr(meant, `Write one of: ${listText(parts)}`),
  }),
  noPieces: (name: string) => ({
    what: `\`${name}\` has no pieces`,
    remedy: "Write how many pieces one unit gives, or leave it out",
  }),
  unknownPart: (name: string, meant: string | null) => ({
    what: `no breakdown, step or table gives a part \`${name}\``,
    remedy: meantOr(meant, "Write the item and the part, such as `marrow ring`"),
  }),
  itemForPart: (item: string, parts: readonly string[]) => ({
    what: `\`${item}\` is an item, and a part of it belongs here`,
    remedy: `Write one of its parts: ${listText(parts.slice(0, MOST_NAMED))}${parts.length > MOST_NAMED ? " ..." : ""}`,
  }),
  classesDiffer: (name: string, first: string, second: string) => ({
    what: `\`${name}\` is ${first} in one place and ${second} in another`,
    remedy: "Give it one class, or two names",
  }),
  piecesDiffer: (name: string, first: Weight, second: Weight) => ({
    what: `one piece of \`${name}\` weighs ${gramsText(first)} by one breakdown and ${gramsText(second)} by another`,
    remedy: "Give the two sizes different names",
  }),
  piecesOfFormsDiffer: (
    name: string,
    [one, first]: readonly [string, Weight],
    [other, second]: readonly [string, Weight],
  ) => ({
    what: `one piece of \`${name}\` weighs ${gramsText(first)} from \`${one}\` and ${gramsText(second)} from \`${other}\``,
    remedy: `Leave \`of:\` out and give \`${other}\` \`breakdowns:\` of its own, so that the two sizes have different names`,
  }),
  neverStays: (name: string) => ({
    what: `\`${name}\` must not be eaten, and no scenario can make it otherwise`,
    remedy: "Leave its class out",
  }),
  cookedStays: (name: string, source: string) => ({
    what: `\`${name}\` is made of \`${source}\`, which is cooked: it is cooked food, and dated as such`,
    remedy: "Leave its state out",
  }),
  partNotMade: (name: string) => ({
    what: `no breakdown or step in use gives \`${name}\``,
    remedy: "Let one of them give it, so that its class and allergens are known",
  }),
  stepGivesNothing: () => ({
    what: "the step gives nothing",
    remedy: "Write what it gives, such as `gives: {marrow dice: 100 %}`",
  }),
  stepOpen: (sum: Decimal, whole: Decimal) => ({
    what: `what it gives and the loss are ${percentText(sum)} of what is taken, and with the water they should be ${percentText(whole)}: ${
      sum.lessThan(whole)
        ? `${percentText(whole.minus(sum))} are missing`
        : `${percentText(sum.minus(whole))} are too much`
    }`,
    remedy: "Correct `gives`, `loss` or `water`",
  }),
  circle: (parts: readonly string[]) => ({
    what: `the steps run in a circle: ${parts.join(", then ")}`,
    remedy: "Leave one of these steps out: a part may be downgraded, never upgraded",
  }),
  keepsTooShort: (name: string) => ({
    what: `\`${name}\` keeps only the day itself, so none can be kept past the plan`,
    remedy: "Write how long it keeps, such as `keeps: 3 days`, or leave `keep` out",
  }),
  keepAboveCost: (value: Decimal, cost: Decimal) => ({
    what: `${moneyText(value)} a kilogram is above the ${moneyText(cost)} that it may cost, so hoarding it would pay`,
    remedy: `Write at most \`${cost.toDecimalPlaces(2, 1).toFixed(2)} / kg\``,
  }),
  noCredits: (costing: string) => ({
    what: `costing by ${costing} needs the market value of parts, and none is stated`,
    remedy: "Add `credit:` to parts, such as `marrow ring: {credit: 3.00 / kg}`",
  }),
});

/** Parts named of an item that stands where a part belongs. */
const MOST_NAMED = 8;

function days(count: number): string {
  return count === 1 ? "1 day" : `${count} days`;
}
