import type { PlanJson } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { grams, type Money, milligrams, money, total, type Weight } from "../quantity/index.js";
import type { Happened, WeighedRow } from "./happened.js";
import { LOSS, ONE_COUNTED, type RowName, WATER } from "./row.js";

/** A weight as planned and as it was. Not weighed, it was told by other weighings or taken as planned. */
export interface Difference {
  readonly name: string;
  readonly planned: Weight;
  readonly actual: Weight;
  readonly weighed: boolean;
  readonly reasons: readonly string[];
}

/** What an item or a part gave: each part, and last the loss. */
export interface Gave {
  /** The item cut, or the step worked. */
  readonly name: string;
  /** What was taken, for a step. */
  readonly from: string;
  readonly taken: Difference;
  /** Parts in their order, then the loss; with water taken up, more than what was taken. */
  readonly gave: readonly Difference[];
}

export interface DishDifference {
  readonly dish: string;
  readonly service: string;
  readonly portions: { readonly planned: number; readonly actual: number; readonly weighed: boolean };
  readonly cost: { readonly planned: Money; readonly actual: Money };
  readonly ceiling: Money | null;
  readonly parts: readonly Difference[];
  readonly reasons: readonly string[];
}

/** Where food nobody ate at a service went. */
export interface EndDifference {
  readonly account: string;
  readonly planned: { readonly weight: Weight; readonly cost: Money };
  readonly actual: { readonly weight: Weight; readonly cost: Money };
  readonly weighed: boolean;
  readonly reasons: readonly string[];
}

/** Items as cut and parts as worked, with what each gave. */
export function gaveDifferences({ rows }: Happened): Gave[] {
  const cuts = grouped(
    rows.filter(({ what, measure }) => what === "cut" && measure === "weight"),
    ({ name }) => name,
  ).map((taken) => gaveOf(taken, rows, (row) => row.what === "cut gave" && row.name === taken[0]?.name));
  const steps = grouped(
    rows.filter(({ what }) => what === "worked"),
    ({ name, way }) => JSON.stringify([name, way]),
  ).map((taken) => {
    const [first] = taken;
    return gaveOf(
      taken,
      rows,
      (row) => row.what === "worked gave" && row.name === first?.name && row.way === first.way,
    );
  });
  return [...cuts, ...steps];
}

function gaveOf(
  taken: readonly WeighedRow[],
  rows: readonly WeighedRow[],
  isGiven: (row: WeighedRow) => boolean,
): Gave {
  const [first] = taken;
  const name = first?.what === "worked" ? first.way : (first?.name ?? "");
  const given = grouped(
    rows.filter((row) => isGiven(row) && row.part !== WATER),
    ({ part }) => part,
  ).map((each) => differenceOf(each[0]?.part ?? "", each));
  const ordered = [...given].sort((a, b) => Number(a.name === LOSS) - Number(b.name === LOSS));
  return {
    name,
    from: first?.what === "worked" ? first.name : "",
    taken: differenceOf(name, taken),
    gave: ordered.filter(isSomething),
  };
}

/** Every cooking, by its parts and its portions. */
export function dishDifferences(
  { plan, rows }: Happened,
  planned: PlanJson,
  serviceNames: readonly string[],
): DishDifference[] {
  return rows
    .filter(({ what }) => what === "cooked")
    .map((cooked): DishDifference => {
      const service = serviceNames[cooked.service ?? 0] ?? "";
      const here = rows.filter(
        (row) => row.what === "into dish" && row.name === cooked.name && row.service === cooked.service,
      );
      const portionRows = rows.filter(({ what, name, lot, service: at }) =>
        name !== cooked.name
          ? false
          : what === "eaten"
            ? lot?.kind === "cut" && lot.service === cooked.service
            : (what === "spare" || what === "cooked") && at === cooked.service,
      );
      const costIn = ({ dishes }: PlanJson) =>
        dishes.find((each) => each.dish === cooked.name && each.service === service)?.cost ?? "0";
      const ceiling = planned.dishes.find(({ dish }) => dish === cooked.name)?.ceiling ?? null;
      return {
        dish: cooked.name,
        service,
        portions: {
          planned: Number(cooked.planned / ONE_COUNTED),
          actual: Number(cooked.actual / ONE_COUNTED),
          weighed: cooked.weighed,
        },
        cost: { planned: money(costIn(planned)), actual: money(costIn(plan)) },
        ceiling: ceiling === null ? null : money(ceiling),
        parts: grouped(here, ({ part }) => part)
          .map((each) => differenceOf(each[0]?.part ?? "", each))
          .filter(isSomething),
        reasons: reasonsOf(portionRows),
      };
    })
    .filter(({ portions, parts }) => portions.planned + portions.actual > 0 || parts.length > 0);
}

const ENDS = ["givenAway", "closingStock", "wastedFood", "inedible", "loss"];

/** Every account where food nobody ate, inedible parts and losses end, by weight and cost. */
export function endDifferences({ plan, rows, scenario }: Happened, planned: PlanJson): EndDifference[] {
  const accounts = [...planned.transfers, ...plan.transfers]
    .map(({ to }) => to)
    .filter((to, index, all) => all.indexOf(to) === index && ENDS.includes(to.split(":", 1)[0] ?? ""));
  const into = ({ transfers }: PlanJson, account: string) => {
    const here = transfers.filter(({ to }) => to === account);
    return {
      weight: total(here.map(({ weight }) => grams(weight))),
      cost: total(here.map((transfer) => money(transfer.money))),
    };
  };
  return accounts
    .map((account) => {
      const mine = rows.filter(
        (row) => (row.planned !== 0n || row.actual !== 0n) && endsIn(row, account, scenario),
      );
      return {
        account,
        planned: into(planned, account),
        actual: into(plan, account),
        weighed: mine.length > 0 && mine.every(({ weighed, measure }) => weighed || measure !== "weight"),
        reasons: reasonsOf(mine),
      };
    })
    .sort((a, b) => rank(a.account) - rank(b.account));
}

/** Whether what the row weighs ends in the account. Inedible parts and food may go to one place. */
function endsIn({ what, name, way, part }: RowName, account: string, { parts }: Scenario): boolean {
  const [kind = "", where = ""] = account.split(/:(.*)/s);
  if (what === "kept") return kind === "closingStock";
  if (what === "storage loss") return account === "loss:storage";
  if (what === "cut gave" || what === "worked gave") return part === LOSS && account === "loss:cutting";
  const isEaten = kind !== "inedible";
  if (what === "spare") return way === where && isEaten;
  const isFood = parts.find((each) => each.name === name)?.class === "food";
  return what === "left over" && way === where && (isFood ? isEaten : kind === "inedible");
}

function rank(account: string): number {
  return ENDS.indexOf(account.split(":", 1)[0] ?? "");
}

function isSomething({ planned, actual }: Difference): boolean {
  return planned !== 0n || actual !== 0n;
}

function differenceOf(name: string, rows: readonly WeighedRow[]): Difference {
  const real = rows.filter(({ planned, actual }) => planned !== 0n || actual !== 0n);
  return {
    name,
    planned: total(rows.map(({ planned }) => milligrams(planned))),
    actual: total(rows.map(({ actual }) => milligrams(actual))),
    weighed: real.length > 0 && real.every(({ weighed }) => weighed),
    reasons: reasonsOf(rows),
  };
}

function reasonsOf(rows: readonly WeighedRow[]): string[] {
  return [...new Set(rows.map(({ reason }) => reason).filter((reason) => reason !== ""))];
}

function grouped(rows: readonly WeighedRow[], keyOf: (row: WeighedRow) => string): WeighedRow[][] {
  const groups = new Map<string, WeighedRow[]>();
  for (const row of rows) groups.set(keyOf(row), [...(groups.get(keyOf(row)) ?? []), row]);
  return [...groups.values()];
}
