import type { Problem } from "../../reading/index.js";
import type { ReadYieldTests } from "./read-tests.js";
import { words } from "./words.js";
import { isNumberTaken, isSameButForNumber, numberedAfter } from "./write-tests.js";
import type { YieldTest } from "./yield-test.js";

/** Tests ready to be kept, or why they are not. */
export interface TestsAdded {
  /** The tests to be added, numbered after those of the same day; none where there are problems. */
  readonly added: readonly YieldTest[];
  readonly problems: readonly Problem[];
}

/**
 * Adds tests just read to those a kitchen has. One whose number an earlier one of its day has is numbered on; where
 * that day has one with the same weights too, it is taken for the same test and is a problem, so that nothing
 * counts twice.
 */
export function testsAdded(
  earlier: readonly YieldTest[],
  { tests, places, problems }: ReadYieldTests,
): TestsAdded {
  const repeated = tests.flatMap((test): Problem[] => {
    const place = places.get(test);
    const isRepeated =
      isNumberTaken(earlier, test) && earlier.some((other) => isSameButForNumber(other, test));
    return isRepeated && place !== undefined ? [{ ...place, ...words.recordedAlready(test) }] : [];
  });
  if (problems.length + repeated.length > 0) return { added: [], problems: [...problems, ...repeated] };
  const added: YieldTest[] = [];
  for (const test of tests) {
    const others = [...earlier, ...added];
    added.push(isNumberTaken(others, test) ? numberedAfter(others, test) : test);
  }
  return { added, problems: [] };
}
