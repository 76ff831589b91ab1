import { createHash } from "node:crypto";
import type { PlanJson } from "./plan.js";

/** Of plans that were read: the hash of what stood in the file, which fields added since do not change. */
const read = new WeakMap<PlanJson, string>();

/** The SHA-256 of a plan as it is or will be kept, however its file is laid out. What is weighed names its plan so. */
export function planHash(plan: PlanJson): string {
  return read.get(plan) ?? hashOf(plan);
}

/** The plan, known from now on by the JSON it was read from. */
export function knownAs(plan: PlanJson, json: unknown): PlanJson {
  read.set(plan, hashOf(json));
  return plan;
}

function hashOf(json: unknown): string {
  return createHash("sha256").update(JSON.stringify(json)).digest("hex");
}
