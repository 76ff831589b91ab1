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
      locale: leaf.locale.optional().describe("How figures are printed, a language tag; default en-GB"),
      currency: leaf.currency.describe("ISO 4217 code"),
      aim: choice(AIMS).optional().describe("What is least first; default waste"),
      waste_price: leaf.pricePerKilogram
        .optional()
        .describe("What a weight of waste counts for; needed for the balanced aim"),
      costing: choice(COSTINGS)
        .optional()
        .describe(
          "How parts share the cost of what they are cut from; default edible weight, by which food parts count alike. By `trim credit` by-products are credited with their `credit`, and the main part bears the rest; by `sales value` a part counts by its `credit`, which every food part needs",
        ),
      prices_include_tax: leaf.yesNo.optional().describe("Prices and ceilings alike; default no"),
      scale_step: leaf.scaleStep
        .optional()
        .describe(
          "The smallest weight the scale shows; default 1 g. What all portions take of a line must come to as much; where a plan chooses fewer portions, what is less than a step is given to the milligram",
        ),
      count_avoidable_peel: leaf.yesNo
        .optional()
        .describe("Of older files: `no` is read as `waste_counts: {avoidable_peel: 0 %}`"),
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
        .describe(
          "Whose rules of dates and temperatures bind: `us` (FDA Food Code 2022: 7 days, the default), `uk` (cook-chill guidelines: 5 days), `eu` (no number is law: 4 days as a caution), `france` (4 days), `australia` (with New Zealand; no number is law: 5 days as a caution). The day of preparation is day 1",
        ),
      allergen_list: choice(ALLERGEN_CHOICES)
        .optional()
        .describe("Which allergens guests are told of; default both"),
      units: keyed(
        {
          cup: leaf.cups
            .optional()
            .describe(
              "Which measures bare tsp, tbsp, fl oz, cup, pint, quart and gallon are; needed where one is written. A cup is 236.588 mL (`us`), 250 mL with a tablespoon of 15 mL (`metric`), or 240 mL (`us_label`)",
            ),
        },
        WRITE.keys("cup: us"),
      )
        .optional()
        .describe("Measures by volume, of staples"),
      limits: keyed(
        {
          chilled: leaf.weight
            .optional()
            .describe(
              "Most weight in the cold room after any service, the last one too: whole items, parts that are used or kept later, and portions that wait",
            ),
          frozen: leaf.weight
            .optional()
            .describe("Most weight of frozen parts after any service; they are not in the cold room"),
          hands: leaf.hours.optional().describe("Hands-on time before each service"),
          vessels: named(leaf.whole, WRITE.keys("tray: 6"))
            .optional()
            .describe(
              "Most batches cooked in each vessel for any one service: what the oven, the stove or the shelf holds",
            ),
        },
        WRITE.keys("chilled: 40 kg, hands: 6 h"),
      )
        .optional()
        .describe("What the kitchen has room and hands for; default: no limits"),
      services: z
        .array(serviceSchema(leaf), {
          error: () => WRITE.list("- {name: Friday dinner, date: 2026-10-02}"),
        })
        .describe("A list, in the order they are served"),
      items: named(item, WRITE.keys("marrow: {price: 1.35 / head}")).describe(
        "By name, as the yield tables call them, or with breakdowns of their own",
      ),
      suppliers: named(supplierSchema(leaf), WRITE.keys("Green Lane: {minimum: 40.00, delivery: 6.50}"))
        .optional()
        .describe("What a supplier asks for one delivery, by the name that items give it; default none"),
      parts: named(part, WRITE.keys("marrow ring: {keeps: 2 days}"))
        .optional()
        .describe("Facts about parts, by full name"),
      steps: named(step, WRITE.keys("dice the rings: {from: marrow ring}"))
        .optional()
        .describe("Further breakdowns of parts, by name; one of the same name replaces the tables'"),
      dishes: named(dishSchema(leaf), WRITE.keys("marrow bake: {course: main}")).describe("By name"),
      destinations: named(destinationSchema(leaf), WRITE.keys("compost: {kind: waste}"))
        .optional()
        .describe(
          "Where food nobody eats goes, by name. What no waste destination takes without limit goes to one called `refuse`, which is added",
        ),
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
        dishes: leaf.wholeRange
          .optional()
          .describe("How many different dishes are shown; default: any number"),
      },
      WRITE.keys("take_up: 90 %, dishes: 1 to 2"),
    ),
  ]);
  return keyed(
    {
      name: leaf.name.describe("Unlike the others"),
      date: leaf.date.describe("The day it is served"),
      sitting: leaf.name.optional().describe("breakfast, lunch, dinner or another word; default: the name"),
      at: leaf.clock
        .optional()
        .describe("When the first plate goes out: the order of work counts back from it"),
      cooks: leaf.people.optional().describe("People at work before it, for the order of work; default 1"),
      covers: leaf.whole.optional().describe("People expected; needed where there are courses"),
      overage: leaf.part
        .optional()
        .describe(
          "Portions that may be cooked over and above, to be given away; default 0 %. Only batches may leave wasted spare portions: a single one is not cooked to be thrown away",
        ),
      hands: leaf.hours.optional().describe("Hands-on time before it; default: `hands` of `limits`"),
      courses: named(course, WRITE.keys("main: 100 %"))
        .optional()
        .describe("How many covers take one, by course; portions are covers x take-up, rounded up"),
      diets: named(leaf.whole, WRITE.keys("vegetarian: 14"))
        .optional()
        .describe(
          'Covers that need each diet, or all of those joined by "and", each person counted once. Each entry needs a dish offered there that is fit for it, and in every course all of them together get portions of their own, by its take-up',
        ),
    },
    WRITE.keys("name: Friday dinner, date: 2026-10-02"),
  );
}

function supplierSchema(leaf: Leaves) {
  return keyed(
    {
      minimum: leaf.money
        .optional()
        .describe(
          "The least that the goods of one delivery may cost, where anything is ordered at all; default none",
        ),
      delivery: leaf.money
        .optional()
        .describe("Charged for each delivery, and shared by cost among what comes with it; default nothing"),
    },
    WRITE.keys("minimum: 40.00, delivery: 6.50"),
  );
}

function destinationSchema(leaf: Leaves) {
  return keyed(
    {
      kind: choice(DESTINATION_KINDS).describe(
        "What becomes of it. `refuse` is left or dumped; `waste` is carted away, nobody says where to: the waste account has it as not known",
      ),
      takes: oneOrMore(choice(TAKEN), WRITE.list("[food, portions]"))
        .optional()
        .describe(
          "Default: all three for waste, food and portions given away, food and inedible for animal feed. Inedible parts are not given to people",
        ),
      limit: leaf.weight
        .optional()
        .describe(
          "Most weight over the whole plan: portions at what they weigh, and of given parts that a step made the weight before working; default none",
        ),
      local_rules_allow: leaf.text
        .optional()
        .describe("The rule or notice that allows animal feed in this place; it is refused without"),
    },
    WRITE.keys("kind: waste"),
  );
}
