import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import * as library from "../../src/index.js";

it("the library exports what the README promises, and nothing else", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  const promise = /^As a library: (.*)$/m.exec(readme)?.[1] ?? "";
  const promised = [...promise.matchAll(/`(\w+)`/g)].map(([, name]) => name);
  expect(promised).toContain("planScenario");
  expect(Object.keys(library).sort()).toEqual(promised.sort());
});
