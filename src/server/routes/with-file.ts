import type { Request, Response } from "express";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import type { ScenarioFile } from "../folder.js";

type FileHandler = (file: ScenarioFile, request: Request, response: Response) => void | Promise<void>;

/** Reads the scenario that the address names, `:name`, as it is now. */
export function withFile({ folder }: Context, handle: FileHandler) {
  return async (request: Request<{ name: string }>, response: Response): Promise<void> => {
    const file = await folder.read(request.params.name);
    if (file === null) notFound(request, response);
    else await handle(file, request, response);
  };
}
