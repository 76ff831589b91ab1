import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { exampleText } from "../support/examples.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

let served: Served;
beforeAll(async () => {
  served = await serve({ "two.yaml": exampleText("two-forms"), "bake.yaml": marrowBake() });
});
afterAll(() => served.close());

async function compared(fields: Record<string, string>, name = "two.yaml") {
  const { status, text } = await served.sent(`${name}/forms`, fields);
  return { status, text: text.replace(/\s+/g, " ") };
}

describe("which form to buy, served", () => {
  it("is offered where a scenario buys two forms of one item, and only there", async () => {
    expect((await served.get("/scenario/two.yaml/")).text).toContain(
      '<option value="broccoli">broccoli</option>',
    );
    expect((await served.get("/scenario/bake.yaml/")).text).not.toContain('action="forms"');
  });

  it("is a page with the forms by usable weight and by plans", async () => {
    const { status, text } = await compared({ item: "broccoli", wage: "14.00 / h" });
    expect(status).toBe(200);
    expect(text).toContain("<h1>Which form to buy</h1>");
    expect(text).toContain("hands at €14.00 an hour");
    expect(text).toMatch(/Crown: alone, it costs less than the best other form below €\d\.\d\d a crown/);
    expect(text).toContain('href="/assets/style.css"');
  });

  it("says what cannot be compared", async () => {
    expect(await compared({ item: "marrow" }, "bake.yaml")).toMatchObject({
      status: 400,
      text: expect.stringContaining("buys no two forms of that"),
    });
    expect(await compared({ item: "broccoli", wage: "<b>" })).toMatchObject({
      status: 400,
      text: expect.stringContaining(
        "&quot;&lt;b&gt;&quot; cannot be read. Write a wage for an hour, such as 14.00 / h.",
      ),
    });
  });
});
