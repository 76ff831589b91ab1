import type { Handling } from "../kitchen/index.js";
import type { YieldsAndTests } from "../yields/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { BOARD_ORDER } from "./view.js";
import { once } from "./writing.js";

type YieldsIndex = {
  readonly problems: readonly string[];
  readonly tested: readonly Entry[];
  readonly groups: readonly { readonly name: string; readonly items: readonly Entry[] }[];
};
type Entry = { readonly name: string; readonly href: string; readonly about: string };

const GROUPS: Readonly<Record<Handling, string>> = {
  plant: "Vegetables, fruit, herbs, bread",
  egg: "Eggs",
  fish: "Fish and shellfish",
  meat: "Meat",
  poultry: "Birds",
};

export interface YieldsIndexOptions extends DocumentOptions {
  readonly problems?: readonly string[];
  /** Address of an item's page. */
  readonly addressOf: (item: string) => string;
}

/** All items of the tables by kind, those that this kitchen has weighed first. */
export function yieldsIndexPage({ published, tests }: YieldsAndTests, options: YieldsIndexOptions): Page {
  const { problems = [], addressOf, ...layout } = options;
  const inOrder = (names: readonly string[]) => once(names).sort((a, b) => a.localeCompare(b, "en"));
  const entry = (name: string, about: string): Entry => ({ name, href: addressOf(name), about });
  const data: YieldsIndex = {
    problems,
    tested: inOrder(tests.map(({ item }) => item)).map((name) => {
      const count = tests.filter(({ item }) => item === name).length;
      return entry(name, count === 1 ? "1 test" : `${count} tests`);
    }),
    groups: BOARD_ORDER.map((handling) => ({
      name: GROUPS[handling],
      items: inOrder(
        published.items.filter((item) => item.handling === handling).map(({ name }) => name),
      ).map((name) => entry(name, "")),
    })).filter(({ items }) => items.length > 0),
  };
  return documentPage("yields-index", "Yields of every item", data, {
    head: ["Yield tables and own tests"],
    ...layout,
  });
}
