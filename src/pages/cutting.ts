import type { PlanJson } from "../contract/index.js";
import type { Handling } from "../kitchen/index.js";
import { Decimal, roundTogether, total, type Weight } from "../quantity/index.js";
import { containers, destinationWords, type PlanPart, usesOf } from "./lots.js";
import type { PageMaker } from "./page.js";
import { BOARD_ORDER, itemsOf, planWeight, rawest, type View, type Warning, warningsAbout } from "./view.js";
import { capital, counted, once } from "./writing.js";

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

type Job = {
  readonly title: string;
  readonly about: string;
  readonly steps: readonly string[];
  readonly parts: readonly PartLine[];
  readonly loss: string;
  readonly total: string;
};

type PartLine = {
  readonly part: string;
  readonly grams: string;
  /** "yes" for what must not be eaten. */
  readonly never: string;
  readonly container: string;
  readonly uses: readonly string[];
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
      const cuts = plan.cuts.filter(({ service }) => service === name);
      const preps = plan.preps.filter(({ service }) => service === name);
      if (cuts.length + preps.length === 0) return [];
      const jobs = [
        ...cuts.map((cut) => ({ handling: handlingOf(cut.item, view), job: cutJob(cut, view) })),
        ...preps.map((prep) => ({
          handling: rawest(itemsOf(prep.from, scenario)),
          job: prepJob(prep, view),
        })),
      ];
      const parts = once([
        ...preps.map(({ from }) => from),
        ...[...cuts, ...preps].flatMap((each) => each.parts.map(({ part }) => part)),
      ]);
      return [
        {
          service: name,
          date: writing.date(date),
          warnings: warningsAbout({ dishes: [], parts }, view),
          boards: BOARD_ORDER.flatMap((handling) => {
            const here = jobs.filter((each) => each.handling === handling).map(({ job }) => job);
            return here.length === 0 ? [] : [{ ...BOARDS[handling], handling, jobs: here }];
          }),
        },
      ];
    }),
  };
}

function handlingOf(item: string, { scenario }: View): Handling {
  return scenario.items.find(({ name }) => name === item)?.handling ?? "poultry";
}

function cutJob(cut: PlanJson["cuts"][number], view: View): Job {
  const { scenario, writing } = view;
  const item = scenario.items.find(({ name }) => name === cut.item);
  const breakdown = item?.breakdowns.find(({ name }) => name === cut.breakdown);
  const weight = planWeight(cut.weight);
  const units =
    cut.units === null ? writing.weight(weight) : counted(writing, cut.units, item?.unitName ?? "");
  const named = item?.unitName === cut.item ? units : `${units} of ${cut.item}`;
  const minutes = breakdown?.minutes ?? null;
  return {
    title: `Cut ${named} in ${cut.breakdown}`,
    about: [
      item?.form ?? "",
      item?.grade ?? "",
      writing.weight(weight),
      minutes === null ? "" : aboutMinutes(minutes.times(cut.units ?? kilograms(weight)), view),
    ]
      .filter((text) => text !== "")
      .join(" · "),
    steps: [item?.treatment ?? "", breakdown?.how ?? ""].filter((text) => text !== ""),
    ...partLines(cut.parts, planWeight(cut.loss), cut.service, view),
  };
}

function prepJob(prep: PlanJson["preps"][number], view: View): Job {
  const { scenario, writing } = view;
  const step = scenario.steps.find(({ name }) => name === prep.step);
  const water = planWeight(prep.water);
  const weight = planWeight(prep.weight);
  const minutes = step?.minutesPerKilogram ?? null;
  return {
    title: capital(prep.step),
    about: [
      `${prep.from} ${writing.weight(weight)}`,
      water === 0n ? "" : `water ${writing.weight(water)}`,
      minutes === null ? "" : aboutMinutes(minutes.times(kilograms(weight)), view),
    ]
      .filter((text) => text !== "")
      .join(" · "),
    steps: [step?.how ?? ""].filter((text) => text !== ""),
    ...partLines(prep.parts, planWeight(prep.loss), prep.service, view),
  };
}

function kilograms(weight: Weight): Decimal {
  return new Decimal(weight.toString()).div(1_000_000);
}

function aboutMinutes(minutes: Decimal, { writing }: View): string {
  return `about ${writing.decimal(minutes.toDecimalPlaces(0, Decimal.ROUND_UP), 0)}\u00a0min`;
}

function partLines(
  parts: readonly PlanPart[],
  loss: Weight,
  service: string,
  view: View,
): Pick<Job, "parts" | "loss" | "total"> {
  const { scenario, writing } = view;
  const rounded = roundTogether([...parts.map(({ weight }) => planWeight(weight)), loss], scenario.scaleStep);
  const labels = containers(view);
  return {
    parts: parts.map(({ part, class: kind }, index) => {
      const label = labels.find((each) => each.part === part && each.service === service)?.label;
      const container = scenario.parts.find(({ name }) => name === part)?.container ?? "";
      return {
        part,
        grams: writing.grams(rounded[index] ?? (0n as Weight)),
        never: kind === "never" ? "yes" : "",
        container:
          label === undefined ? "" : [`Label ${label}`, container].filter((text) => text !== "").join(", "),
        uses: uses(part, service, kind, view),
      };
    }),
    loss: writing.grams(rounded.at(-1) ?? (0n as Weight)),
    total: writing.grams(total(rounded)),
  };
}

function uses(part: string, service: string, kind: PlanPart["class"], view: View): string[] {
  const { plan } = view;
  const dishes = usesOf(part, service, view).map(({ where, weight, pieces }) =>
    pieces === null
      ? `${where}: ${weight}`
      : `${where}: ${weight}, ${counted(view.writing, pieces, "piece")}`,
  );
  const steps = once(
    plan.preps.filter(({ from }) => from === part).map(({ step, service: when }) => `${step}, ${when}`),
  );
  const left = once(
    plan.leftovers
      .filter((each) => each.kind === "part" && each.part === part)
      .map(({ destination }) => destinationWords(destination)),
  );
  const rest = kind !== "food" ? "not for eating: " : dishes.length + steps.length > 0 ? "rest: " : "";
  return [...dishes, ...steps, ...left.map((where) => `${rest}${where}`)];
}
