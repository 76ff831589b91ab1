import { roundTogether, total, type Weight } from "../quantity/index.js";
import type { PageMaker } from "./page.js";
import { accountName, flowTotal, isKind, planWeight, type View } from "./view.js";
import { once } from "./writing.js";

type Parts = {
  readonly byPart: readonly Group[];
  readonly byDish: readonly Group[];
  readonly inDishes: string;
};

type Group = {
  readonly name: string;
  readonly about: string;
  readonly rows: readonly Row[];
  readonly grams: string;
};
type Row = { readonly name: string; readonly about: string; readonly grams: string };

/** Every part by where it goes, and every dish by the parts it takes. */
export const partsPage: PageMaker = { slug: "parts", title: "Where each part goes", data: partsData };

export function partsData(view: View): Parts {
  const intoDishes = flowTotal(view, ({ from, to }) => isKind(from, "part") && isKind(to, "dish"));
  return { byPart: byPart(view), byDish: byDish(view), inDishes: view.writing.grams(intoDishes) };
}

function byPart(view: View): Group[] {
  const { scenario, writing, flows } = view;
  return scenario.parts.flatMap(({ name }): Group[] => {
    const out = flows.filter(({ from, weight }) => from === `part:${name}` && weight > 0n);
    if (out.length === 0) return [];
    const goings = once(out.map(({ to }) => to)).map((to) => {
      const target = accountName(to, scenario);
      return {
        name: ends(target.kind, target.name),
        about: target.service,
        weight: total(out.filter((each) => each.to === to).map(({ weight }) => weight)),
      };
    });
    return [
      {
        name,
        about: "",
        rows: goings.map(({ weight, ...row }) => ({ ...row, grams: writing.grams(weight) })),
        grams: writing.grams(total(goings.map(({ weight }) => weight))),
      },
    ];
  });
}

function ends(kind: string, name: string): string {
  const words: Readonly<Record<string, string>> = {
    givenAway: `${name}, given away`,
    wastedFood: `${name}, wasted food`,
    inedible: `${name}, inedible`,
    closingStock: "closing stock",
    loss: `${name} loss`,
  };
  return words[kind] ?? name;
}

function byDish({ plan, scenario, writing }: View): Group[] {
  return plan.dishes.flatMap(({ dish, service }): Group[] => {
    const goings = plan.goings.filter((each) => each.dish === dish && each.service === service);
    if (goings.length === 0) return [];
    const weights: Weight[] = roundTogether(
      goings.map(({ weight }) => planWeight(weight)),
      scenario.scaleStep,
    );
    return [
      {
        name: dish,
        about: service,
        rows: goings.map(({ part, cut, useBy }, index) => ({
          name: part,
          about: [
            cut === null ? "in the house" : `cut ${writing.shortDate(cut)}`,
            useBy === null ? "" : `use by ${writing.shortDate(useBy)}`,
          ]
            .filter((text) => text !== "")
            .join(", "),
          grams: writing.grams(weights[index] ?? (0n as Weight)),
        })),
        grams: writing.grams(total(weights)),
      },
    ];
  });
}
