import { expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { planScenario } from "../../src/planning/index.js";
import { printTable } from "./measure.js";
import { generateMenu, type MenuFacts, nameOf } from "./menus/index.js";

const SECONDS = Number(process.env.BENCH_SECONDS ?? 10);
/** How long after its deadline a plan may be handed out: the ledger is kept and written last. */
const GRACE = 0.5;
const MEGABYTES = 600;
const WEEK = { items: 40, dishes: 200, days: 7 } as const;
const MENUS: readonly MenuFacts[] = [
  { ...WEEK, sittings: 1, menu: "chosen", aim: "balanced", seed: 1 },
  { ...WEEK, sittings: 2, menu: "chosen", aim: "balanced", seed: 2 },
  { ...WEEK, sittings: 2, menu: "chosen", aim: "waste", seed: 1 },
  { ...WEEK, sittings: 2, menu: "fixed", aim: "balanced", seed: 1 },
];

it("plans a week of 40 items and 200 dishes within its deadline and 600 MB, the bench's own included", async () => {
  const rows = [["menu", "seconds", "peak MB", "outcome", "objective", "bound", "gap", "stages"]];
  const missed: string[] = [];
  for (const facts of MENUS) {
    const engines = new Engines();
    const began = performance.now();
    const { plan } = await planScenario(generateMenu(facts), { engines, seconds: SECONDS });
    const seconds = (performance.now() - began) / 1000;
    await engines.close();
    const peak = process.resourceUsage().maxRSS / 1024;
    const { kind, objective, bound, gap } = plan.outcome;
    const stages = plan.stages.map(({ aim, value }) => `${aim} ${value}`).join(", ");
    rows.push([
      ...[nameOf(facts), seconds.toFixed(2), peak.toFixed(0), kind],
      ...[objective ?? "-", bound ?? "-", gap ?? "-", stages],
    ]);
    console.log(rows.at(-1)?.join(" | "));
    if (kind !== "optimal" && kind !== "feasible") missed.push(`${nameOf(facts)}: ${kind}`);
    if (seconds > SECONDS + GRACE) missed.push(`${nameOf(facts)}: ${seconds} s`);
    if (peak > MEGABYTES) missed.push(`${nameOf(facts)}: ${peak} MB`);
  }
  printTable("A whole week, from scenario to plan.", rows);
  expect(missed).toEqual([]);
});
