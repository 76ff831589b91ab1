import { total, type Weight } from "../quantity/index.js";
import { lotWords } from "./lots.js";
import { flowTotal } from "./movements.js";
import type { PageMaker } from "./page.js";
import { endWords, isKind, type View } from "./view.js";
import { once } from "./writing.js";

type Parts = {
  readonly byPart: readonly Group[];
  readonly byDish: readonly Group[];
  /** What goes into dishes, as the sum of either. */
  readonly partTotal: Row;
  readonly dishTotal: Row;
};

type Group = {
  readonly name: string;
  readonly about: string;
  readonly rows: readonly Row[];
  readonly shown: string;
};
type Row = { readonly name: string; readonly about: string; readonly shown: string };

/** Every part by where it goes, and every dish by the parts it takes, in raw weight. */
export const partsPage: PageMaker = { slug: "parts", title: "Where each part goes", data: partsData };

export function partsData(view: View): Parts {
  const intoDishes = flowTotal(view.movements, ({ from, to }) => isKind(from, "part") && isKind(to, "dish"));
  const sum = (name: string): Row => ({ name, about: "", shown: view.writing.shown(intoDishes) });
  return {
    byPart: byPart(view),
    byDish: byDish(view),
    partTotal: sum("Into dishes"),
    dishTotal: sum("All dishes"),
  };
}

function byPart({ scenario, writing, movements, accountOf }: View): Group[] {
  return scenario.parts.flatMap(({ name }): Group[] => {
    const out = movements.flows.filter(({ from, weight }) => from === `part:${name}` && weight > 0n);
    if (out.length === 0) return [];
    const rows = once(out.map(({ to }) => to)).map((to): Row & { weight: Weight } => {
      const target = accountOf(to);
      const weight = total(out.filter((each) => each.to === to).map((each) => each.weight));
      return { name: endWords(target), about: target.service, shown: writing.shown(weight), weight };
    });
    return [
      {
        name,
        about: "",
        rows: rows.map(({ weight: _, ...row }) => row),
        shown: writing.shown(total(rows.map(({ weight }) => weight))),
      },
    ];
  });
}

function byDish(view: View): Group[] {
  const { plan, writing, movements } = view;
  return plan.dishes.flatMap(({ dish, service }): Group[] => {
    const mine = plan.goings.flatMap((going, index) => {
      const weight = movements.goings[index] ?? (0n as Weight);
      return going.dish === dish && going.service === service && weight > 0n ? [{ going, weight }] : [];
    });
    if (mine.length === 0) return [];
    return [
      {
        name: dish,
        about: service,
        rows: mine.map(({ going: { part, cutFor, useBy }, weight }) => ({
          name: part,
          about: [lotWords(part, cutFor, view), useBy === null ? "" : `use by ${writing.shortDate(useBy)}`]
            .filter((text) => text !== "")
            .join(", "),
          shown: writing.shown(weight),
        })),
        shown: writing.shown(total(mine.map(({ weight }) => weight))),
      },
    ];
  });
}
