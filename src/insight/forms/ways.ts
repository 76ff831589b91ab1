import { type Item, type Scenario, supplierOf } from "../../kitchen/index.js";
import { Decimal, money } from "../../quantity/index.js";
import { formsOf } from "../../yields/index.js";
import { type PlannedAgain, type Planning, whereCostingFits } from "../planning.js";

/** The scenario planned with one form alone, or with the choice free. */
export interface Way {
  /** Null where the choice is free. */
  readonly item: Item | null;
  readonly again: PlannedAgain;
}

interface PlanBreakEven {
  readonly item: Item;
  /** Bought alone instead of the best other form alone. */
  readonly instead: Verdict;
  /** Bought at all, the others being there to choose too. */
  readonly beside: Verdict;
}

/**
 * Or that the others make no plan without it; or that it alone makes none, at whatever price; or that its supplier's
 * terms can make plans cheaper as its price rises, so that there need be no one price.
 */
export type Verdict = Threshold | { readonly kind: "needed" | "no plan" | "terms"; readonly proved: boolean };

export interface FormPlans {
  readonly ways: readonly Way[];
  readonly breakEvens: readonly PlanBreakEven[];
}

export interface FormPlansOptions {
  /** For each plan that is made. */
  readonly seconds: number;
  /** Told of each plan before it is made. */
  readonly onPlan?: (what: string) => void;
}

/**
 * Plans a scenario with each form of an item alone, and with the choice free; then finds below which price each
 * form is worth buying, by plans of least cost (of the balanced aim where that is the scenario's). That price is one
 * for any number: prices of more are left out of the question.
 *
 * How the cost of an item is shared among its parts bears on ceilings alone. Where there are none, it is shared by
 * edible weight, which fits every price; credits do not, where a form costs less than its trim is credited at. Rejects
 * with a CostingError where they do not fit the choice as it stands.
 */
export async function formPlans(
  of: string,
  read: Scenario,
  { again: planAgain }: Pick<Planning, "again">,
  { seconds, onPlan = () => undefined }: FormPlansOptions,
): Promise<FormPlans> {
  const scenario: Scenario = read.dishes.some(({ ceiling }) => ceiling !== null)
    ? read
    : { ...read, costing: "edible weight" };
  const forms = formsOf(of, scenario).filter(({ buying }) => buying !== null);
  const ways: Way[] = [];
  for (const item of [...forms, null]) {
    onPlan(item === null ? "the choice free" : `${item.name} alone`);
    const allowed = item === null ? forms : [item];
    const again = planAgain(buyingOnly(allowed, forms, scenario), { seconds });
    ways.push({ item, again: await (item === null ? again : whereCostingFits(again)) });
  }
  const costing: Scenario = { ...scenario, aim: scenario.aim === "balanced" ? "balanced" : "cost" };
  const costOf = async (allowed: readonly Item[], priced: Item | null, hundredths: number) => {
    const only = buyingOnly(allowed, forms, costing);
    const asked = priced === null ? only : atPrice(priced, hundredths, only);
    return costIn(await whereCostingFits(planAgain(asked, { seconds })), priced);
  };
  const alone = new Map<Item, CostAt | null>();
  for (const item of forms) alone.set(item, await costOf([item], null, 0));
  /** A ceiling may bar its price alone, so it is asked for nothing too. */
  const makesNone = async (item: Item): Promise<boolean> =>
    alone.get(item)?.cost === Number.POSITIVE_INFINITY &&
    (await costOf([item], item, 0))?.cost === Number.POSITIVE_INFINITY;
  const breakEvens: PlanBreakEven[] = [];
  for (const item of forms) {
    const others = forms.filter((other) => other !== item);
    if (others.length === 0) break;
    onPlan(`the break-even of ${item.name}`);
    const best = leastOf(others.map((other) => alone.get(other) ?? null));
    const without = others.length === 1 ? best : await costOf(others, null, 0);
    if (rises(item, scenario)) {
      breakEvens.push({ item, instead: underTerms(best), beside: underTerms(without) });
      continue;
    }
    breakEvens.push({
      item,
      instead: (await makesNone(item))
        ? { kind: "no plan", proved: true }
        : await threshold(item, best, (price) => costOf([item], item, price)),
      beside: await threshold(item, without, (price) => costOf(forms, item, price)),
    });
  }
  return { ways, breakEvens };
}

/**
 * Whether plans can get cheaper as a price rises: a dearer order comes to its least worth with fewer units; and of a
 * delivery's charge other items bear less, and may come under a ceiling.
 */
function rises(item: Item, scenario: Scenario): boolean {
  const supplier = supplierOf(item, scenario);
  if (supplier === null) return false;
  const isShared = scenario.items.some(
    (other) => other.name !== item.name && other.supplier === item.supplier && other.buying !== null,
  );
  const isHeld = scenario.dishes.some(({ ceiling }) => ceiling !== null);
  return supplier.minimum > 0n || (supplier.delivery > 0n && isShared && isHeld);
}

function underTerms(limit: CostAt | null): Verdict {
  if (limit === null) return { kind: "unknown", proved: false };
  return { kind: limit.cost === Number.POSITIVE_INFINITY ? "needed" : "terms", proved: limit.proved };
}

async function threshold(
  item: Item,
  limit: CostAt | null,
  costAt: (hundredths: number) => Promise<CostAt | null>,
): Promise<Verdict> {
  if (limit === null) return { kind: "unknown", proved: false };
  if (limit.cost === Number.POSITIVE_INFINITY) return { kind: "needed", proved: limit.proved };
  // One order unit at this price costs more than the whole of the other plan.
  const most = Math.ceil(Math.max(0, limit.cost) * 100) + 1;
  const found = await lowestNotWorth(costAt, limit.cost, hundredthsOf(item), most);
  return { ...found, proved: found.proved && limit.proved };
}

/** The cheapest of them; null where one is not known. */
function leastOf(costs: readonly (CostAt | null)[]): CostAt | null {
  const known = costs.flatMap((each) => each ?? []).sort((a, b) => a.cost - b.cost);
  return known.length < costs.length ? null : (known[0] ?? null);
}

/** The scenario with no form bought but these; what of the others is on hand stays. */
function buyingOnly(allowed: readonly Item[], forms: readonly Item[], scenario: Scenario): Scenario {
  const barred = forms.filter((item) => !allowed.includes(item)).map(({ name }) => name);
  return {
    ...scenario,
    items: scenario.items.map((item) => (barred.includes(item.name) ? { ...item, buying: null } : item)),
  };
}

function atPrice({ name }: Item, hundredths: number, scenario: Scenario): Scenario {
  const price = money(new Decimal(hundredths).div(100));
  return {
    ...scenario,
    items: scenario.items.map((item) => {
      if (item.name !== name || item.buying === null) return item;
      const { breaks: _, ...flat } = item.buying;
      return { ...item, buying: { ...flat, price } };
    }),
  };
}

function costIn(again: PlannedAgain, priced: Item | null): CostAt | null {
  if (again.kind === "unknown") return null;
  if (again.kind === "no plan") return { cost: Number.POSITIVE_INFINITY, units: 0, proved: true };
  const bought = again.plan.purchases.filter(({ item }) => item === priced?.name);
  return {
    cost: again.objective,
    units: bought.reduce((sum, { units }) => sum + units, 0),
    proved: again.plan.outcome.kind === "optimal",
  };
}

function hundredthsOf({ buying }: Item): number {
  return buying === null ? 0 : Math.round(Number(buying.price) / 100);
}

/** What a plan costs at a price, and the order units it buys there; Infinity where there is no plan. */
interface CostAt {
  readonly cost: number;
  readonly units: number;
  readonly proved: boolean;
}

/** The price, in hundredths, below which something is worth it; whether all that was asked was proved. */
type Threshold =
  | { readonly kind: "below"; readonly hundredths: number; readonly proved: boolean }
  | { readonly kind: "never" | "any" | "unknown"; readonly proved: boolean };

/** Prices guessed from the last plan's purchases before the rest of the way is halved. */
const MOST_GUESSES = 6;
/** Costs nearer than this part of their size are the same: engines prove to a little less. */
const SAME = 2e-6;

/**
 * The lowest price, in whole hundredths up to `most`, at which the least cost is not below `limit`: bought below
 * it, the thing saves. `costAt` gives the least cost at a price, null where it is not known in the time.
 *
 * Halving is right where the least cost never falls as a price rises, which a supplier's terms can undo: every plan
 * costs as much or more, and none that was over a ceiling comes under it. So prices that save lie all below those that do not, and with the price
 * returned not saving, and one hundredth less saving, both planned, there is no other. The line through the last
 * plan, which costs as many hundredths more as it buys units, guesses where to look first.
 */
export async function lowestNotWorth(
  costAt: (hundredths: number) => Promise<CostAt | null>,
  limit: number,
  start: number,
  most: number,
): Promise<Threshold> {
  const saves = (cost: number): boolean => cost < limit - SAME * Math.max(1, Math.abs(limit));
  let worth = -1;
  let not = most + 1;
  let next = Math.min(most, Math.max(0, start));
  let proved = true;
  for (let asked = 0; not - worth > 1; asked++) {
    const known = await costAt(next);
    if (known === null) return { kind: "unknown", proved: false };
    proved &&= known.proved;
    if (saves(known.cost)) worth = next;
    else not = next;
    const middle = Math.floor((worth + not) / 2);
    const reach = ((limit - known.cost) * 100) / known.units;
    const guess = Math.ceil(next + reach - 1e-6) - 1;
    const guided = asked < MOST_GUESSES && Number.isFinite(reach);
    next = guided ? Math.min(not - 1, Math.max(worth + 1, guess)) : middle;
  }
  if (worth === most) return { kind: "any", proved };
  return worth < 0 ? { kind: "never", proved } : { kind: "below", hundredths: not, proved };
}
