import { Decimal, ONE } from "../../../src/quantity/index.js";
import { g } from "../../support/small-scenario.js";
import { asked, both, cooking, course, dish, line, plan, service } from "./changes.js";
import { withoutSalad } from "./kept.js";
import type { Rule } from "./table.js";

/** Shares of the hash's line, as a scenario may state them. */
const shares = (mash: { least: string }, white: { most: string }) =>
  dish("hash", ({ lines }) => ({
    lines: lines.map((one) => ({
      ...one,
      from: one.from.map((source) =>
        source.part === "egg white"
          ? { ...source, mostShare: new Decimal(white.most) }
          : { ...source, leastShare: new Decimal(mash.least) },
      ),
    })),
  }));

/** Recipe lines, portions, courses and diets. */
export const SERVING_RULES: readonly Rule[] = [
  {
    rule: "nothing goes into a dish that is not cooked",
    families: [],
    check: "lines",
    fault: /^leek heart goes into salad, which is not cooked/,
    broken: plan(({ cookings }) => ({ cookings: cookings.filter((one) => one.dish !== "salad") })),
  },
  {
    rule: "lines get as much as their portions ask for",
    families: ["recipe line"],
    check: "lines",
    fault: /^tart, leek white: 3 g too little/,
    broken: line("tart", 0, { least: g(101), most: g(101) }),
  },
  {
    rule: "lines get no more than their portions ask for",
    families: ["recipe line"],
    check: "lines",
    fault: /^tart, leek white: 3 g too much/,
    broken: line("tart", 0, { least: g(99), most: g(99) }),
  },
  {
    rule: "lines stated cooked count cooked",
    families: ["recipe line"],
    check: "lines",
    fault: /^salad, leek heart: 15 g too little/,
    broken: line("salad", 0, {
      least: g(20),
      most: g(20),
      stated: "cooked",
      cookingYield: new Decimal("0.5"),
    }),
  },
  {
    rule: "parts count at their rate",
    families: ["recipe line"],
    check: "lines",
    fault: /^salad, leek heart: 80 g too much/,
    broken: line("salad", 0, {
      from: [{ part: "leek heart", rate: new Decimal(4), leastShare: new Decimal(0), mostShare: ONE }],
    }),
  },
  {
    rule: "lines take only their parts",
    families: [],
    check: "lines",
    fault: /egg white is not allowed in it/,
    broken: both(
      dish("hash", ({ lines }) => ({
        lines: lines.map((one) => ({ ...one, least: g(30), from: one.from.slice(0, 1) })),
      })),
    ),
  },
  {
    rule: "parts have their least share",
    families: ["share"],
    check: "lines",
    fault: /g too little potato mash for its share/,
    broken: shares({ least: "0.75" }, { most: "0.5" }),
  },
  {
    rule: "parts keep to their most share",
    families: ["share"],
    check: "lines",
    fault: /g too much egg white for its share/,
    broken: shares({ least: "0.5" }, { most: "0.25" }),
  },
  {
    rule: "a dish is cooked once for a service",
    families: [],
    check: "cookings",
    fault: /^salad: cooked twice/,
    broken: plan(({ cookings }) => ({
      cookings: cookings.flatMap((one) => {
        const half = { ...one, portions: 1, served: [{ service: 0, portions: 1 }] };
        return one.dish === "salad" ? [half, half] : [one];
      }),
    })),
  },
  {
    rule: "all portions are eaten or spare",
    families: [],
    check: "cookings",
    fault: /^salad: 1 portions unaccounted for/,
    broken: cooking("salad", () => ({ portions: 3 })),
  },
  {
    rule: "portions are whole",
    families: [],
    check: "cookings",
    fault: /^salad: portions that are no whole number/,
    broken: cooking("salad", () => ({
      served: [
        { service: 0, portions: 1.5 },
        { service: 0, portions: 0.5 },
      ],
    })),
  },
  {
    rule: "portions are not below none",
    families: [],
    check: "cookings",
    fault: /^salad: portions that are no whole number/,
    broken: cooking("salad", () => ({
      served: [
        { service: 0, portions: 3 },
        { service: 0, portions: -1 },
      ],
    })),
  },
  {
    rule: "dishes are cooked for services that offer them",
    families: [],
    check: "cookings",
    fault: /^salad: cooked for a service that does not offer it/,
    broken: dish("salad", () => ({ services: [1] })),
  },
  {
    rule: "dishes are cooked in whole batches",
    families: ["batch"],
    check: "cookings",
    fault: /^hash: 4 portions are no whole number of batches/,
    broken: dish("hash", ({ batch }) => ({ batch: batch === null ? null : { ...batch, portions: 3 } })),
  },
  {
    rule: "dishes are cooked in halves of batches at the least",
    families: ["batch"],
    check: "cookings",
    fault: /^hash: 4 portions are no whole number of batches/,
    broken: dish("hash", ({ batch }) => ({
      batch: batch === null ? null : { ...batch, portions: 6, halves: true },
    })),
  },
  {
    rule: "nothing is eaten again that does not keep",
    families: [],
    check: "cookings",
    fault: /^hash: eaten when it is not good/,
    // Not even on the same day.
    broken: both(
      dish("hash", () => ({ keepsDays: null })),
      service("Saturday", () => ({ day: 0 })),
    ),
  },
  {
    rule: "nothing is eaten after its own days",
    families: [],
    check: "cookings",
    fault: /^hash: eaten when it is not good/,
    broken: dish("hash", () => ({ keepsDays: 1 })),
  },
  {
    rule: "nothing is eaten after the date of the oldest part in it",
    families: ["offered"],
    check: "cookings",
    fault: /^hash: eaten when it is not good/,
    broken: asked(({ partsOnHand }) => ({ partsOnHand: partsOnHand.map((one) => ({ ...one, lastDay: 0 })) })),
  },
  {
    rule: "nothing is eaten before it is cooked",
    families: [],
    check: "cookings",
    fault: /^custard: eaten when it is not good/,
    broken: cooking("custard", () => ({
      served: [
        { service: 1, portions: 1 },
        { service: 0, portions: 1 },
      ],
    })),
  },
  {
    rule: "what waits is eaten where it is offered",
    families: [],
    check: "cookings",
    fault: /^hash: eaten at a service that does not offer it/,
    broken: dish("hash", () => ({ services: [0] })),
  },
  {
    rule: "courses get their portions",
    families: ["course"],
    check: "services",
    fault: /^main at Friday: 4 of 5 portions/,
    broken: course("Friday", { portions: 5 }),
  },
  {
    rule: "courses show as many dishes as they should",
    families: ["course dishes", "made"],
    check: "services",
    fault: /^main at Friday: 2 dishes/,
    broken: course("Friday", { leastDishes: 3, mostDishes: null }),
  },
  {
    rule: "courses show no more dishes than they should",
    families: ["course dishes", "made", "all or none"],
    check: "services",
    fault: /^main at Friday: 2 dishes/,
    broken: course("Friday", { leastDishes: null, mostDishes: 1 }),
  },
  {
    rule: "diets get their portions of every course",
    families: ["diet"],
    check: "services",
    fault: /^vegetarian at Friday, main: 2 of 3 portions fit/,
    broken: service("Friday", () => ({ diets: [{ diets: ["vegetarian"], covers: 3 }] })),
  },
  {
    rule: "dishes have their least portions",
    families: ["dish"],
    check: "services",
    fault: /^custard at Saturday: 2 portions/,
    broken: dish("custard", () => ({ portions: { least: 3, most: 3 } })),
  },
  {
    rule: "dishes have no more than their most portions",
    families: ["dish"],
    check: "services",
    fault: /^custard at Saturday: 2 portions/,
    broken: dish("custard", () => ({ portions: { least: 1, most: 1 } })),
  },
  {
    rule: "optional dishes have their least portions, or none",
    families: ["made"],
    check: "services",
    fault: /^salad at Friday: 2 portions/,
    broken: dish("salad", () => ({ portions: { least: 3, most: 3 } })),
  },
  {
    rule: "only optional dishes are left out",
    families: ["dish"],
    check: "services",
    fault: /^salad at Friday: 0 portions/,
    broken: both(
      dish("salad", () => ({ optional: false })),
      withoutSalad(),
    ),
  },
  {
    rule: "spare portions stay within the overage",
    families: ["overage"],
    check: "services",
    fault: /^main at Friday: 2 spare portions, 1 allowed/,
    broken: service("Friday", () => ({ overage: new Decimal("0.25") })),
  },
  {
    rule: "portions are wasted out of whole batches only",
    families: [],
    check: "wasted portions",
    fault: /^tart: portions are cooked to be wasted/,
    broken: cooking("tart", ({ spare }) => ({
      spare: spare.map((one) => ({ ...one, destination: "refuse" })),
    })),
  },
];
