import { z } from "zod";
import type { CupSystem } from "../../quantity/index.js";
import { keyed, named } from "../../reading/index.js";
import { COSTINGS } from "../costing.js";
import { DESTINATION_KINDS } from "../destinations.js";
import { ALLERGEN_CHOICES, RULES_OF } from "../scenario.js";
import { dishSchema } from "./dishes.js";
import { ingredientSchemas } from "./items.js";
import { choice, type Leaves, leaves, oneOrMore } from "./leaves.js";
import { WRITE } from "./wording.js";

const AIMS = ["waste", "cost", "balanced"] as const;
const TAKEN = ["food", "inedible", "portions"] as const;

/** A scenario as the file states it: every figure read, no name looked up, no default filled in. */
export type ScenarioFile = z.output<ReturnType<typeof scenarioFileSchema>>;

/** The schema of a scenario file. `cups` is the system that its bare cups and spoons are measured in. */
export function scenarioFileSchema(cups: CupSystem | null) {
  const leaf = leaves(cups);
  const { item, part, step } = ingredientSchemas(leaf);
  return keyed(
    {
      scenario: leaf.name.describe("Its name"),
      invented: leaf.yesNo.optional().describe("A note for readers"),
      locale: leaf.locale.optional().describe("How figures are written; default en-GB"),
      currency: leaf.currency.describe("ISO 4217 code"),
      aim: choice(AIMS).optional().describe("What is least first; default waste"),
      waste_price: leaf.pricePerKilogram.optional().describe("What waste counts for in the balanced aim"),
      costing: choice(COSTINGS).optional().describe("Default edible weight"),
      prices_include_tax: leaf.yesNo.optional().describe("Prices and ceilings alike; default no"),
      scale_step: leaf.scaleStep.optional().describe("The smallest weight the scale shows; default 1 g"),
      count_avoidable_peel: leaf.yesNo.optional().describe("no: waste_counts: {avoidable_peel: 0 %}"),
      waste_counts: keyed(
        {
          avoidable_peel: leaf.part.optional().describe("Default 100 %"),
          unused_usable: leaf.part.optional().describe("Default 0 %"),
          given_away: leaf.part.optional().describe("Default 0 %"),
        },
        WRITE.keys("avoidable_peel: 100 %, unused_usable: 25 %"),
      )
        .optional()
        .describe("At what part of its weight each counts as waste in the aim"),
      vulnerable_diners: leaf.yesNo.optional().describe("Blocks raw egg and raw sprouts; default no"),
      rules: choice(RULES_OF)
        .optional()
        .describe("Whose rules of dates and temperatures bind; default us, the FDA Food Code"),
      allergen_list: choice(ALLERGEN_CHOICES)
        .optional()
        .describe("Which allergens guests are told of; default both"),
      units: keyed({ cup: leaf.cups.optional() }, WRITE.keys("cup: us")).optional(),
      limits: keyed(
        {
          chilled: leaf.weight.optional(),
          frozen: leaf.weight.optional(),
          hands: leaf.hours.optional(),
          vessels: named(leaf.whole, WRITE.keys("tray: 6"))
            .optional()
            .describe("Most batches cooked in each vessel for one service"),
        },
        WRITE.keys("chilled: 40 kg, hands: 6 h"),
      ).optional(),
      services: z.array(serviceSchema(leaf), {
        error: () => WRITE.list("- {name: Friday dinner, date: 2026-10-02}"),
      }),
      items: named(item, WRITE.keys("marrow: {price: 1.35 / head}")),
      suppliers: named(supplierSchema(leaf), WRITE.keys("Green Lane: {minimum: 40.00, delivery: 6.50}"))
        .optional()
        .describe("What suppliers ask for one delivery, by the names that items give them"),
      parts: named(part, WRITE.keys("marrow ring: {keeps: 2 days}")).optional(),
      steps: named(step, WRITE.keys("dice the rings: {from: marrow ring}")).optional(),
      dishes: named(dishSchema(leaf), WRITE.keys("marrow bake: {course: main}")),
      destinations: named(destinationSchema(leaf), WRITE.keys("compost: {kind: waste}"))
        .optional()
        .describe("Default: one called refuse that takes everything"),
    },
    WRITE.keys("scenario: Two dishes of one marrow"),
  );
}

function serviceSchema(leaf: Leaves) {
  const course = z.union([
    leaf.part,
    keyed(
      {
        take_up: leaf.part.optional().describe("Part of the covers that take one; default 100 %"),
        dishes: leaf.wholeRange.optional().describe("How many different dishes are shown"),
      },
      WRITE.keys("take_up: 90 %, dishes: 1 to 2"),
    ),
  ]);
  return keyed(
    {
      name: leaf.name,
      date: leaf.date,
      sitting: leaf.name.optional().describe("breakfast, lunch, dinner or another word; default: the name"),
      at: leaf.clock.optional().describe("When the first plate goes out, for the order of work"),
      cooks: leaf.people.optional().describe("People at work before it; default 1"),
      covers: leaf.whole.optional().describe("People expected; needed where there are courses"),
      overage: leaf.part.optional().describe("Portions cooked over and above; default 0 %"),
      hands: leaf.hours.optional().describe("Hands-on time before it; default: the scenario's limit"),
      courses: named(course, WRITE.keys("main: 100 %")).optional(),
      diets: named(leaf.whole, WRITE.keys("vegetarian: 14"))
        .optional()
        .describe('Covers that need each diet, or all of those joined by "and"; each of them counted once'),
    },
    WRITE.keys("name: Friday dinner, date: 2026-10-02"),
  );
}

function supplierSchema(leaf: Leaves) {
  return keyed(
    {
      minimum: leaf.money.optional().describe("Least worth of goods in one delivery; default none"),
      delivery: leaf.money.optional().describe("Charged for each delivery; default nothing"),
    },
    WRITE.keys("minimum: 40.00, delivery: 6.50"),
  );
}

function destinationSchema(leaf: Leaves) {
  return keyed(
    {
      kind: choice(DESTINATION_KINDS),
      takes: oneOrMore(choice(TAKEN), WRITE.list("[food, portions]"))
        .optional()
        .describe(
          "Default: all three for waste, food and portions given away, food and inedible for animal feed",
        ),
      limit: leaf.weight.optional().describe("Most weight over the whole plan"),
      local_rules_allow: leaf.text.optional().describe("What allows animal feed here; it is blocked without"),
    },
    WRITE.keys("kind: waste"),
  );
}
