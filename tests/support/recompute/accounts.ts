import { compare, Decimal, milligrams, sumOf, ZERO } from "./figures.js";
import type { PrintedPlan } from "./printed.js";

type Sums = { weight: Decimal; money: Decimal };

/** Totals, both identities, and accounts that must come out at nothing, from the transfers alone. */
export function accountFaults(plan: PrintedPlan): string[] {
  const standing = balances(plan);
  const of = (...kinds: string[]): Sums => {
    const found = [...standing].filter(([account]) => kinds.includes(account.split(":", 1)[0] ?? ""));
    return {
      weight: sumOf(found, ([, { weight }]) => weight),
      money: sumOf(found, ([, { money }]) => money),
    };
  };
  const gone = (...kinds: string[]): Sums => {
    const { weight, money } = of(...kinds);
    return { weight: weight.neg(), money: money.neg() };
  };
  const weights: Readonly<Record<string, Decimal>> = {
    purchased: gone("supplier").weight,
    onHand: gone("onHand").weight,
    absorbed: gone("water").weight,
    inDishes: of("dish").weight,
    givenAway: of("givenAway").weight,
    closingStock: of("closingStock").weight,
    wastedFood: of("wastedFood").weight,
    inedible: of("inedible").weight,
    losses: of("loss").weight,
  };
  const money: Readonly<Record<string, Decimal>> = {
    spent: gone("supplier", "staples").money,
    stockValue: gone("onHand").money,
    inDishes: of("dish").money,
    givenAway: of("givenAway").money,
    closingStock: of("closingStock").money,
    wasted: of("wastedFood", "inedible", "loss").money,
  };
  return [
    ...plan.transfers
      .filter(
        ({ weight, money: coins }) => new Decimal(weight).isNegative() || new Decimal(coins).isNegative(),
      )
      .map(({ from, to }) => `transfer ${from} > ${to}: below nothing`),
    ...[...standing]
      .filter(([account]) => /^(item|part):/.test(account))
      .flatMap(([account, { weight, money: coins }]) => [
        ...compare(`${account} weight`, 0, weight),
        ...compare(`${account} money`, 0, coins),
      ]),
    ...Object.entries(weights).flatMap(([name, found]) =>
      compare(`weights.${name}`, plan.weights[name] ?? "0", found),
    ),
    ...Object.entries(money).flatMap(([name, found]) =>
      compare(`money.${name}`, plan.money[name] ?? "0", found),
    ),
    ...identity(
      "grams",
      plan.weights,
      ["purchased", "onHand", "absorbed"],
      ["inDishes", "givenAway", "closingStock", "wastedFood", "inedible", "losses"],
    ),
    ...identity(
      "money",
      plan.money,
      ["spent", "stockValue"],
      ["inDishes", "givenAway", "closingStock", "wasted"],
    ),
    ...dishFaults(plan),
  ];
}

function identity(
  what: string,
  totals: Readonly<Record<string, string>>,
  into: readonly string[],
  out: readonly string[],
): string[] {
  const all = (names: readonly string[]): Decimal => sumOf(names, (name) => totals[name] ?? "0");
  return compare(`identity of ${what}`, all(into), all(out));
}

function balances({ transfers }: PrintedPlan): Map<string, Sums> {
  const standing = new Map<string, Sums>();
  const post = (account: string, weight: Decimal, money: Decimal): void => {
    const before = standing.get(account) ?? { weight: ZERO, money: ZERO };
    standing.set(account, { weight: before.weight.plus(weight), money: before.money.plus(money) });
  };
  for (const { from, to, weight, money } of transfers) {
    post(from, new Decimal(weight).neg(), new Decimal(money).neg());
    post(to, new Decimal(weight), new Decimal(money));
  }
  return standing;
}

/** What dishes weigh and cost, and what portions carry away of it, spare or to a later service: their share of both. */
function dishFaults({ dishes, transfers }: PrintedPlan): string[] {
  return dishes.flatMap(({ dish, service, portions, weight, cost, costPerPortion, spareTo, served }) => {
    const account = `dish:${dish} @ ${service}`;
    const into = transfers.filter(({ from, to }) => to === account && !from.startsWith("dish:"));
    const inWeight = sumOf(into, (each) => each.weight);
    const inMoney = sumOf(into, (each) => each.money);
    const ways = [
      ...spareTo.map(({ destination, portions: over }) => ({ where: destination, over })),
      ...served
        .filter((at) => at.service !== service)
        .map((at) => ({ where: `${dish} @ ${at.service}`, over: at.portions })),
    ];
    const gone = ways.flatMap(({ where, over }) => {
      const out = transfers.filter(({ from, to }) => from === account && to.endsWith(`:${where}`));
      const share = new Decimal(over).div(portions);
      return [
        ...compare(
          `${account} portions to ${where}`,
          sumOf(out, (each) => each.weight),
          inWeight.times(share),
          milligrams(1),
        ),
        ...compare(
          `${account} cost of portions to ${where}`,
          sumOf(out, (each) => each.money),
          inMoney.times(share),
          "0.0001",
        ),
      ];
    });
    return [
      ...compare(`${account} weight`, weight, inWeight),
      ...compare(`${account} cost`, cost, inMoney),
      ...compare(`${account} cost of a portion`, costPerPortion, inMoney.div(portions), "0.00005"),
      ...gone,
    ];
  });
}
