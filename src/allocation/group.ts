/** Groups a list by key, in order of first appearance; a key that is absent has no group. */
export function groupBy<T, K>(list: readonly T[], keyOf: (entry: T) => K): Groups<T, K> {
  const groups = new Map<K, T[]>();
  for (const entry of list) {
    const key = keyOf(entry);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [entry]);
    else group.push(entry);
  }
  return { of: (key) => groups.get(key) ?? [], entries: () => [...groups] };
}

export interface Groups<T, K> {
  of(key: K): readonly T[];
  entries(): [K, readonly T[]][];
}
