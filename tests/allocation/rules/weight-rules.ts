import type { PartWeight, Send } from "../../../src/kitchen/index.js";
import { lastDayOfLot } from "../../../src/safety/index.js";
import { g } from "../../support/small-scenario.js";
import { both, cut, goings, item, limits, part, plan, prep, purchase, sent } from "./changes.js";
import { friday, GOOD, mg } from "./good-plan.js";
import type { Rule } from "./table.js";

const add = (parts: readonly PartWeight[], name: string, weight: number): PartWeight[] =>
  parts.map((given) =>
    given.part === name ? { ...given, weight: mg(Number(given.weight) / 1000 + weight) } : given,
  );
const send = (name: string, destination: string, weight: number): Send => ({
  ...{ lot: friday(name), destination, weight: mg(weight) },
});
const alsoSend = (...sends: readonly Send[]) =>
  plan((decision) => ({ sends: [...decision.sends, ...sends] }));
/** Potatoes cut on Saturday only; what they give is used on Friday. */
const potatoesOnSaturday = plan(({ cuts, preps, goings: into, sends }) => {
  const saturday = <T extends { readonly part: string; readonly origin: unknown }>(lot: T): T =>
    lot.part.startsWith("potato") && !("index" in (lot.origin as object))
      ? { ...lot, origin: { kind: "cut", service: 1 } }
      : lot;
  return {
    cuts: cuts.map((one) => (one.item === "potato" ? { ...one, service: 1 } : one)),
    preps: preps.map((one) => ({ ...one, from: saturday(one.from) })),
    goings: into.map((one) => ({ ...one, lot: saturday(one.lot) })),
    sends: sends.map((one) => ({ ...one, lot: saturday(one.lot) })),
  };
});

/** What is in the scenario, closes, gives what it gives, and is used in time. */
export const WEIGHT_RULES: readonly Rule[] = [
  {
    rule: "every item is cut, binned or kept",
    families: ["item balance"],
    check: "closing",
    fault: /^potato: 1 g left over/,
    broken: plan(({ binned }) => ({
      binned: binned.map((end) => (end.item === "potato" ? { ...end, weight: g(849) } : end)),
    })),
  },
  {
    rule: "no item is cut before it is there",
    families: ["item balance"],
    check: "closing",
    fault: /^potato: -1000 g in stock after service 1/,
    broken: purchase("potato", { service: 1 }),
  },
  {
    rule: "a cut gives what it takes",
    families: [],
    check: "closing",
    fault: /^cut of leek: -0.001 g unaccounted for/,
    broken: cut("leek", () => ({ loss: mg(0.001) })),
  },
  {
    rule: "a step gives what it takes",
    families: [],
    check: "closing",
    fault: /^peel: -0.001 g unaccounted for/,
    broken: prep("peel", () => ({ loss: mg(25.001) })),
  },
  {
    rule: "every gram of a part goes somewhere",
    families: ["part balance"],
    check: "closing",
    fault: /^egg shell .*: 20 g unaccounted for/,
    broken: plan(({ sends }) => ({ sends: sends.filter(({ lot }) => lot.part !== "egg shell") })),
  },
  {
    rule: "cuts give each part by its yield",
    families: [],
    check: "yields",
    fault: /^cut of leek: 0.002 g of leek white beside its yield/,
    broken: both(
      cut("leek", ({ parts }) => ({ parts: add(add(parts, "leek white", 0.002), "leek green", -0.002) })),
      alsoSend(send("leek white", "refuse", 0.002)),
      sent("leek green", ({ destination, weight }) =>
        destination === "refuse" ? { weight: mg(Number(weight) / 1000 - 0.002) } : {},
      ),
    ),
  },
  {
    rule: "cuts give every part",
    families: [],
    check: "yields",
    fault: /^cut of egg: gives nothing for egg shell/,
    broken: both(
      cut("egg", ({ parts }) => ({ parts: parts.slice(0, 2), loss: g(20) })),
      plan(({ sends }) => ({ sends: sends.filter(({ lot }) => lot.part !== "egg shell") })),
    ),
  },
  {
    rule: "steps give each part by its yield",
    families: [],
    check: "yields",
    fault: /^peel: 0.002 g of leek strand beside its yield/,
    broken: both(
      prep("peel", ({ parts }) => ({ parts: add(parts, "leek strand", 0.002), loss: mg(24.998) })),
      sent("leek strand", () => ({ weight: mg(25.002) })),
    ),
  },
  {
    rule: "steps take up their water",
    families: [],
    check: "yields",
    fault: /^boil: 24.001 g of water/,
    broken: prep("boil", () => ({ water: mg(24.001), loss: mg(12.001) })),
  },
  {
    rule: "whole items are cut by the unit",
    families: [],
    check: "units",
    fault: /^leek: units and weight differ/,
    broken: cut("leek", () => ({ units: 5 })),
  },
  {
    rule: "whole items are cut whole",
    families: [],
    check: "units",
    fault: /^leek: units and weight differ/,
    broken: cut("leek", () => ({ units: null })),
  },
  {
    rule: "whole items are binned by the unit",
    families: [],
    check: "units",
    fault: /^egg: units and weight differ/,
    broken: plan(({ binned }) => ({
      binned: binned.map((end) => (end.item === "egg" ? { ...end, units: 2 } : end)),
    })),
  },
  {
    rule: "whole items are kept by the unit",
    families: [],
    check: "units",
    fault: /^leek: units and weight differ/,
    broken: plan(({ keptItems }) => ({ keptItems: keptItems.map((end) => ({ ...end, units: 1 })) })),
  },
  {
    rule: "loose items have no units",
    families: [],
    check: "units",
    fault: /^potato: units and weight differ/,
    broken: cut("potato", () => ({ units: 1 })),
  },
  {
    rule: "items are cut or binned while they keep",
    families: ["item life"],
    check: "item life",
    fault: /^egg: 60 g kept past day 1/,
    broken: plan(({ binned }) => ({
      binned: binned.map((end) => (end.item === "egg" ? { ...end, service: 1 } : end)),
    })),
  },
  {
    rule: "items kept outlast the plan",
    families: ["item life"],
    check: "item life",
    fault: /^leek: 400 g kept past day 2/,
    broken: item("leek", () => ({ keepsDays: 2 })),
  },
  {
    rule: "nothing goes into a dish after its last day",
    families: [],
    check: "dates",
    fault: /^egg yolk goes into custard 1 days after its last/,
    broken: part("egg yolk", { keepsDays: 1 }),
  },
  {
    rule: "nothing is worked after its last day",
    families: [],
    check: "dates",
    fault: /^leek white is worked by freeze 1 days after its last/,
    broken: both(
      part("leek white", { keepsDays: 1 }),
      prep("freeze", () => ({ service: 1 })),
    ),
  },
  {
    rule: "nothing goes into a dish before it is cut",
    families: [],
    check: "dates",
    fault: /^potato mash goes into hash before it is cut/,
    broken: potatoesOnSaturday,
  },
  {
    rule: "nothing is worked before it is cut",
    families: [],
    check: "dates",
    fault: /^potato flesh is worked by boil before it is cut/,
    broken: potatoesOnSaturday,
  },
  {
    rule: "nothing is used before it is made",
    families: ["worked in time"],
    check: "in time",
    fault: /^potato mash: 132 g are used by Friday that are made later/,
    broken: prep("boil", () => ({ service: 1 })),
  },
  {
    rule: "what a step is worked for is used",
    families: ["worked for use"],
    check: "worked for use",
    fault: /^potato mash: .* g are made and not used/,
    broken: both(
      goings("hash", ({ lot, weight }) => (weight === g(132) ? { lot, weight: g(112) } : {})),
      alsoSend(send("potato mash", "refuse", 20)),
    ),
  },
  {
    rule: "what must never be eaten goes into no dish",
    families: [],
    check: "never",
    fault: /^egg white must never go into hash/,
    broken: part("egg white", { class: "never" }),
  },
  {
    rule: "pieces go into dishes whole",
    families: [],
    check: "pieces",
    fault: /^custard: egg yolk is not in whole pieces/,
    broken: goings("custard", ({ pieces }) => (pieces === null ? {} : { pieces: 1 })),
  },
  {
    rule: "what is no piece is not counted",
    families: [],
    check: "pieces",
    fault: /^tart: leek white is not in whole pieces/,
    broken: goings("tart", () => ({ pieces: 3 })),
  },
  {
    rule: "pieces are worked whole",
    families: [],
    check: "pieces",
    fault: /^peel: leek green is not in whole pieces/,
    broken: part("leek green", { pieceWeight: g(60) }),
  },
  {
    rule: "parts are kept only by permission",
    families: ["carry"],
    check: "kept",
    fault: /^leek strand: kept where nothing may be/,
    broken: plan(({ sends, kept }) => ({
      sends: sends.filter(({ lot }) => lot.part !== "leek strand"),
      kept: [
        ...kept,
        {
          ...{ lot: friday("leek strand"), weight: g(25) },
          lastDay: lastDayOfLot(friday("leek strand"), GOOD.scenario),
        },
      ],
    })),
  },
  {
    rule: "parts are kept within their limit",
    families: ["carry"],
    check: "kept",
    fault: /^leek green kept: 0.001 g over its limit/,
    broken: part("leek green", { carry: { use: "stock", limit: mg(99.999), valuePerKilogram: 0n as never } }),
  },
  {
    rule: "parts kept are good after the plan",
    families: [],
    check: "kept",
    fault: /^leek green: kept past its last day/,
    broken: part("leek green", { keepsDays: 2 }),
  },
  {
    rule: "parts kept are dated rightly",
    families: [],
    check: "kept",
    fault: /^leek green: kept under another last day/,
    broken: plan(({ kept }) => ({ kept: kept.map((one) => ({ ...one, lastDay: 9 })) })),
  },
  {
    rule: "items stated to go elsewhere are not kept",
    families: [],
    check: "kept",
    fault: /^egg: kept where nothing may be/,
    broken: both(
      limits({ chilled: null }),
      item("egg", ({ onHand }) => ({
        onHand: onHand.map((stock) => ({ ...stock, lastDay: null, destination: "refuse" })),
      })),
      plan(({ binned, keptItems }) => ({
        binned: binned.filter((end) => end.item !== "egg"),
        keptItems: [...keptItems, { item: "egg", service: 1, units: 1, weight: g(60) }],
      })),
    ),
  },
  {
    rule: "items are kept at the end",
    families: [],
    check: "kept",
    fault: /^leek: kept before the plan is over/,
    broken: plan(({ keptItems }) => ({ keptItems: keptItems.map((end) => ({ ...end, service: 0 })) })),
  },
];
