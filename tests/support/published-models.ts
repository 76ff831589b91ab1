import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";
import type { Question } from "../../src/allocation/engine.js";

const fileSchema = z.object({
  name: z.string(),
  sense: z.enum(["min", "max"]),
  source: z.string(),
  known_optimum: z.number(),
  objective_constant: z.number(),
  variables: z
    .array(
      z.object({
        name: z.string(),
        obj: z.number(),
        lb: z.number().nullable(),
        ub: z.number().nullable(),
        integer: z.boolean(),
      }),
    )
    .nonempty(),
  constraints: z
    .array(
      z.object({
        name: z.string(),
        type: z.enum(["L", "G", "E"]),
        rhs: z.number(),
        range: z.number().optional(),
        terms: z.array(z.tuple([z.number().int(), z.number()])),
      }),
    )
    .nonempty(),
});

type Constraint = z.infer<typeof fileSchema>["constraints"][number];

export interface PublishedModel {
  readonly name: string;
  readonly source: string;
  readonly question: Question;
  readonly optimum: number;
}

/** Every model of the folder, in the order of its file names. A folder that is missing or empty is an error. */
export function publishedModels(folder: string): PublishedModel[] {
  if (!existsSync(folder)) throw new Error(`PUBLISHED_MODELS names ${folder}, which does not exist`);
  const files = readdirSync(folder).filter((file) => file.endsWith(".json"));
  if (files.length === 0) throw new Error(`PUBLISHED_MODELS names ${folder}, which holds no model`);
  return files.sort().map((file) => readModel(readFileSync(join(folder, file), "utf8")));
}

function readModel(text: string): PublishedModel {
  const file = fileSchema.parse(JSON.parse(text));
  const tag = { family: "published" };
  return {
    name: file.name,
    source: file.source,
    optimum: file.known_optimum,
    question: {
      model: {
        name: file.name,
        variables: file.variables.map(({ name, lb, ub, integer }) => ({
          name,
          tag,
          lower: lb ?? Number.NEGATIVE_INFINITY,
          upper: ub ?? Number.POSITIVE_INFINITY,
          integer,
        })),
        rows: file.constraints.map((row) => ({
          name: row.name,
          tag,
          terms: row.terms.map(([variable, coefficient]) => ({ variable, coefficient })),
          ...sidesOf(row),
        })),
      },
      objective: {
        sense: file.sense === "max" ? "most" : "least",
        constant: file.objective_constant,
        terms: file.variables.map(({ obj }, variable) => ({ variable, coefficient: obj })),
      },
    },
  };
}

/** A range widens a row downwards for "at most", upwards for "at least", and by its sign for "equal" (MPS rule). */
function sidesOf({ type, rhs, range }: Constraint): { lower: number; upper: number } {
  const width = Math.abs(range ?? Number.POSITIVE_INFINITY);
  if (type === "L") return { lower: rhs - width, upper: rhs };
  if (type === "G") return { lower: rhs, upper: rhs + width };
  return { lower: rhs + Math.min(0, range ?? 0), upper: rhs + Math.max(0, range ?? 0) };
}
