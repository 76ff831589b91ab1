import fc from "fast-check";
import { it } from "vitest";
import { bruteForce } from "/work/main/tests/support/brute-force.js";
import { smallScenarios } from "/work/main/tests/support/random-scenario.js";
it("stats", () => {
  const all = fc.sample(smallScenarios(), { numRuns: 300, seed: 7 });
  let none = 0, errs = 0; const slow: [number, number][] = []; const t0 = performance.now(); const errors = new Map<string, number>();
  all.forEach(({ scenario, grain }, i) => {
    const t = performance.now();
    try { const b = bruteForce(scenario, scenario.aim, { grain }); if (b === "no plan") none++; } catch (e) { errs++; const m = String(e); errors.set(m.slice(0,80), (errors.get(m.slice(0,80)) ?? 0) + 1); }
    slow.push([performance.now() - t, i]);
  });
  slow.sort((a, b) => b[0] - a[0]);
  console.log({ none, errs, total: performance.now() - t0, slow: slow.slice(0, 12).map(([t,i]) => [Math.round(t), i]), errors });
}, 600000);
