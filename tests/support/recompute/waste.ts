import { compare, Decimal, milligrams, sumOf, ZERO } from "./figures.js";
import { classOf, itemNamed } from "./lots.js";
import type { AskedItem, Gives, PrintedPlan } from "./printed.js";
import { stepFaults, worksInto } from "./steps.js";

/** Every term of the waste, what is counted of it, net spend, and the figure of the aim. */
export function wasteFaults(plan: PrintedPlan): string[] {
  const { waste, transfers, outcome } = plan;
  const into = (kind: string): Decimal =>
    sumOf(
      transfers.filter(({ to }) => to.startsWith(`${kind}:`)),
      ({ weight }) => weight,
    );
  const { counts } = waste;
  const counted = new Decimal(waste.foodWasted)
    .plus(waste.lostFood)
    .plus(new Decimal(waste.avoidablePeel).times(counts.avoidablePeel))
    .plus(new Decimal(waste.unusedUsable).times(counts.unusedUsable))
    .plus(new Decimal(waste.givenAway).times(counts.givenAway));
  const lost = [...waste.lostInCuts, ...waste.lostInSteps];
  return [
    ...compare("waste.foodWasted", waste.foodWasted, into("wastedFood")),
    ...compare("waste.givenAway", waste.givenAway, into("givenAway")),
    ...compare(
      "waste.lostFood",
      waste.lostFood,
      sumOf(lost, ({ lostFood }) => lostFood),
    ),
    ...cutFaults(plan),
    ...stepFaults(plan),
    ...compare("waste.avoidablePeel", waste.avoidablePeel, avoidablePeel(plan)),
    ...compare("weights.avoidablePeel", plan.weights.avoidablePeel ?? 0, avoidablePeel(plan)),
    ...usableFaults(plan),
    ...compare("waste.counted", waste.counted, counted, milligrams(3)),
    ...figureFaults(plan),
    ...compare(
      "outcome.objective",
      outcome.objective ?? "0",
      new Decimal(outcome.beforeRounding ?? 0).plus(outcome.rounding ?? 0),
    ),
    ...(new Decimal(outcome.bound ?? 0).minus(outcome.beforeRounding ?? 0).greaterThan("0.001")
      ? [`outcome.bound: ${outcome.bound} is above the figure it is a bound of`]
      : []),
  ];
}

/** The figure of the aim, of the plan as it is printed. */
function figureFaults({ aim, waste, money, outcome, asked, leftovers }: PrintedPlan): string[] {
  const uses = [
    ...asked.parts.map(({ part, keep }) => ({ kind: "part", name: part, keep })),
    ...asked.items.map(({ item, keep }) => ({ kind: "item", name: item, keep })),
  ];
  const credits = uses.flatMap(({ kind, name, keep }) => {
    if (keep === null) return [];
    const kept = sumOf(
      leftovers.filter((left) => left.kind === kind && left.part === name && left.end === "kept"),
      ({ weight }) => weight,
    );
    return [Decimal.min(kept, keep.limit).div(1000).times(keep.value)];
  });
  const netSpend = new Decimal(money.spent ?? 0).minus(sumOf(credits, (credit) => credit));
  const figure = {
    waste: new Decimal(waste.counted),
    cost: netSpend,
    balanced: netSpend.plus(new Decimal(waste.counted).div(1000).times(asked.wastePrice)),
  }[aim];
  const rounded = new Decimal("0.00005").times(credits.length);
  return compare("outcome.objective", outcome.objective ?? "0", figure, aim === "waste" ? 0 : rounded);
}

/** What each cut loses, and leaves as peel, beyond the least of its item's breakdowns. */
function cutFaults(plan: PrintedPlan): string[] {
  const { cuts, waste } = plan;
  if (waste.lostInCuts.length !== cuts.length) return ["waste.lostInCuts: not one of each cut"];
  return cuts.flatMap(({ item: name, breakdown, weight }, index) => {
    const item = itemNamed(name, plan);
    const printed = waste.lostInCuts[index];
    const beyond = (of: (way: AskedItem["breakdowns"][number]) => Decimal): Decimal => {
      const ways = item?.breakdowns ?? [];
      const own = ways.find((way) => way.breakdown === breakdown);
      return own === undefined
        ? ZERO
        : of(own)
            .minus(Decimal.min(...ways.map(of)))
            .times(weight);
    };
    const what = `in cut ${index + 1} of ${name}`;
    return [
      ...compare(
        `food lost ${what}`,
        printed?.lostFood ?? 0,
        beyond(({ loss }) => new Decimal(loss)),
        milligrams(1),
      ),
      ...compare(
        `peel beyond ${what}`,
        printed?.peelBeyond ?? 0,
        beyond(({ gives }) => sumOf(peelOf(gives, plan), ({ fraction }) => fraction)),
        milligrams(1),
      ),
    ];
  });
}

function peelOf(gives: Gives, { asked }: PrintedPlan): Gives {
  const peel = new Set(asked.parts.filter((part) => part.peel).map(({ part }) => part));
  return gives.filter(({ part }) => peel.has(part));
}

/** By family: peel beyond the least, but no more than was thrown of what the cuts gave. */
function avoidablePeel(plan: PrintedPlan): Decimal {
  const { cuts, asked, waste } = plan;
  const families = [...new Set(asked.items.map(({ family }) => family))];
  return sumOf(families, (family) => {
    const items = asked.items.filter((item) => item.family === family);
    const beyond = sumOf(
      [...cuts.entries()].filter(([, cut]) => items.some(({ item }) => item === cut.item)),
      ([index]) => waste.lostInCuts[index]?.peelBeyond ?? 0,
    );
    const gives = items.flatMap(({ breakdowns }) => breakdowns.flatMap((way) => peelOf(way.gives, plan)));
    const peel = new Set(gives.map(({ part }) => part));
    return Decimal.min(
      beyond,
      sumOf(
        thrown(plan).filter(({ part, cutFor }) => cutFor !== null && peel.has(part)),
        weightOf,
      ),
    );
  });
}

/** Inedible parts thrown that some step of the kitchen makes food of, at once or through further steps. */
function usableFaults(plan: PrintedPlan): string[] {
  const { asked, waste } = plan;
  const usable = asked.parts
    .filter(({ part }) => {
      const steps = asked.steps.filter(({ from }) => from.includes(part));
      const made = steps.flatMap((step) => worksInto(step, plan).flatMap((into) => [...into.keys()]));
      return classOf(part, plan) === "inedible" && made.some((each) => classOf(each, plan) === "food");
    })
    .map(({ part }) => part);
  const unused = (name: string): Decimal =>
    sumOf(
      thrown(plan).filter(({ part }) => part === name),
      weightOf,
    );
  return [
    ...asked.parts
      .filter((part) => part.usable !== usable.includes(part.part))
      .map(({ part, usable: stated }) => `${part}: usable is ${stated}, which its steps do not say`),
    ...asked.parts.flatMap(({ part }) =>
      compare(
        `unused of ${part}`,
        waste.unusedParts.find((each) => each.part === part)?.weight ?? 0,
        usable.includes(part) ? unused(part) : ZERO,
      ),
    ),
    ...compare("waste.unusedUsable", waste.unusedUsable, sumOf(usable, unused)),
  ];
}

function thrown({ leftovers }: PrintedPlan): PrintedPlan["leftovers"] {
  return leftovers.filter(({ kind, end }) => kind === "part" && end === "sent");
}

function weightOf({ weight }: { readonly weight: string }): string {
  return weight;
}
