import { termsOf } from "../matrix.js";
import type { Tag } from "../model.js";
import type { Problem } from "./problem.js";

/** A row of more terms than this ties everything to everything: what is free does not spread along it. */
const WIDE = 100;
/** From a cut to what it gives, and to the lines that takes part in. */
const HOPS = 2;
/** An item's stock runs on from service to service, and so all of it is free where one of its cuts is. */
const STOCK = new Set(["stock", "buy", "bin", "keep item"]);

export type Links = ReturnType<typeof linksOf>;

/** Which items, cookings and services stand behind the columns, read from their tags, and how they hang together. */
export function linksOf(problem: Problem) {
  const { tags, wholes } = problem;
  const every = tags.map((_, column) => column);
  const itemAt = (column: number): string | undefined => tags[column]?.item;
  const cookingAt = (column: number): string | undefined => cookingOf(tags[column]);
  const serviceAt = (column: number): number | undefined => tags[column]?.service;
  const wholesOfItem = gathered(wholes, itemAt, (column) => column);
  const wholesOfCooking = gathered(
    wholes.filter((column) => tags[column]?.family !== "go"),
    cookingAt,
    (column) => column,
  );
  const wholesOfService = gathered(wholes, serviceAt, (column) => column);
  const itemsOf = gathered(every, cookingAt, itemAt);
  const cookingsOf = gathered(every, itemAt, cookingAt);
  const cookingsAt = gathered(every, serviceAt, cookingAt);
  const stockOf = gathered(
    every.filter((column) => STOCK.has(tags[column]?.family ?? "")),
    itemAt,
    (column) => column,
  );
  const flows = every.filter((column) => problem.matrix.whole[column] !== 1);
  return {
    items: [...wholesOfItem.keys()],
    cookings: [...wholesOfCooking.keys()],
    services: [...wholesOfService.keys()],
    wholesOfItem: (item: string): readonly number[] => wholesOfItem.get(item) ?? [],
    wholesOfCooking: (cooking: string): readonly number[] => wholesOfCooking.get(cooking) ?? [],
    wholesOfService: (service: number): readonly number[] => wholesOfService.get(service) ?? [],
    itemsOf: (cooking: string): readonly string[] => itemsOf.get(cooking) ?? [],
    cookingsOf: (item: string): readonly string[] => cookingsOf.get(item) ?? [],
    cookingsAt: (service: number): readonly string[] => cookingsAt.get(service) ?? [],
    withEveryFlow: (free: ReadonlySet<number>) => new Set([...free, ...flows]),
    /** The given columns with every flow that must be free for them to move. */
    withFlows: (free: ReadonlySet<number>): Set<number> => {
      const items = new Set([...free].flatMap((column) => itemAt(column) ?? []));
      return spread(problem, new Set([...free, ...[...items].flatMap((item) => stockOf.get(item) ?? [])]));
    },
  };
}

function cookingOf(tag: Tag | undefined): string | undefined {
  return tag?.dish === undefined ? undefined : `${tag.dish} ${tag.service}`;
}

/** The different values of columns by a key, both where there are any. */
function gathered<K, V>(
  columns: readonly number[],
  keyOf: (column: number) => K | undefined,
  subjectOf: (column: number) => V | undefined,
): Map<K, V[]> {
  const sets = new Map<K, Set<V>>();
  for (const column of columns) {
    const key = keyOf(column);
    const value = subjectOf(column);
    if (key === undefined || value === undefined) continue;
    const set = sets.get(key) ?? new Set<V>();
    sets.set(key, set.add(value));
  }
  return new Map([...sets].map(([key, set]) => [key, [...set]]));
}

/** Adds the continuous columns that share a row with those there are, and whether anything is ordered, and again. */
function spread({ matrix, rowsOf, tags }: Problem, free: Set<number>): Set<number> {
  let edge = [...free];
  for (let hop = 0; hop < HOPS; hop++) {
    const next: number[] = [];
    for (const row of new Set(edge.flatMap((column) => rowsOf[column] ?? []))) {
      if ((matrix.starts[row + 1] ?? 0) - (matrix.starts[row] ?? 0) > WIDE) continue;
      for (const [column] of termsOf(matrix, row)) {
        if (free.has(column) || (matrix.whole[column] === 1 && tags[column]?.family !== "order")) continue;
        free.add(column);
        next.push(column);
      }
    }
    edge = next;
  }
  return free;
}
