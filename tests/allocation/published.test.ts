import { afterAll, describe, expect, it } from "vitest";
import { certify } from "../../src/allocation/certify.js";
import type { EngineName } from "../../src/allocation/engine.js";
import { HighsAndSearch } from "../../src/allocation/engines/highs-and-search.js";
import { Highs, JavascriptLpSolver } from "../../src/allocation/engines/threaded.js";
import { solveWithGlpk } from "../support/glpk.js";
import { type PublishedModel, publishedModels } from "../support/published-models.js";
import { publishedProblems } from "./published-problems.js";

/** What an engine is not asked to prove, and why. */
const SKIPS: Readonly<Record<EngineName, Readonly<Record<string, string>>>> = {
  "javascript-lp-solver": {
    "cutting-stock-paper-5600": "213 whole numbers, far over the 18 it is asked about; no proof within 8 s",
    "miplib3-egout": "55 whole numbers, far over the 18 it is asked about; no proof within 8 s",
    "miplib3-stein27": "27 whole numbers and much symmetry; no proof within 8 s",
  },
  highs: {},
  "highs and search": {},
};

const folder = process.env.PUBLISHED_MODELS;
const typed: PublishedModel[] = publishedProblems.map(({ expected, ...rest }) => ({
  ...rest,
  optimum: Number(expected),
}));
const models = folder === undefined ? typed : publishedModels(folder);
if (folder === undefined)
  console.log("PUBLISHED_MODELS is not set: only the published problems typed into the tests are solved");

/** Published figures are rounded: as many as five digits are all that some sources print. */
const near = (value: number, optimum: number) => Math.abs(value - optimum) <= 1e-5 * Math.abs(optimum);

describe.each([new JavascriptLpSolver(), new Highs(), new HighsAndSearch(new Highs())])(
  "published problems by $name",
  (engine) => {
    const skips = SKIPS[engine.name];
    const asked = models.filter(({ name }) => skips[name] === undefined);
    let proved = 0;
    afterAll(async () => {
      console.log(`${engine.name}: ${proved} of ${models.length} proved`);
      for (const { name } of models) if (skips[name]) console.log(`  not asked ${name}: ${skips[name]}`);
      await engine.close();
    });

    it.each(asked)("$name", async ({ question, optimum }) => {
      const outcome = await engine.solve(question, { seconds: 30, gap: 1e-6 });
      if (outcome.kind !== "optimal") throw new Error(JSON.stringify(outcome));
      expect(near(outcome.objective, optimum)).toBe(true);
      const { model, objective } = question;
      expect(certify(model, objective, outcome.point, outcome.objective).violations).toEqual([]);
      proved += 1;
    });

    it("is asked all but what the table of skips gives a reason for", () => {
      expect(asked.length).toBeGreaterThanOrEqual(models.length - Object.keys(skips).length);
      const known = new Set(models.map(({ name }) => name));
      if (folder !== undefined) expect(Object.keys(skips).filter((name) => !known.has(name))).toEqual([]);
    });
  },
);

describe("the referee", () => {
  it.each(models)("agrees on $name", ({ question, optimum }) => {
    const answer = solveWithGlpk(question.model, question.objective, 30);
    expect(answer.kind).toBe("optimal");
    expect("objective" in answer && near(answer.objective, optimum)).toBe(true);
  });
});

describe("the folder of published models", () => {
  it("is missed when it is not there or holds no model", () => {
    expect(() => publishedModels("/no/such/folder")).toThrow(
      "PUBLISHED_MODELS names /no/such/folder, which does not exist",
    );
    const empty = new URL(".", import.meta.url).pathname;
    expect(() => publishedModels(empty)).toThrow("which holds no model");
  });
});
