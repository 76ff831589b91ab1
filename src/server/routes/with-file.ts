import { join } from "node:path";
import type { Request, Response } from "express";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import type { ScenarioFile } from "../folder.js";
import type { ScenarioAt, ScenarioTexts } from "../scenario-texts.js";

type FileHandler = (file: ScenarioFile, request: Request, response: Response) => void | Promise<void>;

type ReadHandler = (at: ScenarioAt, request: Request, response: Response) => void | Promise<void>;

/** Reads the scenario that the address names, `:name`, as it is now. */
export function withFile({ folder }: Context, handle: FileHandler) {
  return async (request: Request<{ name: string }>, response: Response): Promise<void> => {
    const file = await folder.read(request.params.name);
    if (file === null) notFound(request, response);
    else await handle(file, request, response);
  };
}

/** The same of a scenario without a problem; of others there is no such page. */
export function withScenario(context: Context, handle: ReadHandler) {
  return withFile(context, async ({ texts, summary }, request, response) => {
    if (summary === null) notFound(request, response);
    else await handle({ file: texts, path: pathOf(texts, context) }, request, response);
  });
}

export function pathOf({ name }: ScenarioTexts, { folder }: Context): string {
  return join(folder.path, name);
}
