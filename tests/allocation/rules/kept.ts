import { Decimal } from "../../../src/quantity/index.js";
import { g } from "../../support/small-scenario.js";
import {
  both,
  type Change,
  cooking,
  destination,
  dish,
  goings,
  item,
  limits,
  line,
  plan,
  prep,
  step,
} from "./changes.js";
import { friday, mg } from "./good-plan.js";

/** Changes of the good plan that break no rule, though they come near to one. */
export const KEPT: readonly (readonly [string, Change])[] = [
  [
    "nothing in the freezer until it is frozen",
    both(
      prep("freeze", () => ({ service: 1 })),
      limits({ frozen: g(0) }),
    ),
  ],
  ["a cold room that holds all but for rounding", limits({ chilled: mg(586.5) })],
  ["a line short by half a step of the scale", line("tart", 0, { least: mg(100.16), most: mg(100.16) })],
  [
    "portions given that are over by half a step of the scale each",
    destination("staff meal", { limit: g(169) }),
  ],
  ["a pot that is over by a step of the scale", step("peel", { capacity: g(99) })],
  [
    "half a batch where halves are cooked",
    dish("hash", ({ batch }) => ({ batch: batch === null ? null : { ...batch, portions: 8, halves: true } })),
  ],
  ["an optional dish left out", withoutSalad()],
  [
    "items that keep left in stock beyond the limit of their named use",
    item("leek", ({ carry }) => ({ carry: carry === null ? null : { ...carry, limit: g(200) } })),
  ],
  [
    "portions given that weigh less when cooked",
    // 20 g of green, a tart of 100 g, and a quarter of 101 g.
    both(
      line("hash", 0, { least: g(20), most: g(30), stated: "cooked", cookingYield: new Decimal("0.5") }),
      destination("staff meal", { limit: g(146) }),
    ),
  ],
  [
    "a spare portion of a batch wasted",
    cooking("hash", ({ spare }) => ({ spare: spare.map((one) => ({ ...one, destination: "refuse" })) })),
  ],
  [
    "what a step gave first over as far as what it gave beside is used",
    // The 25 g of strand go into the salad and half of the heart does not.
    both(
      dish("salad", ({ lines }) => ({
        lines: lines.map((one) => ({
          ...one,
          from: one.from.flatMap((source) => [source, { ...source, part: "leek strand" }]),
        })),
      })),
      goings("salad", () => ({ weight: g(25) })),
      plan((decision) => ({
        goings: [
          ...decision.goings,
          {
            ...{ lot: friday("leek strand"), dish: "salad", service: 0, line: 0 },
            weight: g(25),
            pieces: null,
          },
        ],
        sends: decision.sends.map((send) =>
          send.lot.part === "leek strand" ? { ...send, lot: friday("leek heart") } : send,
        ),
      })),
    ),
  ],
];

/** The salad left out, and nothing peeled for it. */
export function withoutSalad(): Change {
  return plan(({ cookings, goings: into, preps, sends }) => ({
    cookings: cookings.filter((one) => one.dish !== "salad"),
    goings: into.filter((one) => one.dish !== "salad"),
    preps: preps.filter((one) => one.step !== "peel"),
    sends: sends
      .filter(({ lot }) => lot.part !== "leek strand")
      .map((one) =>
        one.lot.part === "leek green" && one.destination === "refuse" ? { ...one, weight: g(120) } : one,
      ),
  }));
}
