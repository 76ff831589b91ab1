import type { BreakdownYields, FormYields, ItemYields } from "../yields/index.js";
import { itemCautions } from "./cautions.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { type TestPicture, testPicture } from "./test-picture.js";
import type { Warning } from "./view.js";
import { capital } from "./writing.js";

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
