import { describe, expect, it } from "vitest";
import { NO_TABLES, problemsOf } from "../support/resolving.js";

interface Written {
  scale?: string;
  portions?: string;
  line?: string;
  service?: string;
  dish?: string;
}

const problems = ({
  scale = "5 g",
  portions = "10",
  line = "{amount: 0.2 g, from: zub leaf}",
  service = "{name: L, date: 2026-10-08}",
  dish = "",
}: Written): string[] =>
  problemsOf(
    `scenario: t
currency: EUR
scale_step: ${scale}
services:
  - ${service}
  - {name: M, date: 2026-10-09}
items:
  zub:
    price: 1.20 / bunch
    keeps: 5 days
    unit_weight: 100 g
    breakdowns: {all: {parts: {leaf: 40 g, stem: 30 g, bud: 30 g}, pieces: {bud: 30}}}
dishes:
  plate:
    portions: ${portions}
    services: [L, M]${dish}
    lines:
      - ${line}
`,
    NO_TABLES,
  );

describe("what all portions take of a line", () => {
  it("is a problem at its amount where it is less than the scale shows: ten leaves of 0.2 g are 2 g", () => {
    expect(problems({})).toEqual([
      "t.yaml:18:18: 10 portions take 2 g of it in all, and the scale shows 5 g. Write a larger amount, or `scale_step: 1 g`, or list it under `staples:`",
    ]);
  });

  it("is named with a scale that does show it: four pinches of 0.1 g are 0.4 g", () => {
    const line = "{amount: 0.1 g, from: zub leaf}";
    expect(problems({ scale: "1 g", portions: "4", line })).toEqual([
      "t.yaml:18:18: 4 portions take 0.4 g of it in all, and the scale shows 1 g. Write a larger amount, or `scale_step: 0.1 g`, or list it under `staples:`",
    ]);
  });

  it("is no problem where the most portions take a step: 25 of 0.2 g are 5 g, and 24 are not", () => {
    expect(problems({ portions: "1 to 25" })).toEqual([]);
    expect(problems({ portions: "1 to 24" })).toHaveLength(1);
  });

  it("counts the overage, and later services where the rest is offered again", () => {
    const service = "{name: L, date: 2026-10-08, overage: 25 %}";
    expect(problems({ portions: "20" })).toHaveLength(1);
    expect(problems({ portions: "20", service })).toEqual([]);
    expect(problems({ portions: "13" })).toHaveLength(1);
    expect(problems({ portions: "13", dish: "\n    keeps: 2 days" })).toEqual([]);
  });

  it("is what is weighed: raw, of the part that counts least for its weight, and not what is counted in pieces", () => {
    // 10 x 0.2 g cooked are 2 g, and 5 g raw where 0.4 is left of it; a gram that counts for 0.4 g likewise.
    const cooked = "{amount: 0.2 g cooked, from: zub leaf, cooking: {yield: 40 %}}";
    expect(problems({ line: cooked })).toEqual([]);
    const rated = "{amount: 0.2 g, from: {zub stem: {}, zub leaf: {rate: 0.4}}}";
    expect(problems({ line: rated })).toEqual([]);
    expect(problems({ line: "{amount: 1 piece, from: zub bud}", portions: "2" })).toEqual([]);
  });
});
