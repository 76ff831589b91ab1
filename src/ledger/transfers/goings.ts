import type { Decision, PartUse } from "../../kitchen/index.js";
import {
  larger,
  minus,
  NO_MONEY,
  NO_WEIGHT,
  scale,
  smaller,
  splitByShares,
  total,
  type Weight,
} from "../../quantity/index.js";
import { dishAccount, lossAccount, partAccount } from "../accounts.js";
import type { Costs } from "../costing/costs.js";
import type { Directory } from "../directory.js";
import { LedgerError } from "../errors.js";
import type { Transfer } from "../ledger.js";

/**
 * From parts into dishes. A line stated raw counts the raw weight. One stated cooked counts the cooked weight,
 * rounded once for all that goes into that line of one cooking: what cooks away is a cooking loss, what is taken
 * up comes from water.
 */
export function intoDishes({ goings }: Decision, costs: Costs, directory: Directory): Transfer[] {
  const counted = countedWeights(goings, directory);
  return goings.flatMap((going, index) => {
    const { lot, dish, service, weight } = going;
    const inDish = counted[index] ?? NO_WEIGHT;
    const from = partAccount(lot.part);
    const to = dishAccount(dish, directory.serviceName(service));
    const { name } = lineOf(going, directory);
    const money = costs.goings[index] ?? NO_MONEY;
    return [
      { from, to, weight: smaller(weight, inDish), money, cause: name },
      {
        from,
        to: lossAccount("cooking"),
        weight: larger(minus(weight, inDish), NO_WEIGHT),
        money: NO_MONEY,
        cause: `cooking ${name}`,
      },
      {
        from: "water",
        to,
        weight: larger(minus(inDish, weight), NO_WEIGHT),
        money: NO_MONEY,
        cause: `taken up in cooking ${name}`,
      },
    ];
  });
}

/** Weight of each going as it counts in the dish. */
function countedWeights(goings: readonly PartUse[], directory: Directory): Weight[] {
  const counted = goings.map(({ weight }) => weight);
  const lines = new Map<string, number[]>();
  goings.forEach(({ dish, service, line }, index) => {
    const key = `${dish} | ${service} | ${line}`;
    lines.set(key, [...(lines.get(key) ?? []), index]);
  });
  for (const indexes of lines.values()) {
    const raw = indexes.map((index) => goings[index] as PartUse);
    const line = lineOf(raw[0] as PartUse, directory);
    if (line.stated === "raw") continue;
    const weights = raw.map(({ weight }) => weight);
    const cooked = scale(total(weights), line.cookingYield);
    splitByShares(cooked, weights).forEach((weight, position) => {
      counted[indexes[position] ?? 0] = weight;
    });
  }
  return counted;
}

function lineOf({ dish, line }: PartUse, directory: Directory) {
  const stated = directory.dish(dish).lines[line];
  if (stated === undefined) throw new LedgerError(`${dish} has no recipe line number ${line + 1}`);
  return stated;
}
