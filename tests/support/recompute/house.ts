import { atMost, Decimal, milligrams, sumOf, ZERO } from "./figures.js";
import { dishNamed, goingsInto, itemNamed, originOf, portionsWeigh, serviceAt, stepNamed } from "./lots.js";
import type { PrintedLot, PrintedPlan } from "./printed.js";

/** What the house has room and hands for: cold room and freezer, hands, vessels and pots. */
export function houseFaults(plan: PrintedPlan): string[] {
  const { chilled, frozen } = plan.asked.limits;
  return [
    ...plan.services.flatMap(({ name }) => [
      ...storeFaults(`cold room after ${name}`, coldRoom(name, plan), chilled, plan),
      ...storeFaults(`freezer after ${name}`, partsHeld(name, true, plan), frozen, plan),
    ]),
    ...handsFaults(plan),
    ...vesselFaults(plan),
    ...potFaults(plan),
  ];
}

/** A weight, and how many movements in it were rounded to the scale. */
interface Held {
  readonly weight: Decimal;
  readonly movements: number;
}

function storeFaults(
  what: string,
  { weight, movements }: Held,
  most: string | null,
  { asked }: PrintedPlan,
): string[] {
  return atMost(
    what,
    weight,
    most,
    new Decimal(asked.scaleStep).times(movements).plus(milligrams(movements)),
  );
}

/** Whole items, parts, and portions that wait for a later service. */
function coldRoom(service: string, plan: PrintedPlan): Held {
  const after = serviceAt(service, plan);
  const until = <T extends { readonly service: string | null }>(entries: readonly T[]): T[] =>
    entries.filter((entry) => serviceAt(entry.service, plan) <= after);
  const weigh = (entries: readonly { readonly weight: string }[]): Decimal =>
    sumOf(entries, (entry) => entry.weight);
  const whole = weigh(plan.onHand.filter(({ kind }) => kind === "item"))
    .plus(weigh(until(plan.purchases)))
    .minus(weigh(until(plan.cuts)))
    .minus(weigh(until(plan.leftovers.filter(({ end }) => end === "binned"))));
  const waiting = until(plan.dishes).flatMap((dish) => {
    const later = dish.served.filter((at) => serviceAt(at.service, plan) > after);
    const portions = sumOf(later, (at) => at.portions);
    return portions.isZero()
      ? []
      : [{ weight: portionsWeigh(dish, portions), movements: goingsInto(dish, plan) }];
  });
  const parts = partsHeld(service, false, plan);
  return {
    weight: parts.weight.plus(whole).plus(sumOf(waiting, (dish) => dish.weight)),
    movements: waiting.reduce((sum, dish) => sum + dish.movements, parts.movements),
  };
}

/** Of every lot that is there, what is used, worked or kept later, less what comes into it later. */
function partsHeld(service: string, isFreezer: boolean, plan: PrintedPlan): Held {
  const after = serviceAt(service, plan);
  const lots = new Map<string, { out: Decimal; made: Decimal; movements: number }>();
  const frozen = new Set(plan.asked.parts.filter((part) => part.frozen).map(({ part }) => part));
  const lotOf = (part: string, lot: PrintedLot) => {
    const key = `${part} ${originOf(lot)}`;
    const entry = lots.get(key) ?? { out: ZERO, made: ZERO, movements: 0 };
    if (serviceAt(lot.cutFor, plan) <= after && frozen.has(part) === isFreezer) lots.set(key, entry);
    return entry;
  };
  const takeOut = (part: string, lot: PrintedLot, weight: string): void => {
    const entry = lotOf(part, lot);
    entry.out = entry.out.plus(weight);
    entry.movements++;
  };
  for (const going of plan.goings)
    if (serviceAt(going.service, plan) > after) takeOut(going.part, going, going.weight);
  for (const prep of plan.preps) {
    if (serviceAt(prep.service, plan) <= after) continue;
    takeOut(prep.from, prep, prep.weight);
    for (const { part, weight } of prep.parts) {
      const entry = lotOf(part, prep);
      entry.made = entry.made.plus(weight);
    }
  }
  for (const left of plan.leftovers)
    if (left.kind === "part" && left.end === "kept") takeOut(left.part, left, left.weight);
  const held = [...lots.values()].filter(({ out, made }) => out.greaterThan(made));
  return {
    weight: sumOf(held, ({ out, made }) => out.minus(made)),
    movements: held.reduce((sum, { movements }) => sum + movements, 0),
  };
}

/** Minutes of cutting, of steps and of cooking; a minute, and a step of the scale in each step's work, are rounding. */
function handsFaults(plan: PrintedPlan): string[] {
  return plan.asked.services.flatMap(({ service, hands }) => {
    const here = <T extends { readonly service: string }>(work: readonly T[]): T[] =>
      work.filter((each) => each.service === service);
    const cutting = sumOf(here(plan.cuts), ({ item: name, breakdown, weight }) => {
      const item = itemNamed(name, plan);
      const minutes = item?.breakdowns.find((each) => each.breakdown === breakdown)?.minutes ?? 0;
      return new Decimal(weight).div(item?.unitWeight ?? 1).times(minutes);
    });
    const eachKilogram = (name: string): string => stepNamed(name, plan)?.minutesPerKilogram ?? "0";
    const working = sumOf(here(plan.preps), ({ step, weight }) =>
      new Decimal(weight).div(1000).times(eachKilogram(step)),
    );
    const cooking = sumOf(here(plan.dishes), ({ dish: name, portions }) => {
      const dish = dishNamed(name, plan);
      return new Decimal(portions).div(dish?.batch?.portions ?? 1).times(dish?.minutes ?? 0);
    });
    const rounding = sumOf(here(plan.preps), ({ step }) =>
      new Decimal(plan.asked.scaleStep).div(1000).times(eachKilogram(step)),
    );
    return atMost(`hands before ${service}`, cutting.plus(working).plus(cooking), hands, rounding.plus(1));
  });
}

/** Half a batch takes a whole vessel. */
function vesselFaults(plan: PrintedPlan): string[] {
  return plan.asked.limits.vessels.flatMap(({ vessel, most }) =>
    plan.services.flatMap(({ name }) => {
      const taken = sumOf(
        plan.dishes.filter(({ service }) => service === name),
        ({ dish, portions }) => {
          const batch = dishNamed(dish, plan)?.batch;
          return batch?.vessel === vessel ? new Decimal(portions).div(batch.portions).ceil() : 0;
        },
      );
      return atMost(`${vessel} for ${name}`, taken, most);
    }),
  );
}

function potFaults({ asked, services, preps }: PrintedPlan): string[] {
  return asked.steps.flatMap(({ step, capacity }) =>
    services.flatMap(({ name }) => {
      const drawn = preps.filter((prep) => prep.step === step && prep.service === name);
      const weight = sumOf(drawn, (prep) => prep.weight);
      return atMost(
        `pot of ${step} for ${name}`,
        weight,
        capacity,
        new Decimal(asked.scaleStep).times(drawn.length),
      );
    }),
  );
}
