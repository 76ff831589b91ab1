import type { Plan } from "../contract/index.js";
import { type Money, NO_MONEY, NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";
import {
  COUNTING_RULES,
  type Count,
  DESTINATION_OF_KIND,
  FLW_DESTINATIONS,
  type FlwDestination,
} from "./destinations.js";

/** The two material types of the Food Loss and Waste Standard. */
const MATERIALS = ["food", "inedible parts"] as const;
export type Material = (typeof MATERIALS)[number];

/** Whether the weights are what a plan says or what was weighed. */
export type Standing = "plan" | "actual";

/** What an account is made from: a plan, or what was done, composed alike. */
type Accounted = Pick<
  Plan,
  "services" | "destinations" | "dishes" | "transfers" | "weights" | "waste" | "money"
>;

export interface AccountRow {
  readonly material: Material;
  readonly destination: FlwDestination;
  /** The kitchen's own names for where it went. */
  readonly names: readonly string[];
  readonly weight: Weight;
  readonly money: Money;
}

/** The food lost and wasted by one plan or one period. */
export interface WasteAccount {
  readonly label: string;
  readonly standings: readonly Standing[];
  /** First and last day, ISO 8601. */
  readonly from: string;
  readonly to: string;
  readonly currency: string;
  readonly rows: readonly AccountRow[];
  /** What comes in: bought, on hand before, and water taken up. */
  readonly purchased: Weight;
  readonly onHand: Weight;
  readonly absorbed: Weight;
  /** What people eat or will: on plates, given away, kept. */
  readonly onPlates: Weight;
  readonly givenAway: Weight;
  readonly closingStock: Weight;
  /** Juice, drip, steam: no waste. */
  readonly losses: Weight;
  readonly waste: CooksWaste;
  /** People expected; 0 where the plan counts in portions. */
  readonly covers: number;
  readonly portionsEaten: number;
  readonly spent: Money;
}

/** The account of a plan, or of what was done. */
export function accountOf(done: Accounted, label: string, standing: Standing): WasteAccount {
  const { services, dishes, weights, money: sums } = done;
  return {
    label,
    standings: [standing],
    from: services[0]?.date ?? "",
    to: services.at(-1)?.date ?? "",
    currency: sums.currency,
    rows: rowsOf(done),
    purchased: weights.purchased,
    onHand: weights.onHand,
    absorbed: weights.absorbed,
    onPlates: weights.inDishes,
    givenAway: weights.givenAway,
    closingStock: weights.closingStock,
    losses: weights.losses,
    waste: cooksWasteOf(done),
    covers: services.reduce((sum, { covers }) => sum + covers, 0),
    portionsEaten: dishes.reduce((sum, { eaten }) => sum + eaten, 0),
    spent: sums.spent,
  };
}

/**
 * Several accounts as one period. A RangeError where there is none, or they are in different currencies: what they
 * lost cannot be added up. Where one does not count its covers, the period counts in portions.
 */
export function periodOf(accounts: readonly WasteAccount[], label: string): WasteAccount {
  const [first] = accounts;
  if (first === undefined) throw new RangeError("a period of no account");
  if (accounts.some(({ currency }) => currency !== first.currency))
    throw new RangeError("accounts in different currencies cannot be added up");
  const sumOf = (read: (account: WasteAccount) => Weight): Weight => total(accounts.map(read));
  const number = (read: (account: WasteAccount) => number): number =>
    accounts.reduce((sum, account) => sum + read(account), 0);
  return {
    label,
    standings: [...new Set(accounts.flatMap(({ standings }) => standings))],
    from: accounts.map(({ from }) => from).sort()[0] ?? "",
    to:
      accounts
        .map(({ to }) => to)
        .sort()
        .at(-1) ?? "",
    currency: first.currency,
    rows: gathered(accounts.flatMap(({ rows }) => rows)),
    purchased: sumOf(({ purchased }) => purchased),
    onHand: sumOf(({ onHand }) => onHand),
    absorbed: sumOf(({ absorbed }) => absorbed),
    onPlates: sumOf(({ onPlates }) => onPlates),
    givenAway: sumOf(({ givenAway }) => givenAway),
    closingStock: sumOf(({ closingStock }) => closingStock),
    losses: sumOf(({ losses }) => losses),
    waste: cooksWasteOfAll(accounts.map(({ waste }) => waste)),
    covers: accounts.every(({ covers }) => covers > 0) ? number(({ covers }) => covers) : 0,
    portionsEaten: number(({ portionsEaten }) => portionsEaten),
    spent: total(accounts.map(({ spent }) => spent)),
  };
}

const MATERIAL_OF: Readonly<Record<string, Material>> = { wastedFood: "food", inedible: "inedible parts" };

/** Every transfer to where no one eats it, by material and destination. */
function rowsOf({ transfers, destinations }: Accounted): AccountRow[] {
  const kinds = new Map(destinations.map(({ name, kind }) => [name, kind]));
  const rows = transfers.flatMap(({ to, weight, money: lost }): AccountRow[] => {
    const { name } = to;
    const material = MATERIAL_OF[to.kind];
    if (material === undefined) return [];
    const kind = kinds.get(name) ?? "waste";
    const destination = DESTINATION_OF_KIND[kind];
    if (destination === null) throw new RangeError(`${name} gives to people, and ${to.id} is waste`);
    return [{ material, destination, names: [name], weight, money: lost }];
  });
  return gathered(rows);
}

/** Rows of one material and destination as one, in the order of the scale, food first. */
function gathered(rows: readonly AccountRow[]): AccountRow[] {
  return FLW_DESTINATIONS.flatMap((destination) =>
    MATERIALS.flatMap((material): AccountRow[] => {
      const here = rows.filter((row) => row.destination === destination && row.material === material);
      const weight = total(here.map((row) => row.weight));
      const lost = total(here.map((row) => row.money));
      if (weight === NO_WEIGHT && lost === NO_MONEY) return [];
      const names = [...new Set(here.flatMap((row) => row.names))];
      return [{ material, destination, names, weight, money: lost }];
    }),
  );
}

export interface CountedTotal {
  readonly food: Weight;
  readonly inedible: Weight;
  readonly weight: Weight;
  readonly money: Money;
  /** Rows that this definition does not call waste, with why. */
  readonly leftOut: readonly { readonly row: AccountRow; readonly why: string }[];
}

/** What of an account is waste by a definition, and what is not. */
export function countedBy({ rows }: Pick<WasteAccount, "rows">, count: Count): CountedTotal {
  const { counts, leavesOut } = COUNTING_RULES[count];
  const inside = rows.filter(({ destination }) => counts.includes(destination));
  const of = (material: Material): Weight =>
    total(inside.filter((row) => row.material === material).map(({ weight }) => weight));
  return {
    food: of("food"),
    inedible: of("inedible parts"),
    weight: plus(of("food"), of("inedible parts")),
    money: total(inside.map((row) => row.money)),
    leftOut: rows
      .filter(({ destination }) => !counts.includes(destination))
      .map((row) => ({ row, why: leavesOut[row.destination] ?? "" })),
  };
}

const SUMS = ["foodWasted", "lostFood", "avoidablePeel", "unusedUsable", "givenAway", "counted"] as const;

/** What a cook may call waste, of one plan or of several, and what of it the aim counts. */
export interface CooksWaste extends Readonly<Record<(typeof SUMS)[number], Weight>> {
  /** Inedible parts thrown away that a step makes food of, the heaviest first. */
  readonly unusedParts: readonly { readonly part: string; readonly weight: Weight }[];
  /** At what part of its weight each counts; null of several plans that count otherwise. */
  readonly counts: Plan["waste"]["counts"] | null;
}

export function cooksWasteOf({ waste }: Pick<Plan, "waste">): CooksWaste {
  return { ...sums((key) => waste[key]), unusedParts: waste.unusedParts, counts: waste.counts };
}

/** The waste of several plans added up. */
export function cooksWasteOfAll(all: readonly CooksWaste[]): CooksWaste {
  const parts = new Map<string, Weight>();
  for (const { part, weight } of all.flatMap(({ unusedParts }) => unusedParts))
    parts.set(part, plus(parts.get(part) ?? NO_WEIGHT, weight));
  const kinds = new Set(all.map(({ counts }) => JSON.stringify(counts)));
  return {
    ...sums((key) => total(all.map((each) => each[key]))),
    unusedParts: [...parts]
      .map(([part, weight]) => ({ part, weight }))
      .sort((a, b) => Number(b.weight - a.weight)),
    counts: kinds.size === 1 ? (all[0]?.counts ?? null) : null,
  };
}

function sums(of: (key: (typeof SUMS)[number]) => Weight): Record<(typeof SUMS)[number], Weight> {
  const entries = SUMS.map((key) => [key, of(key)] as const);
  return Object.fromEntries(entries) as Record<(typeof SUMS)[number], Weight>;
}
