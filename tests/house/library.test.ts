import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import * as library from "../../src/index.js";

it("the library exports what the page on the plan as JSON promises, and nothing else", () => {
  const page = readFileSync(new URL("../../docs/reference/plan.md", import.meta.url), "utf8");
  const promise = /^As a library: (.*)$/m.exec(page)?.[1] ?? "";
  const promised = [...promise.matchAll(/`(\w+)`/g)].map(([, name]) => name);
  expect(promised).toContain("planScenario");
  expect(Object.keys(library).sort()).toEqual(promised.sort());
});
