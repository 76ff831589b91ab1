import { decodePlan, type Plan, type PlanJson } from "../contract/index.js";
import {
  type Money,
  minus,
  money,
  NO_MONEY,
  NO_WEIGHT,
  roundAround,
  roundTogether,
  toCurrency,
  total,
  type Weight,
} from "../quantity/index.js";
import { cooksWasteOf } from "../waste-accounts/index.js";
import {
  type Difference,
  type DishDifference,
  dishDifferences,
  endDifferences,
  type Gave,
  gaveDifferences,
  type Happened,
} from "../weigh-in/index.js";
import {
  type Balance,
  balance,
  moneyBalance,
  type Rows,
  type Term,
  WEIGHTS_IN,
  WEIGHTS_OUT,
  type WeightKey,
} from "./balance.js";
import type { PageMaker } from "./page.js";
import { endWords, isKind, shortName, type View } from "./view.js";
import { wasteCompared, wasteNote } from "./waste-figures.js";
import { capital, coins, type Writing } from "./writing.js";

/** A plan as kept, and what happened. */
export interface HappenedView {
  readonly planned: PlanJson;
  readonly happened: Happened;
}

type HappenedData = {
  readonly share: string;
  readonly gave: readonly Table[];
  readonly dishes: readonly DishTable[];
  readonly ends: readonly EndRow[];
  readonly endTotal: EndRow;
  readonly waste: readonly Compared[];
  readonly balances: readonly Balance[];
};
type Table = {
  readonly name: string;
  readonly about: string;
  readonly rows: readonly Row[];
  readonly sum: Row;
};
type Row = {
  readonly name: string;
  readonly kind: string;
  readonly planned: string;
  readonly actual: string;
  readonly difference: string;
  readonly plannedPercent: string;
  readonly percent: string;
  readonly unweighed: string;
  readonly notes: readonly string[];
};
type DishTable = {
  readonly name: string;
  readonly about: string;
  readonly notes: readonly string[];
  readonly rows: readonly Row[];
};
type EndRow = {
  readonly name: string;
  readonly planned: string;
  readonly actual: string;
  readonly difference: string;
  readonly cost: string;
  readonly unweighed: string;
  readonly notes: readonly string[];
};
type Compared = {
  readonly name: string;
  readonly note: string;
  readonly planned: string;
  readonly actual: string;
  readonly difference: string;
};

const NOT_WEIGHED = "not weighed";
const NOT_COUNTED = "not counted";

/** What every part and dish came to against the plan, where the rest went, and both balances of what happened. */
export function happenedPage(shown: HappenedView): PageMaker {
  return { slug: "happened", title: "What happened", data: (view) => happenedData(shown, view) };
}

export function happenedData({ planned, happened }: HappenedView, view: View): HappenedData {
  const { writing, scenario } = view;
  const services = scenario.services.map(({ name }) => name);
  const dishes = dishDifferences(happened, planned, services);
  const actual = decodePlan(happened.plan);
  return {
    share: shareWords(actual, writing),
    gave: gaveDifferences(happened).map((each) => gaveTable(each, view)),
    dishes: dishes.map((dish) => dishTable(dish, services.length > 1, view)),
    ...endRows(planned, happened, view),
    waste: wasteTable(view.plan, actual, writing),
    balances: [
      weightBalance(view.plan, actual, view),
      moneyBalance([view.plan, actual], ["Plan", "Actual"], view),
    ],
  };
}

function shareWords({ weighIn }: Plan, writing: Writing): string {
  const { figures = 0, weighed = 0 } = weighIn ?? {};
  const percent = figures === 0 ? 0 : Math.floor((100 * weighed) / figures);
  return `${writing.count(weighed)} of ${writing.count(figures)} figures were weighed, counted or billed (${percent} %). The others are told by these, or taken as planned, and marked “${NOT_WEIGHED}”.`;
}

function gaveTable({ name, from, taken, gave }: Gave, view: View): Table {
  const { writing, scenario } = view;
  const planned = rounded(gave, "planned", view);
  const actual = rounded(gave, "actual", view);
  const plannedPercents = writing.percents(planned.map(atLeastNothing));
  const percents = writing.percents(actual.map(atLeastNothing));
  return {
    name: capital(name),
    about: from,
    rows: gave.map((each, index) => ({
      ...rowOf(each, planned[index] ?? each.planned, actual[index] ?? each.actual, writing),
      name: each.name === "loss" ? "Loss" : capital(shortName(each.name, name)),
      kind: KINDS[scenario.parts.find((part) => part.name === each.name)?.class ?? "food"],
      plannedPercent: plannedPercents[index] ?? "",
      percent: percents[index] ?? "",
    })),
    sum: {
      ...rowOf(taken, total(planned), total(actual), writing),
      name: from === "" ? "As purchased" : "Taken, with water",
      plannedPercent: writing.wholePercent,
      percent: writing.wholePercent,
    },
  };
}

const KINDS = { food: "", inedible: "inedible", never: "never eaten" } as const;

function atLeastNothing(weight: Weight): Weight {
  return weight < 0n ? (0n as Weight) : weight;
}

function rounded(
  differences: readonly Difference[],
  side: "planned" | "actual",
  { scenario }: View,
): Weight[] {
  return roundTogether(
    differences.map((each) => each[side]),
    scenario.scaleStep,
  );
}

function rowOf(
  { name, weighed, reasons }: Pick<Difference, "name" | "weighed" | "reasons">,
  planned: Weight,
  actual: Weight,
  writing: Writing,
): Row {
  return {
    name: capital(name),
    kind: "",
    planned: writing.shown(planned),
    actual: writing.shown(actual),
    difference: signed(minus(actual, planned), writing),
    plannedPercent: "",
    percent: "",
    unweighed: weighed ? "" : NOT_WEIGHED,
    notes: reasons,
  };
}

function signed(difference: Weight, writing: Writing): string {
  if (difference === 0n) return "0";
  return difference > 0n ? `+${writing.shown(difference)}` : writing.shown(difference).replace("-", "−");
}

function dishTable(
  { dish, service, portions, cost, ceiling, parts, reasons }: DishDifference,
  named: boolean,
  view: View,
): DishTable {
  const { writing } = view;
  const planned = rounded(parts, "planned", view);
  const actual = rounded(parts, "actual", view);
  const each = (amount: Money, count: number) =>
    writing.money(count === 0 ? NO_MONEY : money(toCurrency(amount).div(count)));
  const limit = ceiling === null ? "" : `, ceiling ${writing.money(ceiling)}`;
  const counted = portions.weighed ? "" : `, ${NOT_COUNTED}`;
  return {
    name: capital(dish),
    about: named ? service : "",
    notes: [
      `${writing.count(portions.actual)} portions, planned ${writing.count(portions.planned)}${counted}; ${each(cost.actual, portions.actual)} each, planned ${each(cost.planned, portions.planned)}${limit}`,
      ...reasons,
    ],
    rows: parts.map((part, index) =>
      rowOf(part, planned[index] ?? part.planned, actual[index] ?? part.actual, writing),
    ),
  };
}

function endRows(planned: PlanJson, happened: Happened, view: View): Pick<HappenedData, "ends" | "endTotal"> {
  const { writing, scenario, accountOf } = view;
  const ends = endDifferences(happened, planned);
  const isWasted = (index: number): boolean => isKind(ends[index]?.account ?? "", "wastedFood");
  const weights = (side: "planned" | "actual"): Weight[] =>
    roundAround(
      ends.map((end) => end[side].weight),
      scenario.scaleStep,
      isWasted,
    );
  const before = weights("planned");
  const after = weights("actual");
  const costs = coins(
    ends.map((end) => end.actual.cost),
    scenario,
  );
  const row = (
    name: string,
    was: Weight,
    is: Weight,
    cost: Money,
    unweighed: string,
    notes: readonly string[],
  ): EndRow => ({
    name,
    planned: writing.shown(was),
    actual: writing.shown(is),
    difference: signed(minus(is, was), writing),
    cost: writing.money(cost),
    unweighed,
    notes,
  });
  return {
    ends: ends.map(({ account, weighed, reasons }, index) =>
      row(
        capital(endWords(accountOf(account))),
        before[index] ?? (0n as Weight),
        after[index] ?? (0n as Weight),
        costs[index] ?? NO_MONEY,
        weighed ? "" : NOT_WEIGHED,
        reasons,
      ),
    ),
    endTotal: row("All", total(before), total(after), total(costs), "", []),
  };
}

function wasteTable(planned: Plan, actual: Plan, writing: Writing): Compared[] {
  return wasteCompared(cooksWasteOf(planned), cooksWasteOf(actual), writing).map(
    ({ figure, planned: was, actual: is }) => ({
      name: figure.name,
      note: wasteNote(figure),
      planned: writing.shown(was),
      actual: writing.shown(is),
      difference: signed(minus(is, was), writing),
    }),
  );
}

function weightBalance(planned: Plan, actual: Plan, { scenario, writing }: View): Balance {
  const texts = (plan: Plan, rows: Rows<WeightKey>) =>
    roundAround(
      rows.map(([, key]) => plan.weights[key]),
      scenario.scaleStep,
      (index) => rows[index]?.[1] === "wastedFood",
    );
  const terms = (rows: Rows<WeightKey>): Term[] => {
    const [before, after] = [texts(planned, rows), texts(actual, rows)];
    return rows.map(([name], index) => ({
      name,
      figures: [before, after].map((weights) => writing.shown(weights[index] ?? NO_WEIGHT)),
    }));
  };
  const all = (plan: Plan) => writing.shown(total(texts(plan, WEIGHTS_IN)));
  return balance(
    "Weight balances",
    [`Plan, ${writing.unit}`, `Actual, ${writing.unit}`],
    terms(WEIGHTS_IN),
    terms(WEIGHTS_OUT),
    [all(planned), all(actual)],
  );
}
