import fc from "fast-check";
import { it } from "vitest";
import { feat } from "/tmp/feat.js";
import { buildModel, Engines, solve } from "../../src/allocation/index.js";
import { planScenario } from "../../src/plan.js";
import { bruteForce } from "../support/brute-force.js";
import { smallScenarios } from "../support/random-scenario.js";

it("cmp", async () => {
  const seed = Number(process.env.SEED ?? 7);
  const runs = Number(process.env.RUNS ?? 300);
  const all = fc.sample(smallScenarios(), { numRuns: runs, seed });
  const engines = new Engines();
  const only = process.env.ONLY?.split(",").map(Number);
  let agree = 0,
    none = 0,
    bad = 0;
  let tb = 0,
    tp = 0;
  for (const [i, { scenario, grain }] of all.entries()) {
    if (only && !only.includes(i)) continue;
    let t = performance.now();
    const least = bruteForce(scenario, scenario.aim, { grain, ceilings: "least cost" });
    const b = scenario.dishes.some((d) => d.ceiling !== null)
      ? bruteForce(scenario, scenario.aim, { grain })
      : least;
    tb += performance.now() - t;
    t = performance.now();
    let msg = "";
    try {
      const m = buildModel(scenario);
      const o = await solve(
        { model: m.model, objective: m.objectives[scenario.aim] },
        { engines, seconds: 20, gap: 1e-7, engine: "highs" },
      );
      const modelValue = o.kind === "optimal" ? o.objective : o.kind;
      const p = await planScenario(scenario, { engines, seconds: 20 });
      const pv =
        p.plan.outcome.kind === "optimal"
          ? Number(p.plan.outcome.objective)
          : `${p.plan.outcome.kind} ${p.plan.outcome.stoppedBy ?? ""}`;
      const unit = scenario.aim === "waste" ? 1000 : 1;
      const lv = least === "no plan" ? "infeasible" : least.value.toNumber() / unit;
      const bv = b === "no plan" ? "infeasible" : b.value.toNumber() / unit;
      const same = (x: unknown, y: unknown) =>
        typeof x === "number" && typeof y === "number"
          ? Math.abs(x - y) <= 1e-6 * Math.max(1, Math.abs(y))
          : x === y;
      if (!same(modelValue, lv)) msg += ` MODEL ${modelValue} least-brute ${lv}`;
      if (
        !same(pv, bv) &&
        !same(pv, typeof bv === "number" ? bv * (scenario.aim === "waste" ? 1000 : 1) : bv)
      )
        msg += ` PLAN ${pv} brute ${bv} (${p.plan.outcome.engine})`;
    } catch (e) {
      msg += ` THROW ${String(e).slice(0, 300)}`;
    }
    tp += performance.now() - t;
    if (b === "no plan") none++;
    if (msg) {
      bad++;
      if (bad <= Number(process.env.SHOW ?? 8))
        console.log(i, msg, process.env.FEAT ? feat(scenario, grain) : "", b === "no plan" ? "" : b.plan);
      else console.log(i, msg.slice(0, 200));
    } else agree++;
  }
  console.log({ agree, bad, none, tb, tp });
  await engines.close();
}, 600000);
