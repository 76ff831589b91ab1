import GLPK from "glpk.js/node";
import { certify } from "../../src/allocation/certify.js";
import type { Model, Objective, Term } from "../../src/allocation/model.js";

export type GlpkAnswer =
  | { readonly kind: "optimal"; readonly objective: number; readonly point: readonly number[] }
  | { readonly kind: "infeasible" | "unbounded" | "no answer" };

const glpk = await GLPK();

/** How far GLPK's whole numbers may be off; it rounds them itself as a rule. */
const SNAP = 1e-6;

/**
 * What GLPK, a third solver that shares no code with the engines, says of a model: the referee. Continuous
 * models go without its presolver, so that "infeasible" and "unbounded" are told apart; whole ones cannot.
 * That presolver has called x = 1 optimal where 0.25 <= 1.5 x <= 1.25, so a point that breaks the model is no
 * answer.
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
  if (result.status === glpk.GLP_OPT) {
    const point = model.variables.map(({ integer }, index) => {
      const value = result.vars[`v${index}`] ?? 0;
      return integer && Math.abs(value - Math.round(value)) <= SNAP ? Math.round(value) : value;
    });
    const { certified, objective: value } = certify(model, objective, point, result.z + objective.constant);
    return certified ? { kind: "optimal", objective: value, point } : { kind: "no answer" };
  }
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
