import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { scenarioJsonSchema } from "../../src/kitchen/index.js";
import { exampleNames, exampleText } from "../support/examples.js";

const schema = scenarioJsonSchema();
const editor = z.fromJSONSchema(schema);

/** The value as an editor sees it, YAML's own numbers, dates and words included. */
const seen = (name: string): Record<string, unknown> => parse(exampleText(name));

/** Every property of every object that the schema describes, as a dotted path. */
function properties(node: unknown, path: string): string[] {
  if (typeof node !== "object" || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => {
    if (key !== "properties" || typeof value !== "object" || value === null) return properties(value, path);
    return Object.entries(value).flatMap(([name, inner]) => [
      `${path}${name}`,
      ...properties(inner, `${path}${name}.`),
    ]);
  });
}

describe("the JSON Schema of a scenario file", () => {
  it("is of draft 2020-12 and closed: unknown keys are refused", () => {
    expect(schema).toMatchObject({
      $schema: "https://json-schema.org/draft/2020-12/schema",
      type: "object",
      additionalProperties: false,
      required: ["scenario", "currency", "services", "items", "dishes"],
    });
    expect(editor.safeParse({ ...seen("smallest"), nonsense: 1 }).success).toBe(false);
    expect(editor.safeParse({ ...seen("smallest"), currency: undefined }).success).toBe(false);
  });

  it.each(exampleNames())("takes the example %s as an editor sees it", (name) => {
    const { error } = editor.safeParse(seen(name));
    expect(error === undefined ? "" : z.prettifyError(error)).toBe("");
  });

  it("reaches every list and map of the file", () => {
    expect(properties(schema, "")).toEqual(
      expect.arrayContaining([
        "units.cup",
        "services.courses.dishes",
        "items.on_hand.use_by",
        "items.breakdowns.parts.class",
        "parts.keep.value",
        "steps.gives.percent",
        "dishes.lines.from.share",
        "dishes.staples.price",
        "destinations.local_rules_allow",
      ]),
    );
  });
});
