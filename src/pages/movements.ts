import type { Plan } from "../contract/index.js";
import { minus, NO_WEIGHT, plus, total, type Weight } from "../quantity/index.js";
import { type Flow, roundedFlows } from "./rounding.js";

/** Every movement of weight in a plan, in whole steps of the scale, as all pages print it. */
export interface Movements {
  readonly flows: readonly Flow[];
  /** Of each cut of the plan, the weight of every part and of what is lost. */
  readonly cuts: readonly { readonly parts: readonly Weight[]; readonly loss: Weight }[];
  /** Of each going of the plan. */
  readonly goings: readonly Weight[];
}

/**
 * The plan's transfers of weight, with cuts and goings told apart one by one, and raw weight going into dishes:
 * what cooks away leaves from the dish. A plan whose transfers do not hold its cuts and goings is a RangeError.
 */
export function movementsOf(plan: Plan, step: Weight): Movements {
  const rest = sumsOf(plan.transfers.map(({ from, to, weight }) => ({ from: from.id, to: to.id, weight })));
  const take = (flow: Flow): Flow => {
    rest.take(flow);
    return flow;
  };
  const cuts = plan.cuts.map(({ item, parts, loss }) => [
    ...parts.map(({ part, weight }) => take({ from: `item:${item}`, to: `part:${part}`, weight })),
    take({ from: `item:${item}`, to: "loss:cutting", weight: loss }),
  ]);
  const goings = plan.goings.map(({ part, dish, service, weight }) => ({
    from: `part:${part}`,
    to: `dish:${dish} @ ${service}`,
    weight,
  }));
  const cooking = sumsOf(goings)
    .all()
    .map((raw) => {
      const counted = rest.of(raw);
      const lost = minus(raw.weight, counted);
      rest.take({ ...raw, weight: counted });
      rest.take({ from: raw.from, to: "loss:cooking", weight: lost });
      return { from: raw.to, to: "loss:cooking", weight: lost };
    });
  const exact = [...cuts.flat(), ...goings, ...cooking, ...rest.all()];
  const flows = roundedFlows(exact, step);

  let at = 0;
  const next = (count: number) => {
    const weights = flows.slice(at, at + count).map(({ weight }) => weight);
    at += count;
    return weights;
  };
  const cutWeights = cuts.map((flowsOfCut) => {
    const weights = next(flowsOfCut.length);
    return { parts: weights.slice(0, -1), loss: weights.at(-1) ?? NO_WEIGHT };
  });
  return { flows, cuts: cutWeights, goings: next(goings.length) };
}

/** Weights by where they come from and where they go to, from which some may be taken. */
function sumsOf(flows: readonly Flow[]) {
  const sums = new Map<string, Flow>();
  const key = ({ from, to }: Pick<Flow, "from" | "to">) => JSON.stringify([from, to]);
  const of = (pair: Pick<Flow, "from" | "to">): Weight => sums.get(key(pair))?.weight ?? NO_WEIGHT;
  for (const { from, to, weight } of flows)
    sums.set(key({ from, to }), { from, to, weight: plus(of({ from, to }), weight) });
  return {
    of,
    all: () => [...sums.values()],
    take: ({ from, to, weight }: Flow) => {
      const left = minus(of({ from, to }), weight);
      if (left < 0n)
        throw new RangeError(`the plan's transfers from ${from} to ${to} fall short of its cuts and goings`);
      sums.set(key({ from, to }), { from, to, weight: left });
    },
  };
}

/** Sum of the flows that `matches` picks. */
export function flowTotal({ flows }: Pick<Movements, "flows">, matches: (flow: Flow) => boolean): Weight {
  return total(flows.filter(matches).map(({ weight }) => weight));
}

/** Where the weight ends: those totals of the plan that say so, in whole steps of the scale. */
export type Ends = Readonly<
  Record<"inDishes" | "givenAway" | "closingStock" | "wastedFood" | "inedible" | "losses", Weight>
>;

export function endsOf({ flows }: Pick<Movements, "flows">): Ends {
  const into = (kind: string): Weight => flowTotal({ flows }, ({ to }) => to.split(":", 1)[0] === kind);
  const fromDishes = flowTotal({ flows }, ({ from }) => from.startsWith("dish:"));
  return {
    inDishes: minus(into("dish"), fromDishes),
    givenAway: into("givenAway"),
    closingStock: into("closingStock"),
    wastedFood: into("wastedFood"),
    inedible: into("inedible"),
    losses: into("loss"),
  };
}

/** Where the plan's weight ends, in whole steps of the scale, as all pages print it. */
export function endsAsPrinted(plan: Plan, step: Weight): Ends {
  return endsOf(movementsOf(plan, step));
}
