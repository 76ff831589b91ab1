import type { Item } from "../kitchen/index.js";
import { NO_MONEY, NO_WEIGHT, roundTogether, total, type Weight } from "../quantity/index.js";
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
import { endsOf, flowTotal } from "./movements.js";
import { ownTestsWords } from "./own-tests.js";
import type { PageMaker } from "./page.js";
import { endWords, isKind, shortName, type View } from "./view.js";
import { type WasteRow, wasteRows } from "./waste-figures.js";
import { capital, coins, once } from "./writing.js";

type Waste = {
  readonly items: readonly ItemGroup[];
  readonly destinations: readonly DestinationLine[];
  readonly destinationTotal: { readonly shown: string; readonly cost: string };
  readonly wasteFigures: readonly WasteRow[];
  readonly balances: readonly Balance[];
};

type ItemGroup = {
  readonly name: string;
  readonly about: string;
  /** Where the yields come from, a line for each breakdown with own tests. */
  readonly notes: readonly string[];
  readonly rows: readonly PartRow[];
  readonly sum: PartRow;
};
type PartRow = {
  readonly name: string;
  readonly kind: string;
  readonly percent: string;
  readonly shown: string;
};
type DestinationLine = {
  readonly where: string;
  readonly what: string;
  readonly shown: string;
  readonly cost: string;
};

/** What every item gave and where the rest went, by weight and by cost, with room for what was really weighed. */
export const wastePage: PageMaker = { slug: "waste", title: "Yield and waste by weight", data: wasteData };

export function wasteData(view: View): Waste {
  return {
    items: [...itemGroups(view), ...stepGroups(view)],
    ...destinations(view),
    wasteFigures: wasteRows(view.plan, view.writing),
    balances: [weightBalance(view), moneyBalance([view.plan], [view.scenario.currency], view)],
  };
}

const CLASSES = { food: "", inedible: "inedible", never: "never eaten" } as const;

function itemGroups(view: View): ItemGroup[] {
  const { scenario } = view;
  return scenario.items.flatMap((item): ItemGroup[] => {
    const group = groupFrom(`item:${item.name}`, item.name, "as purchased", item.of, view);
    return group === null ? [] : [{ ...group, notes: testNotes(item, view) }];
  });
}

/** The own tests behind the breakdowns that the plan cuts by. */
function testNotes({ name, breakdowns }: Item, { plan, writing }: View): string[] {
  const cut = plan.cuts.filter(({ item }) => item === name).map(({ breakdown }) => breakdown);
  return breakdowns.flatMap(({ name: breakdown, ownTests }) =>
    ownTests === undefined || !cut.includes(breakdown)
      ? []
      : [`${capital(breakdown)}: ${ownTestsWords(ownTests, writing)}.`],
  );
}

/** Further breakdowns: what a part, and any water it took up, became. */
function stepGroups(view: View): ItemGroup[] {
  const { plan, scenario, writing } = view;
  return once(plan.preps.map(({ step, from }) => JSON.stringify([step, from]))).map((key): ItemGroup => {
    const [step = "", from = ""] = JSON.parse(key) as string[];
    const here = plan.preps.filter((each) => each.step === step && each.from === from);
    const parts = once(here.flatMap((each) => each.parts.map(({ part }) => part)));
    const weights = [
      ...parts.map((part) =>
        total(
          here.flatMap((each) => each.parts.filter((one) => one.part === part).map(({ weight }) => weight)),
        ),
      ),
      total(here.map(({ loss }) => loss)),
    ];
    const rounded = roundTogether(weights, scenario.scaleStep);
    const percents = writing.percents(rounded);
    const water = total(here.map((each) => each.water));
    const rows = rounded.map((weight, index): PartRow & { weight: Weight } => ({
      name: parts[index] ?? "cutting loss",
      kind: parts[index] === undefined ? "loss" : kindOf(parts[index] ?? "", view),
      percent: percents[index] ?? "",
      shown: writing.shown(weight),
      weight,
    }));
    const sum = sumRow(total(rounded), view);
    const of = water === 0n ? from : `${from}, with ${writing.weight(water)} water`;
    return {
      name: capital(step),
      about: `${of}, ${sum.shown} ${writing.unit}`,
      notes: [],
      rows: rows.filter(({ weight }) => weight !== 0n).map(({ weight: _, ...row }) => row),
      sum,
    };
  });
}

function kindOf(part: string, { scenario }: View): string {
  return CLASSES[scenario.parts.find(({ name }) => name === part)?.class ?? "food"];
}

function groupFrom(account: string, name: string, about: string, of: string, view: View): ItemGroup | null {
  const { writing, movements } = view;
  const out = movements.flows.filter(({ from, weight }) => from === account && weight > 0n);
  if (out.length === 0) return null;
  const targets = once(out.map(({ to }) => to)).sort((a, b) => place(a, view) - place(b, view));
  const weights = targets.map((to) =>
    total(out.filter((each) => each.to === to).map(({ weight }) => weight)),
  );
  const percents = writing.percents(weights);
  const sum = sumRow(total(weights), view);
  return {
    name,
    about: `${about}, ${sum.shown} ${writing.unit}`,
    notes: [],
    rows: targets.map((to, index) => ({
      name: rowName(to, of, view),
      kind: to.startsWith("part:") ? kindOf(to.slice("part:".length), view) : "",
      percent: percents[index] ?? "",
      shown: writing.shown(weights[index] ?? NO_WEIGHT),
    })),
    sum,
  };
}

function sumRow(weight: Weight, { writing }: View): PartRow {
  return { name: "All", kind: "", percent: writing.wholePercent, shown: writing.shown(weight) };
}

/** Food first, then what is not eaten, then losses, then what was never cut. */
function place(to: string, { scenario }: View): number {
  if (isKind(to, "loss")) return 3;
  if (!isKind(to, "part")) return 4;
  const kind = scenario.parts.find(({ name }) => `part:${name}` === to)?.class ?? "food";
  return kind === "food" ? 0 : kind === "inedible" ? 1 : 2;
}

function rowName(to: string, of: string, { accountOf }: View): string {
  const account = accountOf(to);
  if (account.kind === "part") return shortName(account.name, of);
  return account.kind === "loss" ? endWords(account) : `whole: ${endWords(account)}`;
}

const ENDS = [
  ["givenAway", "given away"],
  ["wastedFood", "wasted food"],
  ["inedible", "inedible parts"],
] as const;

function destinations(view: View): Pick<Waste, "destinations" | "destinationTotal"> {
  const { plan, scenario, writing, movements } = view;
  const found = ENDS.flatMap(([kind, what]) =>
    once(movements.flows.map(({ to }) => to).filter((to) => isKind(to, kind))).map((account) => ({
      account,
      what,
    })),
  );
  const weights = found.map(({ account }) => flowTotal(view.movements, ({ to }) => to === account));
  const costs = coins(
    found.map(({ account }) =>
      total(plan.transfers.filter(({ to }) => to.id === account).map((transfer) => transfer.money)),
    ),
    scenario,
  );
  return {
    destinations: found.map(({ account, what }, index) => ({
      where: capital(account.slice(account.indexOf(":") + 1)),
      what,
      shown: writing.shown(weights[index] ?? NO_WEIGHT),
      cost: writing.money(costs[index] ?? NO_MONEY),
    })),
    destinationTotal: { shown: writing.shown(total(weights)), cost: writing.money(total(costs)) },
  };
}

function weightBalance({ movements, writing }: View): Balance {
  const from = (kind: string) => flowTotal(movements, (flow) => isKind(flow.from, kind));
  const came = { purchased: from("supplier"), onHand: from("onHand"), absorbed: from("water") };
  const weights = { ...came, ...endsOf(movements) };
  const terms = (rows: Rows<WeightKey>): Term[] =>
    rows.map(([name, key]) => ({ name, figures: [writing.shown(weights[key])] }));
  const sum = writing.shown(total(Object.values(came)));
  return balance("Weight balances", [writing.unit], terms(WEIGHTS_IN), terms(WEIGHTS_OUT), [sum]);
}
