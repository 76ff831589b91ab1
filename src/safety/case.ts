/** One rule of safety: where the program acts on it, what tests it, who says so. */
export interface SafetyRule {
  readonly id: string;
  /** What the program does. */
  readonly rule: string;
  /** Files of src/ and the function in each that acts. */
  readonly acts: readonly { readonly file: string; readonly name: string }[];
  /** Files of tests/. */
  readonly tests: readonly string[];
  readonly source: string;
  /** Codes of the findings it gives, as in the plan's warnings. */
  readonly codes: readonly string[];
}

const act = (file: string, name: string) => ({ file, name });

/** Every rule of safety the program keeps; tables of hazards, dates and temperatures stand beside. */
export const SAFETY_RULES: readonly SafetyRule[] = [
  {
    id: "Never food",
    rule: "A part of the table of hazards that must never be eaten is refused as food: in scenarios, by own class, by own yield tests, as a staple, on hand, kept, or made into food by a step. Nothing overrides it.",
    acts: [
      act("safety/check-hazards.ts", "neverFood"),
      act("safety/hazards/match.ts", "hazardsOf"),
      act("kitchen-files/safety-problems.ts", "safetyProblems"),
      act("planning/plan.ts", "refuseBlocked"),
      act("yields/own-tests/read-tests.ts", "disagreementsWithTables"),
    ],
    tests: [
      "safety/hazard-table.test.ts",
      "safety/names.test.ts",
      "safety/names-written-blind.test.ts",
      "safety/own-tests.test.ts",
      "safety/check.test.ts",
    ],
    source: "the authority of each row of the table of hazards",
    codes: ["never-food"],
  },
  {
    id: "Only if treated",
    rule: "A part that is food only after a treatment demands that the dish declares it, however its parts are called or kept; it is printed as a critical step on the dish sheet.",
    acts: [
      act("safety/check-hazards.ts", "untreated"),
      act("safety/check-hazards.ts", "criticalSteps"),
      act("safety/treatments.ts", "isTreated"),
    ],
    tests: ["safety/hazard-table.test.ts", "safety/treatments.test.ts", "safety/check.test.ts"],
    source: "the authority of each row of the table of hazards",
    codes: ["treatment-needed", "critical-step"],
  },
  {
    id: "Caution",
    rule: "A part with a caution prints it.",
    acts: [act("safety/check-hazards.ts", "cautions")],
    tests: ["safety/hazard-table.test.ts"],
    source: "the authority of each row of the table of hazards",
    codes: ["caution"],
  },
  {
    id: "Unknown parts",
    rule: "A part used as food that no table knows as food is refused until someone in the kitchen answers for it; then it is printed as the kitchen's own word.",
    acts: [act("safety/check-unknown.ts", "unknownParts"), act("safety/check-unknown.ts", "statedParts")],
    tests: ["safety/check.test.ts"],
    source: "caution of this program",
    codes: ["unknown-part", "stated-food"],
  },
  {
    id: "Food that needs temperature control",
    rule: "Cut melon, leafy greens and tomato, raw sprouts, food in oil, cooked food and what is made of it, food of animals and mixtures are taken to need temperature control once cut, cooked or mixed.",
    acts: [
      act("safety/tcs.ts", "tcsOf"),
      act("safety/of-animals.ts", "animalKindsIn"),
      act("scenario/parts.ts", "spreadCooked"),
      act("scenario/items.ts", "isMilder"),
    ],
    tests: ["safety/life.test.ts", "safety/ways-round.test.ts"],
    source: "FDA Food Code 1-201.10",
    codes: [],
  },
  {
    id: "Last day of a part",
    rule: "No part goes into a dish after the earlier of its quality life and its legal date; a part cut from a part, and a mixture, take the date of the oldest source that bears a legal date; freezing stops the clock and does not set it back.",
    acts: [
      act("safety/life.ts", "lastUseDay"),
      act("allocation/lot-graph.ts", "usableAt"),
      act("allocation/verify/closing.ts", "dateFaults"),
      act("safety/check-dates.ts", "dateWarnings"),
    ],
    tests: ["safety/life.test.ts", "safety/random-plans.test.ts", "allocation/random-scenarios.test.ts"],
    source: "FDA Food Code 3-501.17 and 3-501.18; the table of dates",
    codes: ["date-mark", "frozen-on-hand", "no-use-by", "use-by-too-late"],
  },
  {
    id: "Last day of what is left of a dish",
    rule: "What is left of a dish is offered no later than its own life, the legal date from the day it was cooked, and that of the oldest part in it that bears one.",
    acts: [
      act("safety/life.ts", "lastOfferDay"),
      act("allocation/formulate/dishes.ts", "addOffering"),
      act("allocation/verify/serving.ts", "cookingFaults"),
    ],
    tests: ["safety/life.test.ts", "allocation/families.test.ts", "safety/random-plans.test.ts"],
    source: "FDA Food Code 3-501.17(D); the table of dates",
    codes: [],
  },
  {
    id: "Holding, cooling, reheating",
    rule: "Every dish sheet prints the limits of hot and cold holding, cooling and reheating of the rules that bind.",
    acts: [act("safety/holding.ts", "holdingLines"), act("pages/dishes.ts", "dishesData")],
    tests: ["safety/holding.test.ts", "pages/sheets.test.ts"],
    source: "the table of limits",
    codes: [],
  },
  {
    id: "Raw egg",
    rule: "Raw or lightly cooked egg prints an advisory, is asked about in dishes usually made with it, and is refused where people who fall ill easily are fed.",
    acts: [act("safety/check-egg.ts", "eggBlocks"), act("safety/check-egg.ts", "eggAdvice")],
    tests: ["safety/check.test.ts"],
    source: "FDA Food Code 3-302.13 and 3-801.11",
    codes: ["raw-egg"],
  },
  {
    id: "People who fall ill easily",
    rule: "One switch holds every row to its stricter rule: raw sprouts and raw egg are refused.",
    acts: [act("safety/check-hazards.ts", "ruleFor")],
    tests: ["safety/hazard-table.test.ts", "safety/check.test.ts"],
    source: "FDA Food Code 3-801.11",
    codes: [],
  },
  {
    id: "Allergens carried",
    rule: "Allergens go from items through parts, stock and leftovers into dishes, labels and services, declared or by name; what an own list leaves out is still printed.",
    acts: [
      act("safety/carry.ts", "allergensOfDish"),
      act("safety/carry.ts", "allergensOfPart"),
      act("safety/check-allergens.ts", "undeclared"),
      act("pages/allergens.ts", "allergensData"),
      act("pages/labels.ts", "labelsData"),
    ],
    tests: ["safety/allergens.test.ts", "safety/random-plans.test.ts", "pages/safety-sheets.test.ts"],
    source: "US FASTER Act list of nine; Regulation (EU) 1169/2011 Annex II",
    codes: ["allergen-undeclared"],
  },
  {
    id: "May contain",
    rule: "A dish may contain what labels warn of and what dishes on shared equipment hold; neither is fit for a guest who must do without it.",
    acts: [act("safety/carry.ts", "mayContain"), act("safety/check-allergens.ts", "falseClaims")],
    tests: ["safety/allergens.test.ts", "pages/safety-sheets.test.ts"],
    source: "caution of this program; the laws of the lists",
    codes: ["allergen-claim"],
  },
  {
    id: "Vegan and vegetarian",
    rule: "A dish said to be vegan or vegetarian that holds meat or fish, or, where vegan, milk or egg, is refused. Traces are no matter to this claim; who must do without an allergen needs a diet that names it.",
    acts: [act("safety/check-diets.ts", "falseDiets")],
    tests: ["safety/diets.test.ts"],
    source: "ISO 23662:2021, from memory; Food Standards Agency (UK), from memory",
    codes: ["diet-claim"],
  },
];

/** What the program does not judge: said on the page, so that nobody takes silence for safety. */
export const NOT_JUDGED: readonly string[] = [
  "Whether what was delivered is what its name says, sound, clean and fresh: look, smell, and send it back.",
  "Whether a treatment, a temperature or a time was really kept: that is measured and signed in the kitchen.",
  "Plants and fungi that are foraged: a name in a file is no determination of a species.",
  "Parts and names its tables do not hold. That a part is not refused does not make it safe.",
  "Shelf life of vacuum-packed, fermented, cured, smoked and preserved food, and of sous-vide cooking: these need an approved plan.",
  "How much of a warned part one person may eat, and illnesses, medicines and ages of guests.",
  "Hygiene, pests, water, cleaning, and allergens on hands and in the air.",
  "Local codes and permits. Date rules and limits marked from memory must be read in the code that binds.",
];
