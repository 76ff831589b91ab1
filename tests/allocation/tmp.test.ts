import fc from "fast-check";
import { it } from "vitest";
import { bruteForce } from "../support/brute-force.js";
import { smallScenarios } from "../support/random-scenario.js";
it("times", () => {
  const times: [number, string][] = [];
  let none = 0, ceil = 0, errors = 0;
  for (const seed of [1, 2, 3]) for (const [i, { scenario, grain }] of fc.sample(smallScenarios(), { numRuns: 200, seed }).entries()) {
    const t = performance.now();
    try { if (bruteForce(scenario, scenario.aim, { grain }) === "no plan") none++; } catch (e) { errors++; console.log(seed, i, String(e)); }
    if (scenario.dishes.some((d) => d.ceiling !== null)) ceil++;
    times.push([performance.now() - t, `${seed}/${i} ${scenario.aim}`]);
  }
  times.sort((a, b) => b[0] - a[0]);
  console.log("mean", times.reduce((s, [t]) => s + t, 0) / times.length, "none", none, "ceil", ceil, "errors", errors, times.slice(0, 12));
}, 900000);
