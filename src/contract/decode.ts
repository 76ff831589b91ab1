import { z } from "zod";
import { Decimal, grams, money } from "../quantity/index.js";
import type { Typed, Written } from "./figure-types.js";
import { type PlanJson, planSchema } from "./plan.js";

/** Where weight or money stands in a plan that was read: an account of the ledger, its name taken apart once. */
export interface PlanAccount {
  /** The name as it stands in JSON, by which two accounts are told apart. */
  readonly id: string;
  readonly kind: string;
  /** The item, part, dish, destination or loss; empty where the kind has only one account. */
  readonly name: string;
  /** The service that a dish is cooked for; empty for all else. */
  readonly service: string;
}

type TypedPlan = Typed<z.infer<typeof planSchema>>;

/** A plan in memory: weights, money and other decimals as such, and accounts taken apart. */
export type Plan = Omit<TypedPlan, "transfers"> & {
  readonly transfers: readonly (Omit<TypedPlan["transfers"][number], "from" | "to"> & {
    readonly from: PlanAccount;
    readonly to: PlanAccount;
  })[];
};

/** A plan's JSON, checked before, as it is read in memory. */
export function decodePlan(json: PlanJson): Plan {
  const plan = decode(planSchema, json);
  const accountOf = accountsOf(json);
  const transfers = plan.transfers.map((transfer) => ({
    ...transfer,
    from: accountOf(transfer.from),
    to: accountOf(transfer.to),
  }));
  return { ...plan, transfers };
}

/** Any JSON of the contract, checked before, with its figures as figures. */
export function decode<T extends z.ZodType>(schema: T, json: Written<z.infer<T>>): Typed<z.infer<T>> {
  return decoded(schema, json) as Typed<z.infer<T>>;
}

/** By the titles that the schemas of figures bear. */
const FIGURES: Readonly<Record<string, (text: string) => unknown>> = {
  grams,
  money,
  decimal: (text) => new Decimal(text),
};

function decoded(schema: z.core.$ZodType, json: unknown): unknown {
  if (json === null || json === undefined) return json;
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodOptional || schema instanceof z.ZodDefault)
    return decoded(schema.unwrap(), json);
  if (schema instanceof z.ZodArray && Array.isArray(json))
    return json.map((each) => decoded(schema.element, each));
  if (schema instanceof z.ZodObject) {
    const fields = Object.entries(json).map(([key, value]) => {
      const field: z.core.$ZodType | undefined = schema.shape[key];
      return [key, field === undefined ? value : decoded(field, value)];
    });
    return Object.fromEntries(fields);
  }
  const title = schema instanceof z.ZodString ? schema.meta()?.title : undefined;
  return typeof json === "string" && title !== undefined ? (FIGURES[title]?.(json) ?? json) : json;
}

/** Takes an account's name apart. Names of dishes and services may hold " @ ", so a plan's own dishes say where to. */
export function accountsOf({
  dishes,
}: {
  readonly dishes: readonly { readonly dish: string; readonly service: string }[];
}): (id: string) => PlanAccount {
  const cooked = new Map(
    dishes.map(({ dish, service }) => [`${dish} @ ${service}`, { name: dish, service }]),
  );
  return (id) => {
    const [kind = "", name = ""] = id.split(/:(.*)/s);
    return { id, kind, service: "", name, ...(kind === "dish" ? cooked.get(name) : undefined) };
  };
}
