import { z } from "zod";
import { CUP_SYSTEMS, type CupSystem } from "../../quantity/index.js";
import {
  inFileOrder,
  type Problem,
  type ReadValue,
  readBySchema,
  readYaml,
  type Source,
  type Written,
  writtenAt,
} from "../../reading/index.js";
import { alikeNames } from "./alike-names.js";
import { farDates } from "./far-dates.js";
import { type ScenarioFile, scenarioFileSchema } from "./schema.js";
import { words } from "./wording.js";

/** A scenario file as read: its values, where each stands, and the problems of its form. */
export interface ReadScenario extends ReadValue<ScenarioFile> {
  readonly file: string;
  /** Everything written, also what was left out because of a problem. */
  readonly written: Written | undefined;
}

/** Reads a scenario file. Problems of form are reported here; names and sums are checked by `resolveScenario`. */
export function readScenario(source: Source): ReadScenario {
  const document = readYaml(source);
  const read = readBySchema(schemaFor(statedCups(document.value)), document, {
    emptyRemedy: "Begin with `scenario:` and its name",
    standIns: { scenario: "unnamed", currency: "EUR", services: [], items: {}, dishes: {} },
  });
  const { value } = read;
  const many = value === null ? [] : tooMany(value, read);
  const odd = value === null ? [] : [...alikeNames(value, read), ...farDates(value, document.value, read)];
  const problems = [...read.problems, ...many, ...odd].sort(inFileOrder);
  return {
    ...read,
    value: many.length > 0 ? null : value,
    problems,
    file: source.file,
    written: document.value,
  };
}

/** Items, dishes and the like that are joined one with another: no kitchen has so many, and no week could be planned. */
const MOST_ENTRIES = 1_000;

function tooMany(file: ScenarioFile, read: ReadValue<ScenarioFile>): Problem[] {
  const { services, items, parts = {}, steps = {}, dishes } = file;
  return Object.entries({ services, items, parts, steps, dishes }).flatMap(([key, entries]) => {
    const names = Array.isArray(entries) ? [...entries.keys()] : Object.keys(entries);
    const first = names[MOST_ENTRIES];
    if (first === undefined) return [];
    return [
      { ...read.keyPositionOf([key, first]), ...words.tooManyEntries(key, names.length, MOST_ENTRIES) },
    ];
  });
}

/** JSON Schema (draft 2020-12) of a scenario file, for editors. */
export function scenarioJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(scenarioFileSchema("us"), { io: "input" });
}

/** Schemas made so far: zod compiles each at its first use, which costs more than reading a file with it. */
const SCHEMAS = new Map<CupSystem | null, ReturnType<typeof scenarioFileSchema>>();

function schemaFor(cups: CupSystem | null): ReturnType<typeof scenarioFileSchema> {
  const schema = SCHEMAS.get(cups) ?? scenarioFileSchema(cups);
  SCHEMAS.set(cups, schema);
  return schema;
}

function statedCups(written: Written | undefined): CupSystem | null {
  const stated = writtenAt(written, ["units", "cup"]);
  return CUP_SYSTEMS.find((system) => system === stated) ?? null;
}
