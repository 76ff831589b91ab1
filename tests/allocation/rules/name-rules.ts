import type { Send } from "../../../src/kitchen/index.js";
import { NO_WEIGHT } from "../../../src/quantity/index.js";
import { g } from "../../support/small-scenario.js";
import { both, cooking, cut, goings, plan, prep, sent, step } from "./changes.js";
import { friday, GOOD, mg } from "./good-plan.js";
import type { Rule } from "./table.js";

const nothing = (part: string): Send => ({ lot: friday(part), destination: "refuse", weight: NO_WEIGHT });
const alsoSend = (send: Send) => plan(({ sends }) => ({ sends: [...sends, send] }));

/** Everything that a plan names is in the scenario. */
export const NAME_RULES: readonly Rule[] = [
  {
    rule: "only items of the scenario",
    families: [],
    check: "names",
    fault: /^swede is no item/,
    broken: plan(({ binned }) => ({
      binned: [...binned, { item: "swede", service: 0, units: 1, weight: g(100) }],
    })),
  },
  {
    rule: "only cuts that are allowed",
    families: [],
    check: "names",
    fault: /^shaved is no way to cut leek/,
    broken: cut("leek", () => ({ breakdown: "shaved" })),
  },
  {
    rule: "only steps of the scenario",
    families: [],
    check: "names",
    fault: /^chill is no step/,
    broken: prep("freeze", () => ({ step: "chill" })),
  },
  {
    rule: "steps take only their sources",
    families: [],
    check: "names",
    fault: /^freeze does not take leek white/,
    broken: step("freeze", { from: ["leek green"] }),
  },
  {
    rule: "only dishes of the scenario",
    families: [],
    check: "names",
    fault: /^slaw is no dish/,
    broken: both(
      cooking("salad", () => ({ dish: "slaw" })),
      goings("salad", () => ({ dish: "slaw" })),
    ),
  },
  {
    rule: "only lines of the dish",
    families: [],
    check: "names",
    fault: /^tart has no line number 3/,
    broken: both(
      plan((decision) => ({
        goings: [...decision.goings, { ...goingOf("tart"), line: 2, weight: mg(0.2) }],
      })),
      goings("tart", ({ line: index, weight }) =>
        index === 0 ? { weight: mg(Number(weight) / 1000 - 0.2) } : {},
      ),
    ),
  },
  {
    rule: "only destinations of the scenario",
    families: [],
    check: "names",
    fault: /^ditch is no destination/,
    broken: sent("leek root", () => ({ destination: "ditch" })),
  },
  {
    rule: "only parts of the scenario",
    families: [],
    check: "names",
    fault: /^leek wing is no part/,
    broken: alsoSend(nothing("leek wing")),
  },
  {
    rule: "only stock that is on hand",
    families: [],
    check: "names",
    fault: /^potato mash is of stock that is not on hand/,
    broken: alsoSend({
      ...nothing("potato mash"),
      lot: { part: "potato mash", origin: { kind: "onHand", index: 1 } },
    }),
  },
  {
    rule: "only services of the scenario",
    families: [],
    check: "names",
    fault: /^there is no service number 3/,
    broken: plan(({ cuts }) => ({
      cuts: [
        ...cuts,
        {
          ...{ item: "leek", breakdown: "trimmed", service: 2, units: 0, weight: NO_WEIGHT, loss: NO_WEIGHT },
          parts: (cuts[0]?.parts ?? []).map((given) => ({ ...given, weight: NO_WEIGHT })),
        },
      ],
    })),
  },
];

function goingOf(into: string) {
  const found = GOOD.decision.goings.find((going) => going.dish === into);
  if (found === undefined) throw new RangeError(`nothing goes into ${into}`);
  return found;
}
