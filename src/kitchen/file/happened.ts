import type { z } from "zod";
import { keyed, named, type ReadValue, readBySchema, readYaml, type Source } from "../../reading/index.js";
import { leaves, oneOrMore } from "./leaves.js";
import { WRITE } from "./wording.js";

/** What has happened since a plan was made: what came, what came out, and who comes. */
export type HappenedFile = z.output<ReturnType<typeof happenedSchema>>;

/** The schema of a file of what happened. */
export function happenedSchema() {
  const leaf = leaves(null);
  return keyed(
    {
      before: leaf.name.describe("The first service that is not yet cooked for"),
      delivered: named(leaf.whole, WRITE.keys("broccoli: 22"))
        .optional()
        .describe("Order units that came up to that service, where not as planned"),
      cut: named(
        named(leaf.weight, WRITE.keys("broccoli stem: 1.1 kg")),
        WRITE.keys("Friday dinner: {broccoli stem: 1.1 kg}"),
      )
        .optional()
        .describe("What the cuts before a service gave of a part, where not as planned"),
      covers: named(leaf.whole, WRITE.keys("Saturday dinner: 72"))
        .optional()
        .describe("People expected now, by service"),
      can_buy: oneOrMore(leaf.name, WRITE.list("[broccoli]"))
        .optional()
        .describe(
          "Items that can still be bought before that service; default: those delivered that very day, unless they came short",
        ),
    },
    WRITE.keys("before: Saturday lunch"),
  );
}

/** Reads a file of what happened. Problems of form are reported here; names are checked against the plan. */
export function readHappened(source: Source): ReadValue<HappenedFile> {
  return readBySchema(happenedSchema(), readYaml(source), {
    emptyRemedy: "Begin with `before:` and the first service not yet cooked for",
    standIns: { before: "" },
  });
}
