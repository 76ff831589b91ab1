import { afterAll, describe, expect, it } from "vitest";
import { certify } from "../../src/allocation/certify.js";
import type { Engine, EngineName, Question } from "../../src/allocation/engine.js";
import { publishedProblems } from "./published-problems.js";
import { trapProblems } from "./trap-problems.js";

export interface AskedProblem {
  readonly name: string;
  readonly source: string;
  readonly question: Question;
  readonly expected: number | "infeasible" | "unbounded";
}

interface Skip {
  readonly reason: string;
  /** What the engine must say instead of an answer. */
  readonly says: string;
}

const ENDLESS: Skip = {
  reason: "without an upper bound on whole numbers it branches until its memory is gone",
  says: "the deadline of 1 s, without any point",
};

/** What an engine is excused from answering, and why. It is asked all the same, and must say so itself. */
const SKIPS: Readonly<Record<EngineName, Readonly<Record<string, Skip>>>> = {
  "javascript-lp-solver": {
    "a variable without a lower bound": {
      reason: "free variables give it wrong optima",
      says: "it must not be asked about free variables",
    },
    "coefficients a thousand million apart": {
      reason: "rows so widely scaled give it false infeasibility and broken rows",
      says: "it must not be asked about coefficients so far apart in one row",
    },
    "no end, in whole numbers": ENDLESS,
    "no end in whole numbers, where HiGHS without presolve says optimal": ENDLESS,
    "no plan in whole numbers, though without them there would be no end": ENDLESS,
  },
  highs: {},
  "highs and search": {},
};

/** What every engine keeps to, whichever it is. */
export function engineSpec(engine: Engine): void {
  const limits = { seconds: 20, gap: 1e-6 };
  const problems = [...publishedProblems, ...trapProblems];
  const skips = SKIPS[engine.name];
  afterAll(() => engine.close());

  describe(`${engine.name} on ${problems.length} small problems`, () => {
    it("has a written reason for every skip", () => {
      const names = problems.map(({ name }) => name);
      expect(Object.keys(skips).filter((name) => !names.includes(name))).toEqual([]);
    });

    for (const { name, source, question, expected } of problems) {
      const skip = skips[name];
      if (skip !== undefined) {
        it(`is excused from: ${name}, because ${skip.reason}`, async () => {
          const outcome = await engine.solve(question, { ...limits, seconds: 1 });
          expect(outcome).toMatchObject({ kind: "failed", reason: skip.says });
        });
        continue;
      }
      it(`${name} (${source})`, async () => {
        const outcome = await engine.solve(question, limits);
        if (typeof expected === "string") {
          expect(outcome).toMatchObject({ kind: expected, engine: engine.name });
          return;
        }
        if (outcome.kind !== "optimal") throw new Error(JSON.stringify(outcome));
        expect(Math.abs(outcome.objective - expected)).toBeLessThanOrEqual(1e-7 * (1 + Math.abs(expected)));
        expect(outcome.gap).toBeLessThanOrEqual(limits.gap);
        expect(outcome.stoppedBy).toBeNull();
        const { model, objective } = question;
        expect(certify(model, objective, outcome.point, outcome.objective).violations).toEqual([]);
      });
    }

    it("says what is wrong with a question that is none", async () => {
      const [{ question }] = publishedProblems as [AskedProblem];
      const spoilt = (coefficient: number, variable: number): Question => ({
        ...question,
        objective: { ...question.objective, terms: [{ variable, coefficient }] },
      });
      expect(await engine.solve(spoilt(Number.NaN, 0), limits)).toMatchObject({
        kind: "failed",
        reason: "the objective has the coefficient NaN",
      });
      expect(await engine.solve(spoilt(1, 7), limits)).toMatchObject({
        kind: "failed",
        reason: "the objective names variable 7, but there are 2",
      });
    });

    it("answers several questions at once, each its own", async () => {
      const some = publishedProblems.slice(0, 4);
      const outcomes = await Promise.all(some.map(({ question }) => engine.solve(question, limits)));
      outcomes.forEach((outcome, index) => {
        expect(outcome).toMatchObject({ kind: "optimal" });
        expect("objective" in outcome && outcome.objective).toBeCloseTo(Number(some[index]?.expected), 4);
      });
    });
  });
}
