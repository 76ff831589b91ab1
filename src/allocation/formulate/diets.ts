import { type Course, type DietCovers, dietText, isFitFor, serviceName } from "../../kitchen/index.js";
import { ONE } from "../../quantity/index.js";
import { Sum } from "../builder.js";
import { rate } from "../floats.js";
import type { Tag } from "../model.js";
import type { BuildContext } from "./context.js";
import { countsTowards, eatenSum } from "./dishes.js";

/** Most rows for the unions of one course; where there would be more, who eats what is said in full. */
const MOST_UNIONS = 64;

/** All that is eaten of one course, or where there is no course, and the people it must be fit for. */
interface Table {
  readonly service: number;
  readonly course: Course | null;
  readonly where: string;
  readonly tag: Tag;
  readonly groups: readonly Group[];
  readonly offers: readonly Offer[];
}

interface Group {
  readonly people: DietCovers;
  /** The offers that are fit for it, one bit each. */
  readonly fit: bigint;
}

/** Dishes that are fit for the same people. */
interface Offer {
  readonly fits: readonly DietCovers[];
  readonly eaten: Sum;
  readonly waiting: number;
}

/**
 * Portions fit for the people who need a diet, each of them counted once: in every course by its take-up, or in all
 * dishes where there is no course. For any of the groups together there are as many portions fit for one of them as
 * they take, rounded up. By Hall's theorem (1935) each group then has its own.
 */
export function addDiets(service: number, context: BuildContext): void {
  const courses = context.scenario.services[service]?.courses ?? [];
  for (const course of courses.length === 0 ? [null] : courses) {
    const table = tableOf(service, course, context);
    const alone = new Set(table.groups.map(({ fit }) => fit));
    const unions = unionsOf(alone);
    for (const fit of unions ?? alone) addUnion(fit, table, context);
    if (unions === null) addEaters(table, context);
  }
}

function tableOf(service: number, course: Course | null, context: BuildContext): Table {
  const { scenario } = context;
  const people = (scenario.services[service]?.diets ?? []).filter(({ covers }) => covers > 0);
  const offers = offersOf(people, service, course, context);
  const groups = people.map((each): Group => {
    const bits = offers.map(({ fits }, bit) => (fits.includes(each) ? 1n << BigInt(bit) : 0n));
    return { people: each, fit: bits.reduce((all, bit) => all | bit, 0n) };
  });
  const name = serviceName(scenario, service);
  return {
    service,
    course,
    where: course === null ? name : `${name}, ${course.name}`,
    tag: { family: "diet", service, ...(course === null ? {} : { course: course.name }) },
    groups,
    offers,
  };
}

function offersOf(
  people: readonly DietCovers[],
  service: number,
  course: Course | null,
  context: BuildContext,
): Offer[] {
  const { dishes, services } = context.scenario;
  const waiting = (services[service]?.waiting ?? []).filter(
    (each) => course === null || each.course === course.name,
  );
  const keyOf = (dish: { readonly diets: readonly string[] }): string =>
    people.map((each) => (isFitFor(each, dish) ? "1" : "0")).join("");
  const keys = new Set([...dishes, ...waiting].map(keyOf));
  return [...keys].map((key) => ({
    fits: people.filter((_, index) => key[index] === "1"),
    eaten: eatenSum(
      service,
      context,
      (site) =>
        keyOf(site.dish) === key && (course === null || countsTowards(site, service, course.name, context)),
    ),
    waiting: waiting.reduce((sum, each) => (keyOf(each) === key ? sum + each.portions : sum), 0),
  }));
}

/**
 * What is fit for a group, and for groups together whose offers overlap: others need no row of their own, as theirs
 * add up to it. Null where there are too many.
 */
function unionsOf(alone: ReadonlySet<bigint>): Set<bigint> | null {
  const unions = new Set(alone);
  // A set is walked to its end with what is added on the way.
  for (const union of unions) {
    for (const fit of alone) if ((union & fit) !== 0n) unions.add(union | fit);
    if (unions.size > Math.max(MOST_UNIONS, alone.size)) return null;
  }
  return unions;
}

/** Enough of these offers for all the groups that can eat of nothing else. */
function addUnion(union: bigint, { groups, offers, course, where, tag }: Table, context: BuildContext): void {
  const bound = groups.filter(({ fit }) => fit === union || (fit !== 0n && (fit & ~union) === 0n));
  const covers = bound.reduce((sum, { people }) => sum + people.covers, 0);
  const eaten = new Sum();
  let lower = Math.ceil(rate((course?.takeUp ?? ONE).times(covers)));
  offers.forEach((offer, bit) => {
    if ((union & (1n << BigInt(bit))) === 0n) return;
    eaten.addSum(offer.eaten);
    lower -= offer.waiting;
  });
  if (lower <= 0) return;
  const name = `${bound.map(({ people }) => dietText(people)).join(", or ")} at ${where}`;
  context.builder.row(tag, name, eaten, { lower });
}

/** Who eats of what: no more of an offer than there is, and all that each group takes. Portions are whole, so shares do. */
function addEaters({ groups, offers, course, where, tag }: Table, { builder }: BuildContext): void {
  const given = offers.map(({ eaten }) => new Sum().addSum(eaten, -1));
  for (const { people, fit } of groups) {
    const had = new Sum();
    const taken = rate((course?.takeUp ?? ONE).times(people.covers));
    offers.forEach((_, bit) => {
      if ((fit & (1n << BigInt(bit))) === 0n) return;
      const name = `${dietText(people)} at ${where}, of offer ${bit + 1}`;
      const eats = builder.variable(tag, name, taken);
      given[bit]?.add(eats, 1);
      had.add(eats, 1);
    });
    builder.row(tag, `${dietText(people)} at ${where}, all fed`, had, { lower: taken });
  }
  given.forEach((sum, bit) => {
    const upper = offers[bit]?.waiting ?? 0;
    builder.row(tag, `offer ${bit + 1} at ${where}, to those with diets`, sum, { upper });
  });
}
