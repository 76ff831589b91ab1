import type { Item, Part, Step } from "../../../src/kitchen/index.js";
import { Decimal, money } from "../../../src/quantity/index.js";
import { breakdownOf, g, itemOf, partOf, stepOf } from "../../support/small-scenario.js";
import type { Dice } from "./dice.js";
import { KINDS, type Kind, type Role } from "./kinds.js";

export interface Pantry {
  readonly items: readonly Item[];
  readonly parts: readonly Part[];
  readonly steps: readonly Step[];
  readonly offers: readonly Offer[];
}

/** A part that recipe lines may want. */
export interface Offer {
  readonly part: string;
  readonly item: string;
  readonly role: Role;
  /** Pence for a kilogram of it, all of the item's cost on its edible weight. */
  readonly pence: number;
}

/** So many items, delivered as often as they must be to last `days` days from the first service on. */
export function stockPantry(
  dice: Dice,
  count: number,
  servicesByDay: readonly (readonly number[])[],
): Pantry {
  const stocked = Array.from({ length: count }, (_, index) => {
    const kind = KINDS[index % KINDS.length] ?? dice.oneOf(KINDS);
    const round = Math.floor(index / KINDS.length);
    return stock(dice, kind, round === 0 ? kind.name : `${kind.name} ${round + 1}`, servicesByDay);
  });
  return {
    items: stocked.map(({ item }) => item),
    parts: stocked.flatMap(({ parts }) => parts),
    steps: stocked.flatMap(({ steps }) => steps),
    offers: stocked.flatMap(({ offers }) => offers),
  };
}

function stock(dice: Dice, kind: Kind, name: string, servicesByDay: readonly (readonly number[])[]) {
  const unit = 10 * dice.between(kind.unit[0] / 10, kind.unit[1] / 10);
  const pence = dice.between(...kind.pence);
  const full = (part: string): string => `${name} ${part}`;
  const breakdowns = Object.entries(kind.cuts).map(([cut, shares]) =>
    breakdownOf(cut, unit, byFullName(spread(dice, shares, unit), full)),
  );
  const caseOf = dice.chance(60) ? (kind.caseOf ?? 1) : 1;
  const price = money(((pence * unit * caseOf) / 100_000).toFixed(2));
  const deliveries = servicesByDay.flatMap(([first], day) =>
    first !== undefined && day % Math.max(1, kind.keepsDays - 1) === 0 ? [first] : [],
  );
  const item = itemOf(name, unit, "1.00", 0, breakdowns, {
    handling: kind.handling,
    measure: kind.measure,
    keepsDays: kind.keepsDays,
    orderUnit: {
      name: caseOf === 1 ? "each" : `case of ${caseOf}`,
      size: new Decimal(caseOf),
      weight: g(unit * caseOf),
    },
    buying: { price, taxRate: null, least: 0, most: null, deliveries, orderBy: null },
  });
  const parts = Object.entries(kind.roles).map(([part, role]) =>
    partOf(full(part), name, role === "waste" ? "inedible" : "food", {
      keepsDays: kind.partKeepsDays,
      pieceWeight: kind.pieces?.[part] === undefined ? null : g(kind.pieces[part]),
    }),
  );
  const steps = Object.entries(kind.steps ?? {}).map(([step, { from, gives }]) =>
    stepOf(
      `${step} of ${name}`,
      [full(from)],
      byFullName(
        mapped(gives, (share) => `${share / 100}`),
        full,
      ),
    ),
  );
  const edible = Math.max(
    ...Object.values(kind.cuts).map((cut) =>
      Object.entries(cut).reduce((sum, [part, share]) => sum + (kind.roles[part] === "waste" ? 0 : share), 0),
    ),
  );
  const offers = Object.entries(kind.roles).map(
    ([part, role]): Offer => ({ part: full(part), item: name, role, pence: (100 * pence) / edible }),
  );
  return { item, parts, steps, offers };
}

/** Shares as grams of one unit, each up to a tenth more or less than its kind's. */
function spread(dice: Dice, shares: Readonly<Record<string, number>>, unit: number): Record<string, number> {
  const drawn = mapped(shares, (share) => share * (dice.between(90, 110) / 100));
  const sum = Object.values(drawn).reduce((total, share) => total + share, 0);
  return mapped(drawn, (share) => Math.floor((share * unit) / Math.max(sum, 100)));
}

function mapped<T>(
  record: Readonly<Record<string, number>>,
  change: (value: number) => T,
): Record<string, T> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}

function byFullName<T>(
  record: Readonly<Record<string, T>>,
  full: (part: string) => string,
): Record<string, T> {
  return Object.fromEntries(Object.entries(record).map(([part, value]) => [full(part), value]));
}
