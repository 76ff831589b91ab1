import { total, type Weight } from "../quantity/index.js";
import { endsOf, flowTotal } from "./movements.js";
import { type OutcomeWords, outcomeWords } from "./outcome-words.js";
import type { PageMaker } from "./page.js";
import { isKind, type View, type Warning, warningsOf } from "./view.js";
import { type WasteRow, wasteRows } from "./waste-figures.js";
import { counted, cutWords, once } from "./writing.js";

type Glance = {
  readonly outcome: OutcomeWords;
  readonly figures: readonly { readonly name: string; readonly value: string; readonly note: string }[];
  readonly warnings: readonly Warning[];
  readonly items: readonly ItemLine[];
  readonly services: readonly ServiceGroup[];
  readonly spareColumn: readonly string[];
  readonly ceilingColumn: readonly string[];
  readonly menuColumns: string;
  readonly wasteFigures: readonly WasteRow[];
  readonly ends: readonly End[];
  readonly endTotal: End;
};

type ItemLine = { readonly item: string; readonly buy: string; readonly cuts: readonly string[] };
type ServiceGroup = {
  readonly service: string;
  readonly date: string;
  readonly covers: string;
  readonly dishes: readonly DishLine[];
};
type DishLine = {
  readonly dish: string;
  readonly note: string;
  readonly portions: string;
  readonly spare: readonly string[];
  readonly cost: string;
  readonly ceiling: readonly string[];
};
type End = { readonly name: string; readonly shown: string; readonly percent: string };

/** The plan in short: what to buy, cut and cook, how good it is known to be, and where the weight ends. */
export const glancePage: PageMaker = { slug: "glance", title: "Plan at a glance", data: glanceData };

export function glanceData(view: View): Glance {
  const { plan, writing } = view;
  const spareColumn = plan.dishes.some(({ spare }) => spare > 0) ? ["Spare"] : [];
  const ceilingColumn = plan.dishes.some(({ ceiling }) => ceiling !== null) ? ["Ceiling"] : [];
  return {
    outcome: outcomeWords(plan, writing),
    figures: keyFigures(view),
    warnings: warningsOf(view),
    items: itemLines(view),
    services: serviceGroups(view, { spare: spareColumn.length > 0, ceiling: ceilingColumn.length > 0 }),
    spareColumn,
    ceilingColumn,
    menuColumns: String(3 + spareColumn.length + ceilingColumn.length),
    wasteFigures: wasteRows(plan, writing),
    ...ends(view),
  };
}

/** In a cell that has nothing to say. */
const NONE = "–";

function keyFigures(view: View): Glance["figures"] {
  const { plan, writing } = view;
  const inFlow = flowTotal(view.movements, ({ from }) => isKind(from, "supplier", "onHand", "water"));
  const { inDishes: onPlates, givenAway, closingStock, wastedFood: wasted } = endsOf(view.movements);
  const usable = total([onPlates, givenAway, closingStock, wasted]);
  const share = `${writing.percent(wasted, usable)} of ${writing.weight(usable)} usable`;
  return [
    {
      name: "Wasted food",
      value: writing.weight(wasted),
      note: share,
    },
    {
      name: "On plates",
      value: writing.weight(onPlates),
      note: `${writing.percent(onPlates, inFlow)} of all weight`,
    },
    {
      name: "Spent",
      value: writing.money(plan.money.spent),
      note: `${writing.money(plan.money.wasted)} of it wasted`,
    },
  ];
}

function itemLines({ plan, scenario, writing }: View): ItemLine[] {
  const names = once([...plan.purchases, ...plan.cuts].map(({ item }) => item));
  return names.map((item) => {
    const unit = scenario.items.find(({ name }) => name === item)?.unitName ?? "";
    const bought = plan.purchases.filter((each) => each.item === item);
    const cuts = plan.cuts.filter((each) => each.item === item);
    return {
      item,
      buy:
        bought.length === 0
          ? "from the house"
          : bought
              .map(({ units, orderUnit, weight }) =>
                orderUnit === "kg"
                  ? counted(writing, units, orderUnit)
                  : `${counted(writing, units, orderUnit)}, ${writing.weight(weight)}`,
              )
              .join("; "),
      cuts: once(cuts.map(({ service }) => service)).map((service) => {
        const here = cuts
          .filter((each) => each.service === service)
          .map(({ units, breakdown, weight }) =>
            units === null
              ? `${writing.weight(weight)} ${cutWords(breakdown)}`
              : `${counted(writing, units, unit)} ${cutWords(breakdown)}`,
          );
        return `${service}: ${here.join(", ")}`;
      }),
    };
  });
}

function serviceGroups(
  { plan, scenario, writing }: View,
  shown: { spare: boolean; ceiling: boolean },
): ServiceGroup[] {
  return scenario.services.flatMap(({ name, date, covers }) => {
    const dishes = plan.dishes.filter(({ service, portions }) => service === name && portions > 0);
    const again = plan.dishes.flatMap(({ dish, service, served }) =>
      served
        .filter((sitting) => service !== name && sitting.service === name)
        .map(
          ({ portions }): DishLine => ({
            dish,
            note: `${counted(writing, portions, "portion")} kept from ${service}`,
            portions: NONE,
            spare: shown.spare ? [NONE] : [],
            cost: NONE,
            ceiling: shown.ceiling ? [NONE] : [],
          }),
        ),
    );
    if (dishes.length + again.length === 0) return [];
    return [
      {
        service: name,
        date: writing.date(date),
        covers: covers === 0 ? "" : counted(writing, covers, "cover"),
        dishes: [
          ...dishes.map(
            ({ dish, portions, spare, costPerPortion, ceiling }): DishLine => ({
              dish,
              note: "",
              portions: writing.count(portions),
              spare: shown.spare ? [spare === 0 ? NONE : writing.count(spare)] : [],
              cost: writing.money(costPerPortion),
              ceiling: shown.ceiling ? [ceiling === null ? NONE : writing.money(ceiling)] : [],
            }),
          ),
          ...again,
        ],
      },
    ];
  });
}

function ends(view: View): { ends: End[]; endTotal: End } {
  const { writing } = view;
  const weights = endsOf(view.movements);
  const rows: [string, Weight][] = [
    ["On plates", weights.inDishes],
    ["Given away", weights.givenAway],
    ["Closing stock", weights.closingStock],
    ["Wasted food", weights.wastedFood],
    ["Inedible", weights.inedible],
    ["Cutting, storage and cooking loss", weights.losses],
  ];
  const shown = rows.filter(([, weight]) => weight !== 0n);
  const percents = writing.percents(shown.map(([, weight]) => weight));
  const all = total(shown.map(([, weight]) => weight));
  return {
    ends: shown.map(([name, weight], index) => ({
      name,
      shown: writing.shown(weight),
      percent: percents[index] ?? "",
    })),
    endTotal: { name: "All", shown: writing.shown(all), percent: writing.wholePercent },
  };
}
