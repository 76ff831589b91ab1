import { money } from "../../../src/quantity/index.js";
import { g } from "../../support/small-scenario.js";
import {
  asked,
  both,
  buying,
  cooking,
  destination,
  dish,
  item,
  limits,
  plan,
  prep,
  purchase,
  sent,
  service,
  step,
} from "./changes.js";
import { mg } from "./good-plan.js";
import type { Rule } from "./table.js";

/** Buying, money, destinations, and the limits of the house. */
export const HOUSE_RULES: readonly Rule[] = [
  {
    rule: "nothing is bought where buying is off",
    families: [],
    check: "buying",
    fault: /^potato: 1 bought where buying is off/,
    broken: item("potato", () => ({ buying: null })),
  },
  {
    rule: "things are bought when they are delivered",
    families: [],
    check: "buying",
    fault: /^potato: bought when nothing is delivered/,
    broken: buying("potato", { deliveries: [1] }),
  },
  {
    rule: "at least the least is ordered",
    families: ["buying"],
    check: "buying",
    fault: /^potato: 1 order units bought/,
    broken: buying("potato", { least: 2 }),
  },
  {
    rule: "at most the most is ordered",
    families: ["buying"],
    check: "buying",
    fault: /^leek: 3 order units bought/,
    broken: buying("leek", { most: 2 }),
  },
  {
    rule: "a purchase costs its price",
    families: [],
    check: "buying",
    fault: /^leek: its price is not 3 times its own/,
    broken: purchase("leek", { cost: money("5.9999") }),
  },
  {
    rule: "a purchase weighs its order units",
    families: [],
    check: "buying",
    fault: /^leek: its weight is not 3 times its order unit/,
    broken: item("leek", ({ orderUnit }) => ({ orderUnit: { ...orderUnit, weight: g(399) } })),
  },
  {
    rule: "order units are bought whole",
    families: [],
    check: "buying",
    fault: /^potato: 0 is no order/,
    broken: plan(({ purchases }) => ({
      purchases: [
        ...purchases,
        { item: "potato", service: 0, orderUnits: 0, weight: g(0), cost: money("0") },
      ],
    })),
  },
  {
    rule: "a purchase costs the price that its number has",
    families: ["price break"],
    check: "buying",
    fault: /^leek: its price is not 3 times its own/,
    broken: buying("leek", { breaks: [{ from: 3, price: money("1.99") }] }),
  },
  {
    rule: "a delivery comes to its supplier's least order",
    families: ["order", "minimum order"],
    check: "buying",
    fault: /^Green Lane for Friday: 0.0001 short of its least order/,
    broken: both(
      item("leek", () => ({ supplier: "Green Lane" })),
      asked(() => ({
        suppliers: [{ name: "Green Lane", minimum: money("6.0001"), delivery: money("0") }],
      })),
    ),
  },
  {
    rule: "a delivery is charged",
    families: ["order"],
    check: "buying",
    fault: /^Green Lane for Friday: 0 charged for delivery, not 0.5/,
    broken: both(
      item("leek", () => ({ supplier: "Green Lane" })),
      asked(() => ({ suppliers: [{ name: "Green Lane", minimum: money("0"), delivery: money("0.5") }] })),
    ),
  },
  {
    rule: "no delivery is charged that nobody charges",
    families: [],
    check: "buying",
    fault: /^leek for Friday: charged a delivery that nobody charges/,
    broken: purchase("leek", { delivery: money("0.5") }),
  },
  {
    rule: "no portion costs more than its ceiling",
    families: ["ceiling", "average cost"],
    check: "ceiling",
    fault: /^tart/,
    broken: dish("tart", () => ({ ceiling: money("0.3") })),
  },
  {
    rule: "food goes where food is taken",
    families: [],
    check: "takes",
    fault: /^compost does not take leek strand/,
    broken: sent("leek strand", () => ({ destination: "compost" })),
  },
  {
    rule: "inedible parts go where they are taken",
    families: [],
    check: "takes",
    fault: /^compost does not take leek root/,
    broken: destination("compost", { takes: { food: true, inedible: false, portions: false } }),
  },
  {
    rule: "food is given where it is taken",
    families: [],
    check: "takes",
    fault: /^staff meal does not take leek green/,
    broken: destination("staff meal", { takes: { food: false, inedible: false, portions: true } }),
  },
  {
    rule: "stock goes to nobody else than is stated",
    families: [],
    check: "takes",
    fault: /^potato mash is stated to go to refuse/,
    broken: both(
      asked(({ partsOnHand }) => ({
        partsOnHand: partsOnHand.map((stock) => ({ ...stock, weight: g(15), destination: "refuse" })),
      })),
      destination("staff meal", { limit: null }),
      plan(({ sends }) => ({
        sends: [
          ...sends,
          {
            lot: { part: "potato mash", origin: { kind: "onHand", index: 0 } },
            ...{ destination: "staff meal", weight: g(5) },
          },
        ],
      })),
    ),
  },
  {
    rule: "people are given no inedible part",
    families: [],
    check: "takes",
    fault: /^staff meal does not take egg shell/,
    broken: both(
      sent("egg shell", () => ({ destination: "staff meal" })),
      destination("staff meal", { takes: { food: true, inedible: true, portions: true } }),
    ),
  },
  {
    rule: "animals are given no part that must never be eaten",
    families: [],
    check: "takes",
    fault: /^feed does not take potato eye/,
    broken: sent("potato eye", () => ({ destination: "feed" })),
  },
  {
    rule: "portions go where portions are taken",
    families: [],
    check: "takes",
    fault: /^compost does not take portions of hash/,
    broken: cooking("hash", ({ spare }) => ({
      spare: spare.map((one) => ({ ...one, destination: "compost" })),
    })),
  },
  {
    rule: "destinations take no more than their limit",
    families: ["destination"],
    check: "destinations",
    fault: /^compost: 0.001 g over its limit/,
    broken: destination("compost", { limit: mg(209.999) }),
  },
  {
    rule: "portions given count at their real weight",
    families: ["destination", "portion weight"],
    check: "destinations",
    fault: /^staff meal: 5.5 g over its limit/,
    // At the least that a hash may weigh, 40 g, 160 g would be given.
    broken: destination("staff meal", { limit: g(165) }),
  },
  {
    rule: "what steps make counts at its weight before working",
    families: ["destination"],
    check: "destinations",
    fault: /^staff meal: 3.83\d* g over its limit/,
    // 25 g of strand are of 33.33 g of green: 170.5 + 33.33 g are given, and 195.5 g by their own weight.
    broken: sent("leek strand", () => ({ destination: "staff meal" })),
  },
  {
    rule: "pots are not filled beyond what they hold",
    families: ["capacity"],
    check: "pots",
    fault: /^peel for Friday: 1.\d* g over its limit/,
    broken: step("peel", { capacity: mg(97.9) }),
  },
  {
    rule: "hands have the time for all there is to do",
    families: ["hands"],
    check: "hands",
    fault: /^hands before Friday: 1.1 minutes too much/,
    // Leeks 4 x 1, potato 0.15 x 2, peeling 0.1 x 10, tarts 3 x 2 and a batch at 4 minutes: 15.3.
    broken: limits({ handsMinutes: 14.2 }),
  },
  {
    rule: "a service's own hands come first",
    families: ["hands"],
    check: "hands",
    fault: /^hands before Friday: 1.1 minutes too much/,
    broken: service("Friday", () => ({ handsMinutes: 14.2 })),
  },
  {
    rule: "no more batches than vessels",
    families: ["vessels"],
    check: "vessels",
    fault: /^tray for Friday: 1 taken of 0/,
    broken: limits({ vessels: [{ vessel: "tray", most: 0 }] }),
  },
  {
    rule: "half a batch takes a whole vessel",
    families: ["vessels"],
    check: "vessels",
    fault: /^tray for Friday: 1 taken of 0/,
    broken: both(
      dish("hash", ({ batch }) => ({
        batch: batch === null ? null : { ...batch, portions: 8, halves: true },
      })),
      limits({ vessels: [{ vessel: "tray", most: 0 }] }),
    ),
  },
  {
    rule: "the cold room holds what is used later, and portions that wait at their real weight",
    families: ["chilled", "portion weight"],
    check: "cold room",
    fault: /^cold room after Friday: 5.5 g too much/,
    // Leeks 400 g, green kept 100 g, yolk 40 g and a hash of 50.5 g that waits; rounding may be 4 g of it.
    broken: limits({ chilled: g(585) }),
  },
  {
    rule: "the cold room holds what is kept past the plan",
    families: ["chilled"],
    check: "cold room",
    fault: /^cold room after Saturday: 5 g too much/,
    broken: limits({ chilled: g(495) }),
  },
  {
    rule: "the cold room holds what is still to be worked",
    families: ["chilled"],
    check: "cold room",
    fault: /^cold room after Friday: 10.5 g too much/,
    // The 590.5 g and 100 g of white that is frozen on Saturday.
    broken: both(
      prep("freeze", () => ({ service: 1 })),
      limits({ chilled: g(680) }),
    ),
  },
  {
    rule: "the freezer holds frozen parts",
    families: ["frozen"],
    check: "freezer",
    fault: /^freezer after Friday: 2 g too much/,
    broken: limits({ frozen: g(98) }),
  },
];
