import type { Decision } from "../../kitchen/index.js";
import { minus, NO_MONEY, NO_WEIGHT, plus, smaller, total, type Weight } from "../../quantity/index.js";
import { type Account, lossAccount, partAccount } from "../accounts.js";
import type { Costs } from "../costing/costs.js";
import type { Directory } from "../directory.js";
import { mustClose } from "../errors.js";
import type { Transfer } from "../ledger.js";

/**
 * From each part taken by a step to what the step gives, with the water it takes up. Water goes into the first
 * yield as far as that has weight for it, then away with the loss as steam (a cooking loss), then into the other
 * yields; the rest of every weight comes from the part taken. A step that does not close is a LedgerError.
 */
export function preparing({ preps }: Decision, costs: Costs, { serviceName }: Directory): Transfer[] {
  return preps.flatMap(({ step, from, service, weight, water, parts, loss }, index) => {
    const given = total([...parts.map((part) => part.weight), loss]);
    mustClose(`${from.part}, taken for ${step},`, plus(weight, water), given);
    const shared = costs.preps[index];
    const cause = `${step} for ${serviceName(service)}`;
    const outputs = parts.map((part, position) => ({
      to: partAccount(part.part),
      weight: part.weight,
      money: shared?.parts[position] ?? NO_MONEY,
    }));
    const lost = { to: lossAccount("cutting"), weight: loss, money: shared?.loss ?? NO_MONEY };
    const inWaterOrder = [...outputs.slice(0, 1), lost, ...outputs.slice(1)];
    const waters = fill(
      water,
      inWaterOrder.map((output) => output.weight),
    );
    return inWaterOrder.flatMap((output, position): Transfer[] => {
      const taken = waters[position] ?? NO_WEIGHT;
      const wet: Account = output === lost ? lossAccount("cooking") : output.to;
      return [
        {
          from: partAccount(from.part),
          to: output.to,
          weight: minus(output.weight, taken),
          money: output.money,
          cause,
        },
        { from: "water", to: wet, weight: taken, money: NO_MONEY, cause },
      ];
    });
  });
}

/** Pours an amount into vessels in their order, each to its brim. */
function fill(amount: Weight, vessels: readonly Weight[]): Weight[] {
  let left = amount;
  return vessels.map((brim) => {
    const poured = smaller(left, brim);
    left = minus(left, poured);
    return poured;
  });
}
