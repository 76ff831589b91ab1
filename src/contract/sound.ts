import { balances, LedgerError, totalsFromTransfers } from "../ledger/index.js";
import { grams, minus, money, plus, toCurrency, toGrams, total, type Weight } from "../quantity/index.js";
import type { PlanJson } from "./plan.js";
import { words } from "./words.js";

/** Something in a plan's JSON that cannot be so. */
export interface Fault {
  readonly path: readonly (string | number)[];
  readonly code: string;
  readonly what: string;
}

/** A plan as far as its figures hang together; an older one may lack what was added since. */
export type Reckoned = Pick<
  PlanJson,
  "purchases" | "onHand" | "cuts" | "preps" | "goings" | "dishes" | "leftovers"
> & {
  readonly [Key in "services" | "destinations" | "storageLosses" | "transfers" | "weights" | "money"]?:
    | PlanJson[Key]
    | undefined;
};

/** Whatever keeps the figures of a plan from being those of one: what comes in is what goes out, everywhere. */
export function faultsOf(plan: Reckoned): Fault[] {
  return CHECKS.flatMap((check) => check(plan));
}

const CHECKS: readonly ((plan: Reckoned) => Fault[])[] = [
  daysInOrder,
  waysOutFit,
  cutsClose,
  stepsClose,
  portionsClose,
  itemsClose,
  partsClose,
  transfersClose,
  identitiesClose,
];

function daysInOrder({ services = [] }: Reckoned): Fault[] {
  const names = services.map(({ name }) => name);
  return services.flatMap(({ name, date }, index) => [
    ...(index > 0 && date < (services[index - 1]?.date ?? "")
      ? [{ path: ["services", index, "date"], ...words.outOfOrder(date) }]
      : []),
    ...(names.indexOf(name) < index
      ? [{ path: ["services", index, "name"], ...words.serviceTwice(name) }]
      : []),
  ]);
}

/** What goes to people is not wasted, and what is wasted does not go to people. */
function waysOutFit({ destinations = [], transfers = [] }: Reckoned): Fault[] {
  const kinds = new Map(destinations.map(({ name, kind }) => [name, kind]));
  return transfers.flatMap(({ to }, index) => {
    const [account = "", name = ""] = to.split(/:(.*)/s);
    const isGiven = kinds.get(name) === "given away";
    const isWaste = account === "wastedFood" || account === "inedible";
    if (!kinds.has(name) || (isWaste ? !isGiven : account !== "givenAway" || isGiven)) return [];
    const fault = isWaste ? words.wasteGiven(name) : words.givenToNobody(name);
    return [{ path: ["transfers", index, "to"], ...fault }];
  });
}

function cutsClose({ cuts }: Reckoned): Fault[] {
  return cuts.flatMap(({ weight, parts, loss }, index) =>
    closes(["cuts", index], grams(weight), total([...weightsOf(parts), grams(loss)])),
  );
}

function stepsClose({ preps }: Reckoned): Fault[] {
  return preps.flatMap(({ weight, water, parts, loss }, index) =>
    closes(["preps", index], plus(grams(weight), grams(water)), total([...weightsOf(parts), grams(loss)])),
  );
}

function portionsClose({ dishes }: Reckoned): Fault[] {
  const sum = (all: readonly { readonly portions: number }[]) =>
    all.reduce((portions, each) => portions + each.portions, 0);
  return dishes.flatMap(({ portions, eaten, spare, served, spareTo }, index) => [
    ...(portions === eaten + spare
      ? []
      : [
          {
            path: ["dishes", index, "portions"],
            ...words.portionsOpen(eaten, spare, portions),
          },
        ]),
    ...(sum(served) === eaten
      ? []
      : [
          {
            path: ["dishes", index, "served"],
            ...words.servedOpen(sum(served), eaten),
          },
        ]),
    ...(sum(spareTo) === spare
      ? []
      : [{ path: ["dishes", index, "spareTo"], ...words.sentOpen(sum(spareTo), spare) }]),
  ]);
}

function itemsClose({ purchases, onHand, cuts, leftovers, storageLosses = [] }: Reckoned): Fault[] {
  return notEmpty("item", [
    ...purchases.map(({ item, weight }) => [item, grams(weight)] as const),
    ...onHand.flatMap(({ kind, name, weight }) => (kind === "item" ? [[name, grams(weight)] as const] : [])),
    ...cuts.map(({ item, weight }) => [item, less(weight)] as const),
    ...leftovers.flatMap(({ kind, part, weight }) =>
      kind === "item" ? [[part, less(weight)] as const] : [],
    ),
    ...storageLosses.map(({ item, weight }) => [item, less(weight)] as const),
  ]);
}

function partsClose({ onHand, cuts, preps, goings, leftovers }: Reckoned): Fault[] {
  return notEmpty("part", [
    ...onHand.flatMap(({ kind, name, weight }) => (kind === "part" ? [[name, grams(weight)] as const] : [])),
    ...[...cuts, ...preps].flatMap(({ parts }) =>
      parts.map(({ part, weight }) => [part, grams(weight)] as const),
    ),
    ...preps.map(({ from, weight }) => [from, less(weight)] as const),
    ...goings.map(({ part, weight }) => [part, less(weight)] as const),
    ...leftovers.flatMap(({ kind, part, weight }) =>
      kind === "part" ? [[part, less(weight)] as const] : [],
    ),
  ]);
}

/** Items and parts come in and go out by weight, each to nothing. */
function notEmpty(kind: string, movements: readonly (readonly [string, Weight])[]): Fault[] {
  const left = new Map<string, Weight>();
  for (const [name, weight] of movements) left.set(name, plus(left.get(name) ?? grams("0"), weight));
  return [...left]
    .filter(([, weight]) => weight !== 0n)
    .map(([name, weight]) => ({
      path: [kind === "item" ? "purchases" : "goings"],
      ...words.notEmpty(kind, name, weight),
    }));
}

/** Items and parts end with nothing in the ledger, and every total is the sum of its transfers. */
function transfersClose({ transfers, weights, money: sums }: Reckoned): Fault[] {
  if (transfers === undefined) return [];
  const moved = transfers.map(({ from, to, weight, money: cost }) => ({
    from,
    to,
    weight: grams(weight),
    money: money(cost),
  }));
  try {
    const found = totalsFromTransfers(moved);
    const wrong = (group: "weights" | "money", name: string, stated: string, sum: string): Fault => ({
      path: [group, name],
      ...words.wrongTotal(stated, sum),
    });
    const inWeight = Object.entries(found.weights).flatMap(([name, sum]) => {
      const stated = weights?.[name as keyof typeof found.weights];
      if (stated === undefined || grams(stated) === sum) return [];
      return [wrong("weights", name, stated, toGrams(sum).toFixed())];
    });
    const inMoney = Object.entries(found.money).flatMap(([name, sum]) => {
      const stated = sums?.[name as keyof typeof found.money];
      if (stated === undefined || money(stated) === sum) return [];
      return [wrong("money", name, stated, toCurrency(sum).toFixed(2))];
    });
    const open = [...balances(moved)].filter(
      ([account, left]) => /^(?:item|part):/.test(account) && (left.weight !== 0n || left.money !== 0n),
    );
    return [
      ...inWeight,
      ...inMoney,
      ...open.map(([account, left]) => ({
        path: ["transfers"],
        ...words.accountOpen(account, left.weight, left.money),
      })),
    ];
  } catch (error) {
    if (!(error instanceof LedgerError)) throw error;
    return [{ path: ["transfers"], ...words.impossible(error.message) }];
  }
}

/** Both identities, of weights and of money, exactly. */
function identitiesClose({ weights, money: sums }: Reckoned): Fault[] {
  const faults: Fault[] = [];
  if (weights !== undefined) {
    const into = total([weights.purchased, weights.onHand, weights.absorbed].map(grams));
    const out = [weights.inDishes, weights.givenAway, weights.closingStock, weights.wastedFood];
    faults.push(...closes(["weights"], into, total([...out, weights.inedible, weights.losses].map(grams))));
    if (grams(weights.avoidablePeel) > grams(weights.inedible))
      faults.push({ path: ["weights", "avoidablePeel"], ...words.peelAboveInedible() });
  }
  if (sums !== undefined) {
    const into = total([sums.spent, sums.stockValue].map((text) => money(text)));
    const out = [sums.inDishes, sums.givenAway, sums.closingStock, sums.wasted].map((text) => money(text));
    if (into !== total(out))
      faults.push({
        path: ["money"],
        ...words.moneyOpen(into, total(out)),
      });
  }
  return faults;
}

function closes(path: Fault["path"], into: Weight, out: Weight): Fault[] {
  const gap = minus(into, out);
  return gap === 0n ? [] : [{ path, ...words.weightsOpen(gap) }];
}

function less(weight: string): Weight {
  return minus(grams("0"), grams(weight));
}

function weightsOf(parts: readonly { readonly weight: string }[]): Weight[] {
  return parts.map(({ weight }) => grams(weight));
}
