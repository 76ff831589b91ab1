import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { latestStarts, type Task } from "../../src/pages/schedule.js";

const task = (minutes: number, unattended = 0, after: number[] = []): Task => ({
  minutes,
  unattended,
  after,
});
const tasksFrom = (count: number) =>
  fc
    .array(fc.tuple(fc.nat(60), fc.nat(120), fc.array(fc.nat(9), { maxLength: 2 })), {
      minLength: 1,
      maxLength: count,
    })
    .map((drawn) =>
      drawn.map(([minutes, unattended, after], index) =>
        task(minutes, unattended, [...new Set(after.filter((each) => each < index))]),
      ),
    );

describe("latest starts", () => {
  it("sets the work of one cook one after the other, the longest cooking first", () => {
    // Worked by hand: 10 min for a bake of 40 min, then 15 min for a salad served at once.
    expect(latestStarts([task(10, 40), task(15)], 1)).toEqual([
      { start: 50, cook: 0 },
      { start: 15, cook: 0 },
    ]);
  });

  it("leaves what a task makes the time it needs by itself before it is worked further", () => {
    // Stock of 20 min simmers 240 min before a soup of 30 min that cooks 40 min: 330 min before the service.
    expect(latestStarts([task(20, 240), task(30, 40, [0])], 2).map(({ start }) => start)).toEqual([330, 70]);
  });

  it("never lets a cook do two things at once, nor anything start before what it needs is done", () => {
    fc.assert(
      fc.property(tasksFrom(10), fc.integer({ min: 1, max: 3 }), (tasks, cooks) => {
        const slots = latestStarts(tasks, cooks);
        const spans = slots.map(({ start, cook }, index) => {
          const { minutes = 0, unattended = 0 } = tasks[index] ?? {};
          return { start, end: start - minutes, ready: start - minutes - unattended, cook };
        });
        spans.forEach((span, index) => {
          expect(span.ready).toBeGreaterThanOrEqual(0);
          for (const needed of tasks[index]?.after ?? [])
            expect(spans[needed]?.ready).toBeGreaterThanOrEqual(span.start);
          for (const other of spans.slice(index + 1))
            if (other.cook === span.cook)
              expect(other.start <= span.end || span.start <= other.end).toBe(true);
        });
      }),
      { seed: 19550101, numRuns: 300 },
    );
  });

  it("starts one cook no earlier than any order of tasks that need nothing of each other could", () => {
    const orders = <T>(all: readonly T[]): T[][] =>
      all.length === 0
        ? [[]]
        : all.flatMap((one, index) =>
            orders(all.filter((_, other) => other !== index)).map((rest) => [one, ...rest]),
          );
    const startOf = (tasks: readonly Task[]) => Math.max(...latestStarts(tasks, 1).map(({ start }) => start));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.nat(120)), { minLength: 1, maxLength: 5 }),
        (drawn) => {
          const tasks = drawn.map(([minutes, unattended]) => task(minutes, unattended));
          const longestFirst = [...tasks].sort((a, b) => b.unattended - a.unattended);
          expect(startOf(longestFirst)).toBe(Math.min(...orders(tasks).map(startOf)));
        },
      ),
      { seed: 19550102, numRuns: 100 },
    );
  });
});
