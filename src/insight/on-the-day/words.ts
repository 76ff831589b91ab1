import type { Item } from "../../kitchen/index.js";
import { toGrams, type Weight } from "../../quantity/index.js";
import { wordings } from "../../reading/index.js";

export const words = wordings("on-the-day", {
  unknown: (what: string, name: string, meant: string | null, known: readonly string[]) => ({
    what: `the plan has no ${what} \`${name}\``,
    remedy:
      meant === null
        ? `Write one of ${known.map((each) => `\`${each}\``).join(", ")}`
        : `Did you mean \`${meant}\`?`,
  }),
  isOver: (service: string) => ({
    what: `\`${service}\` is over: its covers are as they were`,
    remedy: "Leave it out, or write an earlier service under `before:`",
  }),
  fewerThanNeedDiets: (service: string, needed: number, covers: number) => ({
    what: `${needed} of the covers at \`${service}\` need a diet, and only ${covers} come`,
    remedy: "Write under `diets:` of the scenario how many of them still come",
  }),
  notYetCut: (service: string) => ({
    what: `nothing is cut for \`${service}\` yet, which is still to be planned`,
    remedy: "Name the service that it was cut for, or write a later one under `before:`",
  }),
  notDue: (item: string) => ({
    what: `no \`${item}\` was to come by then`,
    remedy: "Leave it out; write what is in the house under `on_hand:` of the scenario and plan it anew",
  }),
  cutMoreThanCame: (item: Item, used: Weight, had: Weight) => {
    const { name, unitName, unitWeight, measure } = item;
    const amount = (weight: Weight): string =>
      measure === "whole"
        ? `${toGrams(weight).div(toGrams(unitWeight)).toDecimalPlaces(1).toFixed()}`
        : `${toGrams(weight).toFixed()} g`;
    const of =
      measure !== "whole"
        ? ` of \`${name}\``
        : unitName === name
          ? ` \`${name}\``
          : ` ${unitName} of \`${name}\``;
    return {
      what: `${amount(used)}${of} cut before that service, and only ${amount(had)} there`,
      remedy: "Count again, or write an earlier service under `before:`",
    };
  },
  moreThanCut: (item: string, over: Weight) => ({
    what: `the parts of \`${item}\` weigh ${toGrams(over).toFixed()} g more than was cut`,
    remedy: "Write too what its other parts weighed, peel and bone among them",
  }),
  usedMoreThanCut: (part: string, over: Weight) => ({
    what: `the dishes and steps that are done took ${toGrams(over).toFixed()} g more of \`${part}\` than came out`,
    remedy: "Weigh again, or write an earlier service under `before:`",
  }),
});
