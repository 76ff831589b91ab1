import { type ReadValue, readBySchema, readYaml, type Source } from "../../reading/index.js";
import { type TestCardFile, testCardSchema } from "./schema.js";

export type ReadTestCard = ReadValue<TestCardFile>;

/** Whether a YAML text is a test card rather than a scenario: a test, or what was paid for it, stands at its top. */
export function isTestCard(text: string): boolean {
  return /^["']?(?:butchers_test|cooking_loss_test|ap_weight|ap_price)["']?[ \t]*:/m.test(text);
}

/** Reads a test card. Problems of form are reported here; whether it closes is checked by `checkTestCard`. */
export function readTestCard(source: Source): ReadTestCard {
  return readBySchema(testCardSchema, readYaml(source), {
    emptyRemedy: "Begin with `item:` and its name",
    standIns: { item: "unnamed", currency: "EUR", ap_weight: "1 kg", ap_price: "1 / kg" },
  });
}
