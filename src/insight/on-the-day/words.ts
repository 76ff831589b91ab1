import type { Item } from "../../kitchen/index.js";
import { toGrams, type Weight } from "../../quantity/index.js";
import type { Wording } from "../../reading/index.js";

export const unknown = (
  what: string,
  name: string,
  meant: string | null,
  known: readonly string[],
): Wording => ({
  what: `the plan has no ${what} \`${name}\``,
  remedy:
    meant === null
      ? `Write one of ${known.map((each) => `\`${each}\``).join(", ")}`
      : `Did you mean \`${meant}\`?`,
});

export const isOver = (service: string): Wording => ({
  what: `\`${service}\` is over: its covers are as they were`,
  remedy: "Leave it out, or write an earlier service under `before:`",
});

export const fewerThanNeedDiets = (service: string, needed: number, covers: number): Wording => ({
  what: `${needed} of the covers at \`${service}\` need a diet, and only ${covers} come`,
  remedy: "Write under `diets:` of the scenario how many of them still come",
});

export const notYetCut = (service: string): Wording => ({
  what: `nothing is cut for \`${service}\` yet, which is still to be planned`,
  remedy: "Name the service that it was cut for, or write a later one under `before:`",
});

export const notDue = (item: string): Wording => ({
  what: `no \`${item}\` was to come by then`,
  remedy: "Leave it out; write what is in the house under `on_hand:` of the scenario and plan it anew",
});

export const cutMoreThanCame = (item: Item, used: Weight, had: Weight): Wording => {
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
};

export const moreThanCut = (item: string, over: Weight): Wording => ({
  what: `the parts of \`${item}\` weigh ${toGrams(over).toFixed()} g more than was cut`,
  remedy: "Write too what its other parts weighed, peel and bone among them",
});

export const usedMoreThanCut = (part: string, over: Weight): Wording => ({
  what: `the dishes and steps that are done took ${toGrams(over).toFixed()} g more of \`${part}\` than came out`,
  remedy: "Weigh again, or write an earlier service under `before:`",
});
