import type { Handling } from "../kitchen/index.js";
import { type Job, jobsBefore } from "./jobs.js";
import type { PageMaker } from "./page.js";
import { BOARD_ORDER, type View, type Warning, warningsAbout } from "./view.js";
import { once } from "./writing.js";

type Cutting = { readonly services: readonly ServiceSheet[] };

type ServiceSheet = {
  readonly service: string;
  readonly date: string;
  readonly warnings: readonly Warning[];
  readonly boards: readonly Board[];
};

type Board = {
  readonly name: string;
  readonly caution: string;
  readonly handling: Handling;
  readonly jobs: readonly Job[];
};

const BOARDS: Readonly<Record<Handling, { name: string; caution: string }>> = {
  plant: { name: "Ready to eat and plants", caution: "Clean board and knife. Wash hands first." },
  egg: { name: "Eggs", caution: "Wash hands after shells." },
  fish: { name: "Raw fish", caution: "Change board and knife. Wash hands before and after." },
  meat: { name: "Raw meat", caution: "Change board and knife. Wash hands before and after." },
  poultry: {
    name: "Raw poultry",
    caution: "Last on the boards. Change board and knife. Wash hands before and after, then clean down.",
  },
};

/** What to cut before each service, ready-to-eat food first and poultry last, with room for what it weighed. */
export const cuttingPage: PageMaker = { slug: "cutting", title: "Cutting sheet", data: cuttingData };

export function cuttingData(view: View): Cutting {
  const { plan, scenario, writing } = view;
  return {
    services: scenario.services.flatMap(({ name, date }) => {
      const jobs = jobsBefore(name, view);
      if (jobs.length === 0) return [];
      const here = [...plan.cuts, ...plan.preps].filter(({ service }) => service === name);
      const parts = once([
        ...plan.preps.filter(({ service }) => service === name).map(({ from }) => from),
        ...here.flatMap((each) => each.parts.map(({ part }) => part)),
      ]);
      return [
        {
          service: name,
          date: writing.date(date),
          warnings: warningsAbout({ dishes: [], parts }, view),
          boards: BOARD_ORDER.flatMap((handling) => {
            const own = jobs.filter((each) => each.handling === handling).map(({ job }) => job);
            return own.length === 0 ? [] : [{ ...BOARDS[handling], handling, jobs: own }];
          }),
        },
      ];
    }),
  };
}
