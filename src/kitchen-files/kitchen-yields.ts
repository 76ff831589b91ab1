import { type Problem, problemOf, type Source } from "../reading/index.js";
import { changeFile, NotSaved, readText, yieldTestsFile } from "../records/index.js";
import { safetyTableProblems } from "../safety/index.js";
import {
  loadYieldTables,
  readYieldTests,
  type TestsAdded,
  tablesWithTests,
  testsAdded,
  writeYieldTests,
  type YieldTables,
  type YieldTest,
} from "../yields/index.js";
import { words } from "./words.js";

/** The yields a kitchen goes by: the published tables, its own tests, and the two weighed together. */
export interface KitchenYields {
  readonly published: YieldTables;
  readonly tests: readonly YieldTest[];
  readonly tables: YieldTables;
  readonly problems: readonly Problem[];
}

/** The yield tables that come with the package, read at first need: they do not change while the program runs. */
let packaged: ReturnType<typeof loadYieldTables> | undefined;
/** The last own tests read: many scenarios of one folder are joined with the same. */
let last: { readonly ownTests: OwnTestsFile; readonly yields: KitchenYields } | undefined;

/** A kitchen's own tests as found: their text, or null where it may not be read. */
export interface OwnTestsFile {
  readonly file: string;
  readonly text: string | null;
  /** Why there is no text. */
  readonly problem?: Problem;
}

/** The own tests in a kitchen's folder; null where there are none. */
export async function readOwnTests(folder: string): Promise<OwnTestsFile | null> {
  const file = yieldTestsFile(folder);
  try {
    const text = await readText(file);
    return typeof text === "string" ? { file, text } : { file, text: null, problem: text };
  } catch (error) {
    const isThere = !(error instanceof Error && "code" in error && error.code === "ENOENT");
    return isThere ? { file, text: null } : null;
  }
}

/**
 * The yields with these own tests; a test with a problem is left out, and the problem told, as are those of the tables
 * that come with the package, of yields and of safety.
 */
export function kitchenYields(ownTests: OwnTestsFile | null): KitchenYields {
  packaged ??= loadYieldTables();
  const { tables: published } = packaged;
  const problems = [...packaged.problems, ...safetyTableProblems()];
  if (ownTests === null) return { published, tests: [], tables: published, problems };
  const { file, text, problem = problemOf(file, words.ownTestsUnreadable()) } = ownTests;
  if (text === null) return { published, tests: [], tables: published, problems: [...problems, problem] };
  if (last?.ownTests.file === file && last.ownTests.text === text) return last.yields;
  const read = readYieldTests({ file, text }, published);
  const yields = {
    published,
    tests: read.tests,
    tables: tablesWithTests(published, read.tests),
    problems: [...problems, ...read.problems],
  };
  last = { ownTests, yields };
  return yields;
}

/** The yields of the kitchen whose folder this is. */
export async function loadKitchenYields(folder: string): Promise<KitchenYields> {
  return kitchenYields(await readOwnTests(folder));
}

/**
 * Adds the yield tests of a text to a kitchen's own, all of them or, where anything is wrong with one, none. What is
 * there already stays; the file is written whole, and no two programs write it at once.
 */
export async function recordTests(folder: string, source: Source): Promise<TestsAdded> {
  const file = yieldTestsFile(folder);
  const { published, problems: tableProblems } = kitchenYields(null);
  const read = readYieldTests(source, published);
  if (tableProblems.length + read.problems.length > 0)
    return { added: [], problems: [...tableProblems, ...read.problems] };
  let result: TestsAdded = { added: [], problems: [] };
  try {
    await changeFile(file, (text) => {
      const earlier = text === null ? { tests: [], problems: [] } : readYieldTests({ file, text }, published);
      result =
        earlier.problems.length > 0
          ? { added: [], problems: earlier.problems }
          : testsAdded(earlier.tests, read);
      if (result.problems.length > 0) throw new Refused();
      return writeYieldTests([...earlier.tests, ...result.added]);
    });
  } catch (error) {
    if (error instanceof NotSaved) return { added: [], problems: [error.problem] };
    if (!(error instanceof Refused)) throw error;
  }
  return result;
}

/** Leaves the file of tests as it is. */
class Refused extends Error {}
