import type { Decision } from "../../kitchen/index.js";
import { NO_MONEY, total } from "../../quantity/index.js";
import { itemAccount, lossAccount, partAccount } from "../accounts.js";
import type { Costs } from "../costing/costs.js";
import type { Directory } from "../directory.js";
import { mustClose } from "../errors.js";
import type { Transfer } from "../ledger.js";

/** From each item cut to its parts, and its cutting loss. A cut that does not close is a LedgerError. */
export function cutting({ cuts }: Decision, costs: Costs, { serviceName }: Directory): Transfer[] {
  return cuts.flatMap(({ item, breakdown, service, weight, parts, loss }, index) => {
    mustClose(`${item}, cut as ${breakdown},`, weight, total([...parts.map((part) => part.weight), loss]));
    const shared = costs.cuts[index];
    const from = itemAccount(item);
    const cause = `${breakdown} for ${serviceName(service)}`;
    return [
      ...parts.map(
        (part, position): Transfer => ({
          from,
          to: partAccount(part.part),
          weight: part.weight,
          money: shared?.parts[position] ?? NO_MONEY,
          cause,
        }),
      ),
      { from, to: lossAccount("cutting"), weight: loss, money: shared?.loss ?? NO_MONEY, cause },
    ];
  });
}
