import type { Handling } from "../kitchen/index.js";
import { hazardsOf } from "../safety/index.js";
import {
  type BreakdownYields,
  type FormYields,
  type ItemYields,
  itemYields,
  type TableItem,
  type YieldsAndTests,
} from "../yields/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { type TestPicture, testPicture } from "./test-picture.js";
import { BOARD_ORDER, type Warning } from "./view.js";
import { capital, listed, once } from "./writing.js";
import { yieldTestPage } from "./yield-test.js";

type ItemYieldsData = Omit<ItemYields, "forms"> & {
  readonly problems: readonly string[];
  readonly saved: string;
  readonly warnings: readonly Warning[];
  /** Whether any cooking yield has a spread. */
  readonly cookingSpread: string;
  readonly forms: readonly FormCard[];
};
type FormCard = Omit<FormYields, "breakdowns"> & {
  readonly title: string;
  readonly breakdowns: readonly BreakdownCard[];
};
type BreakdownCard = Omit<BreakdownYields, "tested"> & {
  readonly title: string;
  /** Which columns there is anything in. */
  readonly pieces: string;
  readonly spread: string;
  readonly tested: readonly (Omit<BreakdownYields["tested"][number], "rows"> & {
    readonly rows: readonly Omit<BreakdownYields["tested"][number]["rows"][number], "figures">[];
    readonly picture: TestPicture;
  })[];
  readonly test: readonly { readonly href: string }[];
};

export interface ItemYieldsOptions extends DocumentOptions {
  /** Problems of the kitchen's own tests, a line each. */
  readonly problems?: readonly string[];
  /** Whether a test was recorded just now. */
  readonly saved?: boolean;
  /** Address of the yield test form of a form and a breakdown; without it none is linked. */
  readonly testOf?: (form: string, breakdown: string) => string;
}

/** "Yields of broccoli": a card for each form and breakdown, own tests beside published figures. */
export function itemYieldsPage(yields: ItemYields, options: ItemYieldsOptions = {}): Page {
  const { problems = [], saved = false, testOf, ...layout } = options;
  const data: ItemYieldsData = {
    ...yields,
    problems,
    warnings: itemCautions(yields),
    saved: saved ? "yes" : "",
    cookingSpread: yields.cooking.some(({ spread }) => spread !== "") ? "yes" : "",
    forms: yields.forms.map((form) => ({
      ...form,
      title: capital(form.form),
      breakdowns: form.breakdowns.map((each) => ({
        ...each,
        title: capital(each.name),
        pieces: each.rows.some(({ pieces }) => pieces !== "") ? "yes" : "",
        spread: each.rows.some(({ spread }) => spread !== "") ? "yes" : "",
        tested: each.tested.map(({ rows, ...rest }) => ({
          ...rest,
          rows: rows.map(({ figures: _, ...row }) => row),
          picture: testPicture(rows),
        })),
        test: testOf === undefined ? [] : [{ href: testOf(form.form, each.name) }],
      })),
    })),
  };
  const isTested = yields.forms.some(({ breakdowns }) => breakdowns.some(({ tested }) => tested.length > 0));
  const head = [
    `Yields of ${yields.name}`,
    isTested ? "published figures and own tests" : "published figures",
  ];
  return documentPage("item-yields", `Yields of ${yields.name}`, data, { head, ...layout });
}

/** An item's page for a folder, with a blank yield test for each breakdown of the forms given. */
export function itemToPrint(forms: readonly TableItem[], yields: YieldsAndTests): Page[] {
  const page = itemYieldsPage(itemYields(forms, yields), {
    testOf: (form, breakdown) => `${slugOf(form, breakdown)}.html`,
  });
  const nav = [{ href: `${page.slug}.html`, text: page.title }];
  const tests = forms.flatMap((item) =>
    item.breakdowns.map((breakdown) => ({
      ...yieldTestPage(item, breakdown, { nav }),
      slug: slugOf(item.form, breakdown.name),
    })),
  );
  return [page, ...tests];
}

function slugOf(form: string, breakdown: string): string {
  const plain = `${form} ${breakdown}`.normalize("NFKD").toLowerCase();
  return ["yield-test", ...(plain.match(/[a-z0-9]+/g) ?? [])].join("-");
}

/** What is known to harm in the parts of an item, the gravest first, each with who says so. */
export function itemCautions({ name, forms }: Pick<ItemYields, "name" | "forms">): Warning[] {
  const parts = once(
    forms.flatMap(({ breakdowns }) =>
      breakdowns.flatMap(({ rows }) => rows.filter(({ kind }) => kind !== "").map(({ part }) => part)),
    ),
  );
  const found = parts.flatMap((part) =>
    hazardsOf(name, `${name} ${part}`).map((hazard) => ({ part, hazard })),
  );
  const gravity = { never: 0, "only if": 1, warn: 2 };
  return once(found.map(({ hazard }) => hazard))
    .sort((left, right) => gravity[left.rule.kind] - gravity[right.rule.kind])
    .map((each) => {
      const about = found.filter(({ hazard }) => hazard === each).map(({ part }) => part);
      const who = about.length === parts.length ? name : `${name}: ${listed(about)}`;
      const rule = each.rule.kind === "never" ? `DO NOT USE. ${each.rule.text}` : each.rule.text;
      return { text: `${capital(who)}. ${capital(each.hazard)}. ${rule}`, source: each.authority };
    });
}

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
