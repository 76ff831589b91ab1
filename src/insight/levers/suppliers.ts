import type { Scenario, Supplier } from "../../kitchen/index.js";
import { minus, smaller, times } from "../../quantity/index.js";
import { CENT, type Lever, moneyText } from "./lever.js";

/** What suppliers ask of an order: its least worth, and what its delivery is charged. */
export function supplierLevers(scenario: Scenario): Lever[] {
  return (scenario.suppliers ?? []).flatMap((supplier) => [
    ...termLever(
      supplier,
      scenario,
      "minimum",
      (amount) => `Have ${supplier.name} take an order of ${amount}`,
    ),
    ...termLever(supplier, scenario, "delivery", (amount) => `Pay ${supplier.name} ${amount} for a delivery`),
  ]);
}

function termLever(
  supplier: Supplier,
  scenario: Scenario,
  term: "minimum" | "delivery",
  text: (amount: string) => string,
): Lever[] {
  const stated = supplier[term];
  if (stated === 0n) return [];
  return [
    {
      subject: `${term === "minimum" ? "least order" : "delivery charge"} of ${supplier.name}`,
      about: { supplier: supplier.name },
      step: "0.01",
      steps: Number((stated + CENT - 1n) / CENT),
      eases: "always",
      change: (steps) => {
        const amount = minus(stated, smaller(stated, times(CENT, steps)));
        return {
          scenario: {
            ...scenario,
            suppliers: (scenario.suppliers ?? []).map((other) =>
              other === supplier ? { ...supplier, [term]: amount } : other,
            ),
          },
          value: moneyText(amount),
          text: `${text(moneyText(amount))} instead of ${moneyText(stated)}`,
        };
      },
    },
  ];
}
