import type { Decision } from "../../kitchen/index.js";
import { NO_MONEY, NO_WEIGHT } from "../../quantity/index.js";
import { itemAccount, lossAccount, partAccount } from "../accounts.js";
import type { Directory } from "../directory.js";
import type { Transfer } from "../ledger.js";

/** What comes in: items from the supplier, with what their delivery is charged, items and parts from stock on hand. */
export function stockIn({ purchases }: Decision, { scenario, serviceName }: Directory): Transfer[] {
  return [
    ...purchases.flatMap(({ item, service, weight, cost, delivery = NO_MONEY }): Transfer[] => {
      const way = { from: "supplier" as const, to: itemAccount(item) };
      return [
        { ...way, weight, money: cost, cause: `bought for ${serviceName(service)}` },
        { ...way, weight: NO_WEIGHT, money: delivery, cause: `delivered for ${serviceName(service)}` },
      ];
    }),
    ...scenario.items.flatMap(({ name, onHand }) =>
      onHand.map(
        ({ weight, value }): Transfer => ({
          from: "onHand",
          to: itemAccount(name),
          weight,
          money: value,
          cause: "on hand",
        }),
      ),
    ),
    ...scenario.partsOnHand.map(
      ({ part, weight, value }): Transfer => ({
        from: "onHand",
        to: partAccount(part),
        weight,
        money: value,
        cause: "on hand",
      }),
    ),
  ];
}

/** What items lost in store, at no cost: the rest of the item bears it. */
export function driedInStore({ storageLosses = [] }: Decision): Transfer[] {
  return storageLosses.map(({ item, weight }) => ({
    from: itemAccount(item),
    to: lossAccount("storage"),
    weight,
    money: NO_MONEY,
    cause: "dried in store",
  }));
}
