import GLPK from "glpk.js/node";

const glpk = await GLPK();

export interface Term {
  readonly variable: number;
  readonly times: number;
}

interface Bounds {
  readonly least: number;
  readonly most: number;
}

/** How far a whole number may be off, and how many digits of a value are believed. */
const WHOLE_WITHIN = 1e-6;
const DIGITS = 12;

/** A least cost over amounts within bounds, some of them whole, solved by GLPK, which no part of the planner uses. */
export class LinearProgram {
  private readonly costs: number[] = [];
  private readonly bounds: Bounds[] = [];
  private readonly whole: number[] = [];
  private readonly rows: { readonly terms: readonly Term[]; readonly bounds: Bounds }[] = [];

  /** An amount of at least nothing, at a cost for each. */
  amount(cost: number, stated: { readonly most?: number; readonly least?: number; whole?: boolean } = {}) {
    const variable = this.costs.length;
    this.costs.push(cost);
    this.bounds.push({ least: stated.least ?? 0, most: stated.most ?? Infinity });
    if (stated.whole) this.whole.push(variable);
    return variable;
  }

  addCost(variable: number, cost: number): void {
    this.costs[variable] = (this.costs[variable] ?? 0) + cost;
  }

  row(terms: readonly Term[], least: number, most: number): void {
    this.rows.push({ terms, bounds: { least, most } });
  }

  /** The least cost, or null where no amounts keep to every row. */
  leastCost(): number | null {
    let best: number | null = null;
    const waiting: (readonly Bounds[])[] = [this.bounds];
    for (let bounds = waiting.pop(); bounds !== undefined; bounds = waiting.pop()) {
      const found = this.relaxed(bounds);
      if (found === null || (best !== null && found.cost >= best)) continue;
      const broken = this.whole.find((variable) => !isWhole(found.point[variable] ?? 0));
      if (broken === undefined) {
        best = found.cost;
        continue;
      }
      const value = found.point[broken] ?? 0;
      const within = (change: Partial<Bounds>): readonly Bounds[] =>
        bounds.map((each, variable) => (variable === broken ? { ...each, ...change } : each));
      waiting.push(within({ least: Math.ceil(value) }), within({ most: Math.floor(value) }));
    }
    return best;
  }

  private relaxed(bounds: readonly Bounds[]): { cost: number; point: readonly number[] } | null {
    if (bounds.some(({ least, most }) => least > most)) return null;
    const rows = this.rows.filter(({ terms }) => terms.length > 0);
    const empty = this.rows.filter(({ terms }) => terms.length === 0);
    if (empty.some((row) => row.bounds.least > WHOLE_WITHIN || row.bounds.most < -WHOLE_WITHIN)) return null;
    if (this.costs.length === 0) return { cost: 0, point: [] };
    const { result } = glpk.solve(
      {
        name: "parts",
        objective: {
          direction: glpk.GLP_MIN,
          name: "cost",
          vars: this.costs.map((coef, variable) => ({ name: `v${variable}`, coef })),
        },
        subjectTo: rows.map(({ terms, bounds: within }, index) => ({
          name: `r${index}`,
          vars: summed(terms),
          bnds: bounded(within),
        })),
        bounds: bounds.map((each, variable) => ({ name: `v${variable}`, ...bounded(each) })),
      },
      { msglev: glpk.GLP_MSG_OFF, presol: false, tmlim: 10 },
    );
    if (result.status === glpk.GLP_NOFEAS || result.status === glpk.GLP_INFEAS) return null;
    if (result.status !== glpk.GLP_OPT) throw new Error(`the referee got no answer, but ${result.status}`);
    return {
      cost: Number(result.z.toPrecision(DIGITS)),
      point: this.costs.map((_, variable) => result.vars[`v${variable}`] ?? 0),
    };
  }
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) <= WHOLE_WITHIN;
}

function summed(terms: readonly Term[]): { name: string; coef: number }[] {
  const sums = new Map<number, number>();
  for (const { variable, times } of terms) sums.set(variable, (sums.get(variable) ?? 0) + times);
  return [...sums].map(([variable, coef]) => ({ name: `v${variable}`, coef }));
}

function bounded({ least, most }: Bounds): { type: number; lb: number; ub: number } {
  const hasLeast = Number.isFinite(least);
  const hasMost = Number.isFinite(most);
  const sides = { lb: hasLeast ? least : 0, ub: hasMost ? most : 0 };
  if (!hasLeast && !hasMost) return { type: glpk.GLP_FR, ...sides };
  if (!hasMost) return { type: glpk.GLP_LO, ...sides };
  if (!hasLeast) return { type: glpk.GLP_UP, ...sides };
  return { type: least === most ? glpk.GLP_FX : glpk.GLP_DB, ...sides };
}
