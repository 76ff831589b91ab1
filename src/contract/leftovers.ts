import type { Decision, ItemEnd, Lot } from "../kitchen/index.js";
import type { Ledger } from "../ledger/index.js";
import type { Weight } from "../quantity/index.js";
import { gramsText } from "./figures.js";
import { type Names, stockOf } from "./names.js";
import type { PlanJson } from "./plan.js";

/** What no cover eats: parts sent away or kept, items binned or kept, portions over. */
export function leftoversOf(decision: Decision, ledger: Ledger, names: Names): PlanJson["leftovers"] {
  const partLeft = ({ lot, weight }: { lot: Lot; weight: Weight }) => ({
    part: lot.part,
    kind: "part" as const,
    class: names.classOf(lot.part),
    weight: gramsText(weight),
    cutFor: names.cutFor(lot),
    stock: stockOf(lot),
    service: null,
    units: null,
    useBy: names.useBy(lot),
  });
  const itemLeft = ({ item, service, units, weight }: ItemEnd) => ({
    part: item,
    kind: "item" as const,
    class: "food" as const,
    weight: gramsText(weight),
    cutFor: null,
    stock: null,
    service: names.service(service),
    units,
    useBy: null,
  });
  const parts = [
    ...decision.sends.map((send) => ({
      ...partLeft(send),
      destination: send.destination,
      end: "sent" as const,
    })),
    ...decision.kept.map((kept) => ({
      ...partLeft(kept),
      destination: "closingStock",
      end: "kept" as const,
    })),
  ];
  const items = [
    ...decision.binned.map((end) => ({
      ...itemLeft(end),
      destination: "wastedFood",
      end: "binned" as const,
    })),
    ...decision.keptItems.map((end) => ({
      ...itemLeft(end),
      destination: "closingStock",
      end: "kept" as const,
    })),
  ];
  const portions = ledger.transfers
    .filter(({ from, to }) => from.startsWith("dish:") && !to.startsWith("dish:"))
    .map(({ from, to, weight }) => ({
      part: from.slice("dish:".length),
      kind: "portions" as const,
      class: "food" as const,
      weight: gramsText(weight),
      cutFor: null,
      stock: null,
      destination: to.slice(to.indexOf(":") + 1),
      end: "spare" as const,
      service: null,
      units: null,
      useBy: null,
    }));
  return [...parts, ...items, ...portions];
}
