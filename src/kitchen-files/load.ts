import { stat } from "node:fs/promises";
import { dirname } from "node:path";
import {
  type Aim,
  addDays,
  isTestCard,
  type ReadScenario,
  readScenario,
  readTestCard,
  type Scenario,
} from "../kitchen/index.js";
import type { Weight } from "../quantity/index.js";
import { byName, inFileOrder, type Problem, problemOf } from "../reading/index.js";
import { textAt } from "../records/index.js";
import { safetyTableProblems } from "../safety/index.js";
import { resolveScenario } from "../scenario/index.js";
import { type CheckedTestCard, checkTestCard } from "../yields/index.js";
import { kitchenYields, type OwnTestsFile, readOwnTests } from "./kitchen-yields.js";
import { safetyProblems } from "./safety-problems.js";
import { words } from "./words.js";

/** A scenario file read, joined with the kitchen's yields and checked for safety; null where there are problems. */
export interface Loaded {
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
}

/**
 * Reads a scenario file from disk, with the kitchen's own yield tests beside it, for the aim asked for instead of
 * its own. A file that is not there, or not allowed, is a problem like any other.
 */
export async function loadScenario(path: string, aim?: Aim): Promise<Loaded> {
  const text = await textOf(path, "a scenario file");
  if (typeof text !== "string") return { scenario: null, problems: [text] };
  return loadScenarioText(path, text, aim, await readOwnTests(dirname(path)));
}

/** A key at the top that scenarios have and test cards do not. */
const SCENARIO_KEY = /^["']?(?:scenario|services|dishes)["']?[ \t]*:/m;

/** Reads a test card from disk and checks it, as `loadScenario` does a scenario. */
export async function loadTestCard(path: string): Promise<CheckedTestCard> {
  const text = await textOf(path, "a file with a butcher's test or a cooking-loss test");
  if (typeof text !== "string") return { card: null, problems: [text] };
  if (!isTestCard(text) && SCENARIO_KEY.test(text))
    return { card: null, problems: [problemOf(path, words.isScenario())] };
  return checkTestCard(readTestCard({ file: path, text }));
}

/** Everything wrong with a scenario file or a test card. */
export async function problemsOf(path: string): Promise<readonly Problem[]> {
  const text = await textOf(path, "a scenario file or a test card");
  if (typeof text === "string" && isTestCard(text))
    return checkTestCard(readTestCard({ file: path, text })).problems;
  return (await loadScenario(path)).problems;
}

/** The text of a file, or why there is none. */
async function textOf(path: string, kind: string): Promise<string | Problem> {
  const text = await textAt(path);
  if (typeof text === "string") return text;
  const isFolder = await stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
  if (text !== null && !isFolder) return text;
  return problemOf(path, isFolder ? words.isFolder(kind) : words.noFile(kind));
}

/** The same from texts at hand; `file` names the scenario's in problems. */
export function loadScenarioText(
  file: string,
  text: string,
  aim?: Aim,
  ownTests: OwnTestsFile | null = null,
): Loaded {
  if (isTestCard(text)) return { scenario: null, problems: [problemOf(file, words.isTestCard())] };
  const read = readScenario({ file, text });
  const asked = aim === undefined || read.value === null ? read : { ...read, value: { ...read.value, aim } };
  return joined(asked, ownTests);
}

/** An offcut that is in the kitchen and not in the scenario's file. */
export interface Offcut {
  readonly part: string;
  readonly weight: Weight;
  /** Last day it may be used, ISO 8601; as long as the part keeps from the first service's day on, where not stated. */
  readonly useBy?: string;
}

/** A scenario with an offcut as the last of its parts on hand. */
export interface LoadedOffcut extends Loaded {
  /** Its index among the parts on hand. */
  readonly stock: number;
}

/**
 * Reads a scenario file as `loadScenario` does, with an offcut among its parts on hand. What is wrong with the offcut
 * is a problem without a place in the file.
 */
export async function loadWithOffcut(path: string, { part, weight, useBy }: Offcut): Promise<LoadedOffcut> {
  const text = await textOf(path, "a scenario file");
  if (typeof text !== "string") return { scenario: null, problems: [text], stock: -1 };
  const ownTests = await readOwnTests(dirname(path));
  const plain = loadScenarioText(path, text, undefined, ownTests);
  if (plain.scenario === null) return { ...plain, stock: -1 };
  const { firstDate } = plain.scenario;
  const read = readScenario({ file: path, text });
  const parts = read.value?.parts ?? byName({});
  const entry = parts[part] ?? {};
  const held = { weight, use_by: useBy ?? firstDate };
  const value = read.value && {
    ...read.value,
    parts: byName({ ...parts, [part]: { ...entry, on_hand: [...(entry.on_hand ?? []), held] } }),
  };
  const { scenario, problems } = joined({ ...read, value }, ownTests);
  if (scenario === null) return { scenario, problems, stock: -1 };
  const stock = scenario.partsOnHand.findLastIndex((each) => each.part === part);
  const keeps = scenario.parts.find(({ name }) => name === part)?.keepsDays ?? null;
  const lastDay = keeps === null ? null : keeps - 1;
  const dated =
    useBy === undefined ? { useBy: lastDay === null ? null : addDays(firstDate, lastDay), lastDay } : {};
  const partsOnHand = scenario.partsOnHand.map((each, index) =>
    index === stock ? { ...each, ...dated } : each,
  );
  return { scenario: { ...scenario, partsOnHand }, problems, stock };
}

function joined(read: ReadScenario, ownTests: OwnTestsFile | null): Loaded {
  const { tables, problems: tableProblems } = kitchenYields(ownTests);
  const { scenario, drafted, problems } = resolveScenario(read, tables);
  const canJudge = safetyTableProblems().length === 0;
  const blocks = drafted === null || !canJudge ? [] : safetyProblems(drafted, read);
  const all = [...tableProblems, ...[...problems, ...blocks].sort(inFileOrder)];
  return { scenario: all.length === 0 ? scenario : null, problems: all };
}
