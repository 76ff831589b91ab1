import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, it } from "vitest";
import { crownTests } from "../support/own-tests.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

let served: Served | undefined;
afterEach(() => served?.close());

it("a plan is stale when the kitchen's yield tests change, and is asked for again", async () => {
  served = await serve({ "marrow.yaml": marrowBake() });
  await served.ask("marrow.yaml");
  expect(await served.settled("marrow.yaml")).toContain("The plan as JSON");
  writeFileSync(join(served.folder, "yield-tests.csv"), crownTests([1]));
  const changed = await served.settled("marrow.yaml");
  expect(changed).toContain("Not planned yet");
  expect(changed).not.toContain("The plan as JSON");
  writeFileSync(join(served.folder, "yield-tests.csv"), crownTests([1]).replace("stem,460", "stem,46"));
  expect(await served.settled("marrow.yaml")).toContain(
    "yield-tests.csv:2:50: broccoli (crown), florets: 414 g missing",
  );
});
