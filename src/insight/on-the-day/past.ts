import { partsInCuttingOrder } from "../../allocation/index.js";
import {
  type Cut,
  type Decision,
  type HappenedFile,
  type Lot,
  lotKey,
  type Prep,
  type Purchase,
  priceAt,
  type Scenario,
  withDelivery,
} from "../../kitchen/index.js";
import {
  Decimal,
  larger,
  minus,
  NO_WEIGHT,
  plus,
  scale,
  smaller,
  splitByShares,
  times,
  total,
  type Weight,
} from "../../quantity/index.js";
import { didYouMean, type Path, type Wording } from "../../reading/index.js";
import { itemsEnded, type LotLeft, partsEnded, withoutTooMany } from "./ended.js";
import { words } from "./words.js";

/** What is done and stays as it is, and what is left of every lot. */
export interface Past {
  /** The first service that is not yet cooked for. */
  readonly before: number;
  /** Purchases that came, all that was cut, worked and cooked, and where went what kept no longer. */
  readonly decision: Decision;
  readonly left: readonly LotLeft[];
  /** Whether all came and was cut as planned. */
  readonly isAsPlanned: boolean;
}

export type Complain = (path: Path, text: Wording) => void;

/** Cuts a plan off before a service and puts what happened in its place. Complains of what cannot have happened. */
export function pastOf(
  decision: Decision,
  scenario: Scenario,
  happened: HappenedFile,
  complain: Complain,
): Past | null {
  const names = scenario.services.map(({ name }) => name);
  const before = names.indexOf(happened.before);
  checkNames(happened, scenario, complain);
  if (before < 0) return null;
  const isPast = ({ service }: { service: number }): boolean => service < before;
  const purchases = delivered(decision, scenario, before, happened, complain);
  const cuts = decision.cuts
    .filter(isPast)
    .map((cut) => cutAsWeighed(cut, decision, scenario, happened, complain));
  const past: Decision = {
    purchases,
    cuts,
    binned: decision.binned.filter(isPast),
    keptItems: [],
    preps: [],
    goings: decision.goings.filter(isPast),
    cookings: withoutTooMany(decision.cookings.filter(isPast), before, scenario),
    sends: [],
    kept: [],
  };
  for (const item of scenario.items) {
    const of = (entry: { item: string }): boolean => entry.item === item.name;
    const had = plus(
      total(item.onHand.map(({ weight }) => weight)),
      total(purchases.filter(of).map(({ weight }) => weight)),
    );
    const used = total([...cuts, ...past.binned].filter(of).map(({ weight }) => weight));
    if (used > had) complain(["delivered", item.name], words.cutMoreThanCame(item, used, had));
  }
  const worked = workedAsFar(past, decision.preps.filter(isPast), scenario, complain);
  const { sends, left } = partsEnded(worked.left, decision.sends, before, scenario);
  checkCutParts(past, before, scenario, happened, complain);
  const isAsPlanned =
    purchases.every(({ item, service, orderUnits }) =>
      decision.purchases.some(
        (other) => other.item === item && other.service === service && other.orderUnits === orderUnits,
      ),
    ) &&
    purchases.length === decision.purchases.filter(({ service }) => service <= before).length &&
    decision.cuts
      .filter(isPast)
      .every((cut, index) => cut.parts.every(({ weight }, at) => cuts[index]?.parts[at]?.weight === weight));
  const binned = [...past.binned, ...itemsEnded(past, before, scenario)];
  return { before, decision: { ...past, binned, preps: worked.preps, sends }, left, isAsPlanned };
}

function checkNames(happened: HappenedFile, scenario: Scenario, complain: Complain): void {
  const services = scenario.services.map(({ name }) => name);
  const items = scenario.items.map(({ name }) => name);
  const known = (path: Path, name: string, all: readonly string[], what: string): void => {
    if (!all.includes(name)) complain(path, words.unknown(what, name, didYouMean(name, all), all));
  };
  known(["before"], happened.before, services, "service");
  for (const name of Object.keys(happened.delivered ?? {})) known(["delivered", name], name, items, "item");
  for (const name of Object.keys(happened.covers ?? {})) known(["covers", name], name, services, "service");
  for (const name of Object.keys(happened.cut ?? {})) known(["cut", name], name, services, "service");
  (happened.can_buy ?? []).forEach((name, index) => {
    known(["can_buy", index], name, items, "item");
  });
  const before = services.indexOf(happened.before);
  for (const [name, covers] of Object.entries(happened.covers ?? {})) {
    const service = scenario.services[services.indexOf(name)];
    if (service === undefined) continue;
    const withDiets = service.diets.reduce((sum, people) => sum + people.covers, 0);
    if (services.indexOf(name) < before) complain(["covers", name], words.isOver(name));
    else if (withDiets > covers)
      complain(["covers", name], words.fewerThanNeedDiets(name, withDiets, covers));
  }
  for (const name of Object.keys(happened.cut ?? {}))
    if (services.indexOf(name) >= before && before >= 0) complain(["cut", name], words.notYetCut(name));
}

/** Purchases up to the service, with what came instead; what is missing is missing of the last delivery. */
function delivered(
  { purchases }: Decision,
  scenario: Scenario,
  before: number,
  happened: HappenedFile,
  complain: Complain,
): Purchase[] {
  const { items } = scenario;
  const due = purchases.filter(({ service }) => service <= before);
  const came = items.flatMap(({ name, orderUnit, buying }) => {
    const own = due.filter(({ item }) => item === name);
    const count = happened.delivered?.[name];
    if (count === undefined) return own;
    const [first] = own;
    if (first === undefined || buying === null) {
      complain(["delivered", name], words.notDue(name));
      return [];
    }
    let rest = count;
    return own
      .map((purchase, index) => {
        const orderUnits = index === own.length - 1 ? rest : Math.min(rest, purchase.orderUnits);
        rest -= orderUnits;
        // What is missing of an order leaves its price as it was.
        const cost = times(priceAt(buying, Math.max(purchase.orderUnits, orderUnits)), orderUnits);
        return { ...purchase, orderUnits, weight: times(orderUnit.weight, orderUnits), cost };
      })
      .filter(({ orderUnits }) => orderUnits > 0);
  });
  return happened.delivered === undefined ? came : withDelivery(came, scenario, due);
}

/** A cut with the weights that its parts really had; what they are short of the whole is loss. */
function cutAsWeighed(
  cut: Cut,
  { cuts }: Decision,
  { services }: Scenario,
  happened: HappenedFile,
  complain: Complain,
): Cut {
  const service = services[cut.service]?.name ?? "";
  const weighed = happened.cut?.[service] ?? {};
  let loss = cut.loss;
  const parts = cut.parts.map((given) => {
    const actual = weighed[given.part];
    if (actual === undefined) return given;
    const alike = cuts
      .filter((other) => other.service === cut.service)
      .flatMap((other) => other.parts.filter(({ part }) => part === given.part));
    const shares = splitByShares(
      actual,
      alike.map(({ weight }) => weight),
    );
    const weight = shares[alike.indexOf(given)] ?? NO_WEIGHT;
    loss = plus(loss, minus(given.weight, weight));
    return { part: given.part, weight };
  });
  if (loss < NO_WEIGHT) {
    const first = cut.parts.find(({ part }) => weighed[part] !== undefined)?.part ?? "";
    complain(["cut", service, first], words.moreThanCut(cut.item, minus(NO_WEIGHT, loss)));
  }
  return { ...cut, parts, loss };
}

function checkCutParts(
  past: Decision,
  before: number,
  { services }: Scenario,
  happened: HappenedFile,
  complain: Complain,
): void {
  for (const [name, parts] of Object.entries(happened.cut ?? {})) {
    const service = services.findIndex((each) => each.name === name);
    if (service < 0 || service >= before) continue;
    const given = past.cuts
      .filter((cut) => cut.service === service)
      .flatMap((cut) => cut.parts.map(({ part }) => part));
    const all = [...new Set(given)];
    for (const part of Object.keys(parts)) {
      if (all.includes(part)) continue;
      complain(["cut", name, part], words.unknown("part cut then", part, didYouMean(part, all), all));
    }
  }
}

/**
 * What is left of every lot once the dishes that are done have had theirs. Steps that are done were worked as far as
 * there was something to work: of a lighter part they took less, and gave less.
 */
function workedAsFar(
  past: Decision,
  planned: readonly Prep[],
  scenario: Scenario,
  complain: Complain,
): { preps: Prep[]; left: LotLeft[] } {
  const balances = new Map<string, { lot: Lot; weight: Weight }>();
  const add = (lot: Lot, weight: Weight): void => {
    const known = balances.get(lotKey(lot)) ?? { lot, weight: NO_WEIGHT };
    balances.set(lotKey(lot), { ...known, weight: plus(known.weight, weight) });
  };
  scenario.partsOnHand.forEach(({ part, weight }, index) => {
    add({ part, origin: { kind: "onHand", index } }, weight);
  });
  for (const { service, parts } of past.cuts)
    for (const { part, weight } of parts) add({ part, origin: { kind: "cut", service } }, weight);
  for (const { lot, weight } of past.goings) add(lot, minus(NO_WEIGHT, weight));
  const preps: Prep[] = [];
  // A step's source comes before what it gives.
  for (const part of partsInCuttingOrder(scenario)) {
    for (const { lot, weight: had } of [...balances.values()].filter(
      (balance) => balance.lot.part === part,
    )) {
      const own = planned.filter(({ from }) => lotKey(from) === lotKey(lot));
      const wanted = total(own.map(({ weight }) => weight));
      const possible = smaller(wanted, larger(had, NO_WEIGHT));
      const shares = splitByShares(
        possible,
        own.map(({ weight }) => weight),
      );
      own.forEach((prep, index) => {
        const done = prepOf(prep, shares[index] ?? NO_WEIGHT);
        if (done.weight === NO_WEIGHT) return;
        preps.push(done);
        for (const made of done.parts) add({ part: made.part, origin: lot.origin }, made.weight);
      });
      add(lot, minus(NO_WEIGHT, possible));
      if (had < NO_WEIGHT) {
        const service = lot.origin.kind === "cut" ? (scenario.services[lot.origin.service]?.name ?? "") : "";
        complain(["cut", service, part], words.usedMoreThanCut(part, minus(NO_WEIGHT, had)));
      }
    }
  }
  return { preps, left: [...balances.values()].filter(({ weight }) => weight > NO_WEIGHT) };
}

/** A step worked on so much of its source, everything in proportion. */
function prepOf(prep: Prep, weight: Weight): Prep {
  if (weight === prep.weight) return prep;
  const part = new Decimal(weight.toString()).div(prep.weight.toString());
  const water = scale(prep.water, part);
  const shares = splitByShares(plus(weight, water), [...prep.parts.map((made) => made.weight), prep.loss]);
  return {
    ...prep,
    weight,
    water,
    parts: prep.parts.map((made, index) => ({ ...made, weight: shares[index] ?? NO_WEIGHT })),
    loss: shares.at(-1) ?? NO_WEIGHT,
  };
}
