import { hasPlan, type PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { allergensPage } from "./allergens.js";
import { cuttingPage } from "./cutting.js";
import { dishesPage } from "./dishes.js";
import { headOf } from "./document.js";
import { glancePage } from "./glance.js";
import { gramsPage } from "./grams.js";
import { type HappenedView, happenedPage } from "./happened.js";
import { labelsPage } from "./labels.js";
import { noPlanPage } from "./no-plan.js";
import { orderOfWorkPage } from "./order-of-work.js";
import type { PageMaker } from "./page.js";
import { partsPage } from "./parts.js";
import { riskPage } from "./risk.js";
import { shoppingPage } from "./shopping.js";
import { fill } from "./template.js";
import { datesText, servicesText, type View, viewOf } from "./view.js";
import { wastePage } from "./waste.js";
import { wasteAccountPage } from "./waste-account.js";
import { weighInSheetPage } from "./weigh-in-sheet.js";

export interface Page {
  /** File name without its ending; pages link to each other as `SLUG.html`. */
  readonly slug: string;
  readonly title: string;
  /** A whole HTML document. */
  readonly html: string;
}

export interface PageOptions {
  /** Where the assets are, as seen from a page, with its last slash: "" beside it, by default "assets/". */
  readonly assets?: string;
  /** A way out of the plan's pages, first in the navigation. */
  readonly home?: { readonly href: string; readonly text: string };
}

const PLAN_PAGES: readonly PageMaker[] = [
  glancePage,
  shoppingPage,
  orderOfWorkPage,
  cuttingPage,
  labelsPage,
  partsPage,
  dishesPage,
  allergensPage,
  gramsPage,
  wastePage,
  wasteAccountPage,
  riskPage,
  weighInSheetPage,
];

/**
 * The pages of a plan, in the order they are used; one page with the reasons where there is no plan. A plan whose
 * weights do not close is a RangeError.
 */
export function renderPages(plan: PlanJson, scenario: Scenario, options: PageOptions = {}): Page[] {
  return rendered(hasPlan(plan) ? pagesFor(plan) : [noPlanPage], viewOf(plan, scenario), options);
}

/** What happened by a weigh-in, before the pages of the plan it is held against. */
export function renderHappened(
  planned: PlanJson,
  scenario: Scenario,
  happened: HappenedView["happened"],
  options: PageOptions = {},
): Page[] {
  const makers = [happenedPage({ planned, happened }), ...pagesFor(planned)];
  return rendered(makers, viewOf(planned, scenario), options);
}

function pagesFor(plan: PlanJson): readonly PageMaker[] {
  return PLAN_PAGES.filter((maker) => maker !== riskPage || plan.risk !== null);
}

function rendered(
  makers: readonly PageMaker[],
  view: View,
  { assets = "assets/", home }: PageOptions,
): Page[] {
  const { scenario } = view;
  return makers.map((maker) => {
    const frame = {
      assets,
      script: "",
      unit: view.writing.unit,
      title: maker.title,
      ...headOf(maker.title, [scenario.name, servicesText(scenario), datesText(scenario, view.writing)]),
      linked: "yes",
      home: home === undefined ? [] : [home],
      nav: makers.map(({ slug, title }) => ({
        href: `${slug}.html`,
        text: title,
        current: slug === maker.slug ? "here" : "",
      })),
    };
    return {
      slug: maker.slug,
      title: maker.title,
      html: fill(maker.slug, { frame, ...maker.data(view) }),
    };
  });
}
