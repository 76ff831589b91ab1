import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { Engines, solveStages } from "../../src/allocation/index.js";
import { composePlan } from "../../src/contract/index.js";
import { loadScenarioText } from "../../src/kitchen-files/index.js";
import { allergensData } from "../../src/pages/allergens.js";
import { labelsData } from "../../src/pages/labels.js";
import { viewOf } from "../../src/pages/view.js";
import { planWithinCeilings } from "../../src/planning/plan-within-ceilings.js";
import { randomKitchens } from "../support/random-kitchens.js";
import { harm, wordsReaching } from "../support/safety-judge.js";

/** Thousands can be asked for from outside: SAFETY_RUNS=3000 SAFETY_SEED=5. */
const RUNS = Number(process.env.SAFETY_RUNS ?? 60);
const SEED = Number(process.env.SAFETY_SEED ?? 20261002);

/** As the pages print it. */
const PRINTED: Readonly<Record<string, string>> = { Sellerie: "celery" };

const engines = new Engines();
afterAll(() => engines.close());

describe("plans of random kitchens", () => {
  it(
    `use no part outside its dates, serve none that must never be eaten, and drop no allergen (${RUNS} kitchens)`,
    async () => {
      const faults: string[] = [];
      const seen = { planned: 0, refused: 0, none: 0, offeredAgain: 0, allergens: 0 };
      for (const [index, { text, serves }] of fc
        .sample(randomKitchens(), { numRuns: RUNS, seed: SEED })
        .entries()) {
        const note = (fault: string) => faults.push(`kitchen ${index}: ${fault}`);
        const { scenario, problems } = loadScenarioText("kitchen.yaml", text);
        if (scenario === null) {
          seen.refused++;
          // What the file calls inedible itself and serves all the same is reported before anything else.
          const contradicts = problems.some(({ what }) =>
            what.includes("is inedible, and a dish takes food"),
          );
          for (const name of contradicts ? [] : serves)
            if (!problems.some(({ what }) => what.includes(name)))
              note(`${name} is not named in the refusal: ${problems.map(({ what }) => what).join("; ")}`);
          if (
            serves.length === 0 &&
            !contradicts &&
            problems.some(({ what }) => !/must (not|never) be eaten/.test(what))
          )
            note(`is refused: ${problems.map(({ what }) => what).join("; ")}`);
          continue;
        }
        for (const name of serves) note(`${name} may be served`);
        const settled = await planWithinCeilings(scenario, (model) =>
          solveStages(model, { engines, seconds: 10 }),
        );
        if (settled.kind === "none") {
          seen.none++;
          if (settled.outcome.kind === "failed") note(settled.outcome.reason);
          continue;
        }
        seen.planned++;
        const { decision, ledger, first, stages } = settled;
        for (const fault of harm(decision, scenario)) note(fault);
        seen.offeredAgain += decision.cookings.filter(({ service, served }) =>
          served.some((each) => each.service !== service),
        ).length;
        const findings = { outcome: first, stages, warnings: [], reasons: [], risk: null };
        const view = viewOf(composePlan(scenario, decision, ledger, findings), scenario);
        const rows = allergensData(view).services.flatMap((service) => service.rows);
        for (const { dish } of decision.cookings) {
          const row = rows.find((each) => each.dish.toLowerCase() === dish);
          for (const word of wordsReaching(dish, scenario)) {
            seen.allergens++;
            if (!(row?.words ?? "").toLowerCase().includes((PRINTED[word] ?? word).toLowerCase()))
              note(`${word} of ${dish} is not printed: "${row?.words ?? ""}"`);
          }
        }
        for (const label of labelsData(view).labels)
          if (label.name.startsWith("Celery ") && !/celery/i.test(label.allergens))
            note(`${label.name} has no celery`);
      }
      expect(faults).toEqual([]);
      expect(seen.planned).toBeGreaterThan(RUNS / 3);
      expect(seen.refused).toBeGreaterThan(0);
      expect(seen.offeredAgain).toBeGreaterThan(RUNS / 20);
      expect(seen.allergens).toBeGreaterThan(RUNS / 4);
    },
    120_000 + RUNS * 1000,
  );
});
