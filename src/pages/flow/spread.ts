/** Something with a height in a column, that would like its top to be somewhere. */
export interface Block {
  readonly height: number;
  readonly wish: number;
  /** How much its wish weighs against its neighbours'. */
  readonly pull: number;
}

/**
 * Tops for blocks that keep their order and a gap and lie within 0 and `room`, as near to their wishes as can be
 * (weighted least squares, by pooling neighbours that push each other).
 */
export function spread(blocks: readonly Block[], gap: number, room: number): number[] {
  const offsets: number[] = [];
  let used = 0;
  for (const { height } of blocks) {
    offsets.push(used);
    used += height + gap;
  }
  const slack = Math.max(0, room - (used - gap));
  const pools: { mean: number; pull: number; count: number }[] = [];
  blocks.forEach(({ wish, pull }, index) => {
    let pool = { mean: wish - (offsets[index] ?? 0), pull, count: 1 };
    for (let above = pools.at(-1); above !== undefined && above.mean > pool.mean; above = pools.at(-1)) {
      const both = above.pull + pool.pull;
      pool = {
        mean: (above.mean * above.pull + pool.mean * pool.pull) / both,
        pull: both,
        count: above.count + pool.count,
      };
      pools.pop();
    }
    pools.push(pool);
  });
  const shifts = pools.flatMap(({ mean, count }) =>
    Array.from({ length: count }, () => Math.min(Math.max(mean, 0), slack)),
  );
  return blocks.map((_, index) => (offsets[index] ?? 0) + (shifts[index] ?? 0));
}
