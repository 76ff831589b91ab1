import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crossings, type Layered, untangled } from "../../../src/pages/flow/order.js";
import { spread } from "../../../src/pages/flow/spread.js";

const SEED = 1736;
console.info(`order properties: seed ${SEED}`);

/** Three layers of up to four nodes, small enough to try every order. */
const layered: fc.Arbitrary<Layered> = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
  .chain((sizes) => {
    let next = 0;
    const layers = sizes.map((size) => Array.from({ length: size }, () => next++));
    const pairs = layers
      .slice(1)
      .flatMap((layer, index) => (layers[index] ?? []).flatMap((from) => layer.map((to) => ({ from, to }))));
    return fc.subarray(pairs).map((edges) => ({ layers, edges }));
  });

function orders<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, index) =>
    orders([...items.slice(0, index), ...items.slice(index + 1)]).map((rest) => [item, ...rest]),
  );
}

function fewestCrossings({ layers, edges }: Layered): number {
  let fewest = Number.POSITIVE_INFINITY;
  const [first = [], second = [], third = []] = layers;
  for (const a of orders(first))
    for (const b of orders(second))
      for (const c of orders(third)) fewest = Math.min(fewest, crossings({ layers: [a, b, c], edges }));
  return fewest;
}

describe("the order of a picture", () => {
  it("counts crossings", () => {
    const edges = [
      { from: 0, to: 3 },
      { from: 1, to: 2 },
    ];
    expect(
      crossings({
        layers: [
          [0, 1],
          [2, 3],
        ],
        edges,
      }),
    ).toBe(1);
    expect(
      crossings({
        layers: [
          [1, 0],
          [2, 3],
        ],
        edges,
      }),
    ).toBe(0);
  });

  it("is the best or within a tenth of it over many small graphs, and keeps every node", () => {
    let found = 0;
    let best = 0;
    fc.assert(
      fc.property(layered, (graph) => {
        const order = untangled(graph);
        expect(order.map((layer) => [...layer].sort((a, b) => a - b))).toEqual(graph.layers);
        const count = crossings({ layers: order, edges: graph.edges });
        expect(count).toBeLessThanOrEqual(crossings(graph));
        found += count;
        best += fewestCrossings(graph);
      }),
      { seed: SEED, numRuns: 60 },
    );
    console.info(`crossings over 60 graphs: ${found}, of which ${best} cannot be avoided`);
    expect(found).toBeLessThanOrEqual(best * 1.1);
  });

  it("draws a tree without a crossing", () => {
    const layers = [
      [0, 1],
      [2, 3, 4],
      [5, 6, 7],
    ];
    const edges = [
      { from: 0, to: 4 },
      { from: 0, to: 2 },
      { from: 1, to: 3 },
      { from: 4, to: 5 },
      { from: 2, to: 7 },
      { from: 3, to: 6 },
    ];
    expect(crossings({ layers, edges })).toBeGreaterThan(0);
    expect(crossings({ layers: untangled({ layers, edges }), edges })).toBe(0);
  });
});

describe("spreading blocks in a column", () => {
  const block = fc.record({
    height: fc.double({ min: 1, max: 40, noNaN: true }),
    wish: fc.double({ min: -50, max: 300, noNaN: true }),
    pull: fc.double({ min: 0.1, max: 20, noNaN: true }),
  });

  it("keeps order, gaps and room, and no block could be nearer to its wish by moving alone", () => {
    fc.assert(
      fc.property(
        fc.array(block, { minLength: 1, maxLength: 8 }),
        fc.double({ min: 0, max: 200, noNaN: true }),
        (blocks, spare) => {
          const gap = 5;
          const used = blocks.reduce((sum, { height }) => sum + height + gap, -gap);
          const tops = spread(blocks, gap, used + spare);
          blocks.forEach(({ height, wish }, index) => {
            const top = tops[index] ?? 0;
            const above = index === 0 ? 0 : (tops[index - 1] ?? 0) + (blocks[index - 1]?.height ?? 0) + gap;
            const below = index === blocks.length - 1 ? used + spare : (tops[index + 1] ?? 0) - gap;
            expect(top).toBeGreaterThanOrEqual(above - 1e-6);
            expect(top + height).toBeLessThanOrEqual(below + 1e-6);
            const nearest = Math.min(Math.max(wish, above), below - height);
            const free = top > above + 1e-6 && top + height < below - 1e-6;
            if (free) expect(top).toBeCloseTo(nearest, 4);
          });
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });

  it("shares the push by how hard each block pulls", () => {
    const tops = spread(
      [
        { height: 10, wish: 50, pull: 3 },
        { height: 10, wish: 50, pull: 1 },
      ],
      0,
      200,
    );
    // Least squares: 3 (y - 50)^2 + (y + 10 - 50)^2 is least at y = 47.5.
    expect(tops).toEqual([47.5, 57.5]);
  });
});
