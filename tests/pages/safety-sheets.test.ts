import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Engines } from "../../src/allocation/index.js";
import { loadScenario } from "../../src/kitchen-files/index.js";
import { allergensData } from "../../src/pages/allergens.js";
import { labelsData } from "../../src/pages/labels.js";
import { type View, viewOf } from "../../src/pages/view.js";
import { planScenario } from "../../src/planning/index.js";
import { total } from "../../src/quantity/index.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");
const engines = new Engines();
afterAll(() => engines.close());
let view: View;

beforeAll(async () => {
  const { scenario } = await loadScenario("examples/demo.yaml");
  if (scenario === null) throw new Error("the demo has problems");
  const { plan } = await planScenario(scenario, { engines, seconds: 20 });
  view = viewOf(plan, scenario);
});

describe("container labels", () => {
  it("say of every going of a lot cut in this plan what it weighs, for what, and by when it must be used", () => {
    const { plan, scenario, writing, movements } = view;
    const { labels } = labelsData(view);
    expect(labels.length).toBeGreaterThan(20);
    const cut = plan.goings.flatMap((going, index) => (going.cutFor === null ? [] : [{ going, index }]));
    for (const { going } of cut) {
      const mine = cut.filter(
        ({ going: other }) =>
          other.part === going.part &&
          other.cutFor === going.cutFor &&
          other.dish === going.dish &&
          other.service === going.service,
      );
      const weight = total(mine.flatMap(({ index }) => movements.goings[index] ?? []));
      if (weight === 0n) continue;
      const label = labels.find(
        ({ name, forWhat, made }) =>
          name.toLowerCase() === going.part &&
          forWhat.toLowerCase().startsWith(`${going.dish}, ${going.service.toLowerCase()}`) &&
          made === writing.shortDate(going.cut ?? ""),
      );
      expect(label?.weight, `${going.part} in ${going.dish}`).toBe(writing.weight(weight));
      expect(label?.useBy).toBe(going.useBy === null ? "" : writing.shortDate(going.useBy));
      expect(label?.state).toBe(scenario.parts.find(({ name }) => name === going.part)?.state);
    }
  });

  it("number the containers of a lot, and label what is left of a dish with its own last day", () => {
    const { labels } = labelsData(view);
    for (const label of labels) expect(label.container).toMatch(/^(\d+) of \d+$/);
    const left = labels.filter(({ state }) => state === "cooked dish");
    expect(
      left.map(({ name, weight, forWhat, useBy }) => [name, plain(weight), plain(forWhat), plain(useBy)]),
    ).toEqual([
      [
        "Leek and squash soup",
        expect.stringMatching(/^12 portions, /),
        "Saturday lunch, Sat 10 Oct",
        "Sat 10 Oct",
      ],
    ]);
  });

  it("have none for what goes to waste", () => {
    const words = labelsData(view).labels.map(({ forWhat }) => forWhat.toLowerCase());
    expect(words.some((text) => text.startsWith("staff meal"))).toBe(true);
    expect(words.some((text) => /compost|refuse|wasted/.test(text))).toBe(false);
  });
});

describe("dishes by allergen", () => {
  it("show at every service each dish eaten there, what it holds, what it may hold, and what else it carries", () => {
    const scenario = {
      ...hallScenario,
      allergenList: "us nine" as const,
      dishes: hallScenario.dishes.map((dish) =>
        /frittata|slaw/i.test(dish.name) ? { ...dish, shares: ["mixer"] } : dish,
      ),
    };
    const { services, heads } = allergensData(viewOf(hallPlan, scenario));
    // FDA, FASTER Act: nine major food allergens.
    expect(heads).toEqual([
      "Milk",
      "Egg",
      "Fish",
      "Crustaceans",
      "Tree nuts",
      "Peanuts",
      "Wheat",
      "Soybeans",
      "Sesame",
    ]);
    const rows = services.flatMap(({ service, rows: each }) => each.map((row) => ({ service, ...row })));
    const eaten = hallPlan.dishes.flatMap(({ served }) => served.filter(({ portions }) => portions > 0));
    expect(rows).toHaveLength(eaten.length);
    const slaw = rows.find(({ dish }) => dish === "Stem slaw");
    expect(slaw?.cells.map(({ mark }) => mark).join("|")).toBe("|●|||||||");
    expect(slaw?.about).toContain("also mustard");
    expect(slaw?.about).toContain("shares mixer");
    const frittata = rows.find(({ dish }) => dish === "Leaf frittata");
    expect(frittata?.about).toContain("may also hold mustard");
    expect(frittata?.words).toMatch(/^Egg.*May contain: mustard/);
  });

  it("has a column for each of the fifteen names where both lists are asked for, and fourteen under the EU's", () => {
    const headsOf = (allergenList: "both" | "eu and uk fourteen") =>
      allergensData(viewOf(hallPlan, { ...hallScenario, allergenList })).heads;
    expect(headsOf("both")).toHaveLength(15);
    expect(headsOf("eu and uk fourteen")).toHaveLength(14);
    expect(headsOf("eu and uk fourteen")).toContain("Celery");
  });
});
