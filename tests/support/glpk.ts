import GLPK from "glpk.js/node";
import type { Model, Objective, Term } from "../../src/allocation/model.js";

export type GlpkAnswer =
  | { readonly kind: "optimal"; readonly objective: number; readonly point: readonly number[] }
  | { readonly kind: "infeasible" | "unbounded" | "no answer" };

const glpk = await GLPK();

/**
 * What GLPK, a third solver that shares no code with the engines, says of a model: the referee. It is asked
 * without its presolver, so that "infeasible" and "unbounded" are told apart for continuous models.
 */
export function solveWithGlpk(model: Model, objective: Objective, seconds = 10): GlpkAnswer {
  const whole = model.variables.flatMap(({ integer }, index) => (integer ? [`v${index}`] : []));
  const { result } = glpk.solve(
    {
      name: "referee",
      objective: {
        direction: objective.sense === "least" ? glpk.GLP_MIN : glpk.GLP_MAX,
        name: "objective",
        vars: named(objective.terms),
      },
      subjectTo: model.rows.map(({ terms, lower, upper }, index) => ({
        name: `c${index}`,
        vars: named(terms),
        bnds: bounds(lower, upper),
      })),
      bounds: model.variables.map(({ lower, upper }, index) => ({
        name: `v${index}`,
        ...bounds(lower, upper),
      })),
      generals: whole,
    },
    { msglev: glpk.GLP_MSG_OFF, presol: whole.length > 0, mipgap: 0, tmlim: seconds },
  );
  if (result.status === glpk.GLP_OPT)
    return {
      kind: "optimal",
      objective: result.z + objective.constant,
      point: model.variables.map((_, index) => result.vars[`v${index}`] ?? 0),
    };
  if (result.status === glpk.GLP_NOFEAS) return { kind: "infeasible" };
  if (result.status === glpk.GLP_UNBND) return { kind: "unbounded" };
  return { kind: "no answer" };
}

function named(terms: readonly Term[]): { name: string; coef: number }[] {
  const sums = new Map<number, number>();
  for (const { variable, coefficient } of terms) sums.set(variable, (sums.get(variable) ?? 0) + coefficient);
  return [...sums].map(([variable, coef]) => ({ name: `v${variable}`, coef }));
}

function bounds(lower: number, upper: number): { type: number; lb: number; ub: number } {
  const hasLower = Number.isFinite(lower);
  const hasUpper = Number.isFinite(upper);
  const sides = { lb: hasLower ? lower : 0, ub: hasUpper ? upper : 0 };
  if (!hasLower && !hasUpper) return { type: glpk.GLP_FR, ...sides };
  if (!hasUpper) return { type: glpk.GLP_LO, ...sides };
  if (!hasLower) return { type: glpk.GLP_UP, ...sides };
  return { type: lower === upper ? glpk.GLP_FX : glpk.GLP_DB, ...sides };
}
