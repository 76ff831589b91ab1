import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Part } from "../../../src/kitchen/index.js";
import { WIDTH } from "../../../src/pages/flow/arrange.js";
import { drawn } from "../../../src/pages/flow/draw.js";
import { flowGraph } from "../../../src/pages/flow/graph.js";
import type { Layout, PlacedLabel } from "../../../src/pages/flow/layout.js";
import { flowPictures, TALLEST } from "../../../src/pages/flow/pictures.js";
import type { Flow } from "../../../src/pages/rounding.js";
import { isKind, type View, viewOf } from "../../../src/pages/view.js";
import { grams, milligrams, toGrams, total } from "../../../src/quantity/index.js";
import { hallPlan } from "../../support/fixtures/hall-plan.js";
import { hallScenario } from "../../support/fixtures/hall-scenario.js";

const SEED = 1858;
console.info(`picture properties: seed ${SEED}`);
const LINE_HEIGHT = 13;

interface Spec {
  readonly items: readonly (readonly { readonly goings: readonly number[]; readonly step: boolean }[])[];
}

/** Up to six items, each in up to six parts that go to dishes and ends, some by a further breakdown. */
const spec: fc.Arbitrary<Spec> = fc.record({
  items: fc.array(
    fc.array(
      fc.record({
        goings: fc.array(fc.integer({ min: 1, max: 6000 }), { minLength: 1, maxLength: 4 }),
        step: fc.boolean(),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    { minLength: 1, maxLength: 6 },
  ),
});

const ENDS = [
  "dish:leek and potato soup @ Friday dinner",
  "dish:pie @ Saturday lunch",
  "dish:slaw @ Saturday lunch",
  "wastedFood:compost",
  "inedible:compost",
  "givenAway:staff meal",
  "closingStock",
  "loss:cutting",
];

function viewFrom({ items }: Spec): View {
  const flows: Flow[] = [];
  const parts: Part[] = [];
  const [model] = hallScenario.parts;
  if (model === undefined) throw new Error("the hall has parts");
  items.forEach((branches, item) => {
    flows.push({ from: `item:vegetable ${item}`, to: "loss:cutting", weight: grams(String(3 + item)) });
    branches.forEach(({ goings, step }, branch) => {
      const name = `vegetable ${item} part ${branch}`;
      const weight = total(goings.map((each) => grams(String(each))));
      flows.push({ from: `item:vegetable ${item}`, to: `part:${name}`, weight });
      parts.push({ ...model, name, item: `vegetable ${item}` });
      const last = step ? `${name} peeled` : name;
      if (step) {
        flows.push({ from: `part:${name}`, to: `part:${last}`, weight });
        parts.push({ ...model, name: last, item: `vegetable ${item}` });
      }
      goings.forEach((each, index) => {
        const to = ENDS[(item * 3 + branch + index * 5) % ENDS.length] ?? "closingStock";
        flows.push({ from: `part:${last}`, to, weight: grams(String(each)) });
      });
    });
  });
  const dishes = flows.map(({ to }) => to).filter((to) => isKind(to, "dish"));
  for (const dish of new Set(dishes)) {
    flows.push({ from: "water", to: dish, weight: grams("150") });
    flows.push({ from: dish, to: "loss:cooking", weight: grams("90") });
  }
  flows.push({ from: "item:kept whole", to: "closingStock", weight: grams("800") });
  const [head] = hallScenario.items;
  if (head === undefined) throw new Error("the hall has items");
  const scenario = {
    ...hallScenario,
    items: [...items.map((_, item) => `vegetable ${item}`), "kept whole"].map((name) => ({
      ...head,
      name,
      breakdowns: [],
    })),
    parts,
    steps: [],
  };
  return { ...viewOf(hallPlan, hallScenario), scenario, movements: { flows, cuts: [], goings: [] } };
}

const hallView = viewOf(hallPlan, hallScenario);

const labelsOf = ({ bands, nodes, leavings }: Layout): PlacedLabel[] => [
  ...bands.map(({ label }) => label),
  ...nodes.flatMap(({ label }) => (label === null ? [] : [label])),
  ...leavings.map(({ label }) => label),
];

function boxOf({ anchor, x, top, width, lines }: PlacedLabel) {
  const left = anchor === "end" ? x - width : x;
  return { left, right: left + width, top, bottom: top + lines.length * LINE_HEIGHT };
}

function checkPictures(view: View): void {
  const { pictures, pointsPerGram } = flowPictures(view);
  const thick = (weight: bigint) => toGrams(milligrams(weight)).toNumber() * pointsPerGram;
  for (const { layout } of pictures) {
    const boxes = labelsOf(layout).map(boxOf);
    for (const { left, right, top, bottom } of boxes) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(WIDTH);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom).toBeLessThanOrEqual(layout.height);
    }
    boxes.forEach((a, index) => {
      for (const b of boxes.slice(index + 1)) {
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        expect(across > 0.01 && down > 0.01).toBe(false);
      }
    });
    for (const { band, width, points, label } of layout.bands) {
      expect(width).toBeCloseTo(thick(band.weight), 9);
      expect(width).toBeGreaterThan(0);
      const end = points.at(-1)?.y ?? 0;
      const { top, bottom } = boxOf(label);
      expect(end + width / 2).toBeGreaterThanOrEqual(top);
      expect(end - width / 2).toBeLessThanOrEqual(bottom + 1);
      const text = label.lines.join(" ");
      for (const { weight } of band.contents) expect(text).toContain(view.writing.weight(weight));
    }
    for (const { node } of layout.nodes.filter((each) => each.node.kind === "part")) {
      const into = layout.bands.filter(({ band }) => band.to === node.id);
      const out = layout.bands.filter(({ band }) => band.from === node.id);
      const widths = (bands: typeof into) => bands.reduce((sum, { width }) => sum + width, 0);
      expect(widths(into)).toBeCloseTo(widths(out), 6);
    }
    bandsDoNotMeetAtBars(layout);
  }
  everyFlowIsShownOnce(
    view,
    pictures.map(({ layout }) => layout),
  );
}

function bandsDoNotMeetAtBars({ bands }: Layout): void {
  const ends = bands.flatMap(({ points, width }) => {
    const first = points[0];
    const last = points.at(-1);
    return [first, last].flatMap((point) => (point === undefined ? [] : [{ ...point, width }]));
  });
  ends.forEach((a, index) => {
    for (const b of ends.slice(index + 1))
      if (Math.abs(a.x - b.x) < 1e-6)
        expect(Math.abs(a.y - b.y)).toBeGreaterThanOrEqual((a.width + b.width) / 2 - 1e-6);
  });
}

/** By what runs and where it ends, for gathered parts are drawn together. */
function everyFlowIsShownOnce(view: View, layouts: readonly Layout[]): void {
  const graph = flowGraph(view);
  const shown = layouts.flatMap(({ bands }) => bands.map(({ band }) => band));
  const into = (bands: readonly { to: string; weight: bigint }[], to: string) =>
    bands.filter((band) => band.to === to).reduce((sum, { weight }) => sum + weight, 0n);
  for (const { id, kind } of graph.nodes)
    if (kind === "dish" || kind === "end") expect(into(shown, id)).toBe(into(graph.bands, id));
  const names = new Set(shown.flatMap(({ contents }) => contents.flatMap((each) => each.names)));
  for (const { contents } of graph.bands)
    for (const name of contents.flatMap((each) => each.names)) expect(names).toContain(name);
  const leaving = (list: readonly { weight: bigint }[]) => list.reduce((sum, { weight }) => sum + weight, 0n);
  expect(leaving(layouts.flatMap(({ leavings }) => leavings.map((each) => each.leaving)))).toBe(
    leaving(graph.nodes.flatMap((node) => node.leaving)),
  );
}

describe("where every gram goes", () => {
  it("is drawn to one scale, labelled everywhere, with nothing hidden or overlapping: the hall", () => {
    checkPictures(hallView);
  });

  it("and the same for many invented flows", () => {
    fc.assert(
      fc.property(spec, (each) => checkPictures(viewFrom(each))),
      { seed: SEED, numRuns: 25 },
    );
  });

  it("is no taller than the paper", () => {
    for (const { layout } of flowPictures(hallView).pictures)
      expect(layout.height).toBeLessThanOrEqual(TALLEST);
  });

  it("gathers small parts of an item that share an end, and names each with its weight", () => {
    const branches = [5000, 20, 30, 10].map((weight, index) => ({ goings: [weight], step: false, index }));
    const view = viewFrom({ items: [branches] });
    const flows = view.movements.flows.map((flow) =>
      isKind(flow.from, "part") && flow.weight < grams("100") ? { ...flow, to: "inedible:compost" } : flow,
    );
    const { pictures } = flowPictures({ ...view, movements: { ...view.movements, flows } });
    const labels = pictures.flatMap(({ layout }) => layout.bands.map(({ label }) => label.lines.join(" ")));
    expect(labels).toContain("part 1 20\u00a0g, part 2 30\u00a0g, part 3 10\u00a0g");
    expect(labels).toContain("part 1 + part 2 + part 3 60\u00a0g");
  });

  it("parts an item between its branches where its labels alone outgrow a sheet", () => {
    const branches = Array.from({ length: 30 }, () => ({ goings: [700, 500, 300, 200], step: false }));
    const { pictures } = flowPictures(viewFrom({ items: [branches] }));
    expect(pictures.length).toBeGreaterThan(1);
    for (const { layout } of pictures) expect(layout.height).toBeLessThanOrEqual(TALLEST);
  });

  it("is drawn in figures that keep inside the picture, with each end's hatch", () => {
    const [picture] = flowPictures(hallView).pictures;
    if (picture === undefined) throw new Error("the hall has a picture");
    const svg = drawn(picture.layout, { id: "flow-1", name: "All", describes: "All", withPatterns: true });
    const wasted = svg.bands.filter(({ fate }) => fate === "wastedFood");
    expect(wasted.length).toBeGreaterThan(0);
    for (const { fill } of wasted) expect(fill).toBe("url(#hatch-wastedFood)");
    for (const { path } of svg.bands)
      for (const number of path.match(/-?\d+(\.\d+)?/g) ?? []) {
        expect(Number(number)).toBeGreaterThanOrEqual(0);
        expect(Number(number)).toBeLessThanOrEqual(Math.max(WIDTH, picture.layout.height));
      }
  });
});
