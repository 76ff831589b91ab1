import type { DestinationKind } from "../kitchen/index.js";

/**
 * The ten destinations of the Food Loss and Waste Standard, most preferred by the US EPA's scale first; and, where a
 * kitchen does not say what becomes of its waste, that it is not known.
 */
export const FLW_DESTINATIONS = [
  "animal feed",
  "not harvested",
  "biomaterial",
  "anaerobic digestion",
  "compost",
  "land application",
  "landfill",
  "controlled combustion",
  "refuse",
  "sewer",
  "not known",
] as const;
export type FlwDestination = (typeof FLW_DESTINATIONS)[number];

interface DestinationFacts {
  /** Its name in the Standard. */
  readonly name: string;
  /** Tier of the US EPA Wasted Food Scale, 1 the most preferred; null where the scale has no such pathway. */
  readonly tier: number | null;
  /** As the scale calls it. */
  readonly pathway: string;
  readonly basis: "read" | "memory";
}

/**
 * Names: Food Loss and Waste Accounting and Reporting Standard 1.0 (WRI, 2016), its scope template and list of
 * terms. Tiers: US EPA, Wasted Food Scale (2023); the first three and the last were read, the others are from
 * memory. Pathways of one tier rank alike.
 */
export const DESTINATION_FACTS: Readonly<Record<FlwDestination, DestinationFacts>> = {
  "animal feed": { name: "Animal feed", tier: 3, pathway: "feed animals", basis: "read" },
  "not harvested": {
    name: "Not harvested / plowed-in",
    tier: 3,
    pathway: "leave unharvested",
    basis: "read",
  },
  biomaterial: {
    name: "Bio-based materials / biochemical processing",
    tier: null,
    pathway: "not on the scale",
    basis: "read",
  },
  "anaerobic digestion": {
    name: "Codigestion / anaerobic digestion",
    tier: 4,
    pathway: "anaerobic digestion, what is left of it put to use (else tier 5)",
    basis: "memory",
  },
  compost: { name: "Composting / aerobic processes", tier: 4, pathway: "compost", basis: "memory" },
  "land application": { name: "Land application", tier: 5, pathway: "apply to the land", basis: "memory" },
  landfill: { name: "Landfill", tier: 6, pathway: "landfill", basis: "read" },
  "controlled combustion": { name: "Controlled combustion", tier: 6, pathway: "incinerate", basis: "read" },
  refuse: { name: "Refuse / discards / litter", tier: null, pathway: "not on the scale", basis: "memory" },
  sewer: { name: "Sewer / wastewater treatment", tier: 6, pathway: "send down the drain", basis: "read" },
  "not known": { name: "Not known", tier: null, pathway: "ask who carts it away", basis: "memory" },
};

/** Where a scenario's destination leads; null for what people eat. */
export const DESTINATION_OF_KIND: Readonly<Record<DestinationKind, FlwDestination | null>> = {
  "given away": null,
  "animal feed": "animal feed",
  biomaterial: "biomaterial",
  "anaerobic digestion": "anaerobic digestion",
  compost: "compost",
  "controlled combustion": "controlled combustion",
  "land application": "land application",
  landfill: "landfill",
  refuse: "refuse",
  sewer: "sewer",
  waste: "not known",
};

export const COUNTS = ["flw", "unep", "eu", "us"] as const;
/** Whose definition of what is waste. */
export type Count = (typeof COUNTS)[number];

interface CountingRule {
  readonly name: string;
  /** Destinations that make weight waste. */
  readonly counts: readonly FlwDestination[];
  /** Why the others are left out. */
  readonly leavesOut: Readonly<Partial<Record<FlwDestination, string>>>;
  readonly source: string;
  readonly basis: "read" | "memory";
}

const EVERY_OTHER_THAN = (...left: readonly FlwDestination[]): FlwDestination[] =>
  FLW_DESTINATIONS.filter((destination) => !left.includes(destination));

/** All count food and its inedible parts together; they differ in what becomes of them. */
export const COUNTING_RULES: Readonly<Record<Count, CountingRule>> = {
  flw: {
    name: "Food Loss and Waste Standard, all destinations",
    counts: FLW_DESTINATIONS,
    leavesOut: {},
    source:
      "Food Loss and Waste Accounting and Reporting Standard 1.0 (WRI, 2016): scope of ten destinations",
    basis: "read",
  },
  unep: {
    name: "UNEP Food Waste Index (SDG 12.3)",
    counts: EVERY_OTHER_THAN("animal feed", "biomaterial", "not harvested"),
    leavesOut: {
      "animal feed": "fed to animals, so not removed from use",
      biomaterial: "made into materials, so not removed from use",
      "not harvested": "not in the sectors of the index (retail, food service, households)",
    },
    source: "UNEP, Food Waste Index Report 2024, definitions",
    basis: "read",
  },
  eu: {
    name: "EU food waste",
    counts: EVERY_OTHER_THAN("animal feed", "biomaterial", "not harvested", "sewer"),
    leavesOut: {
      "animal feed": "not waste under Directive 2008/98/EC",
      biomaterial: "a by-product put to use is not waste",
      "not harvested": "before the harvest it is not food",
      sewer: "food drained with waste water is reported of one's own will only",
    },
    source: "Delegated Decision (EU) 2019/1597 with Directive 2008/98/EC; what is left out is from memory",
    basis: "memory",
  },
  us: {
    name: "US 2030 food loss and waste goal (EPA)",
    counts: EVERY_OTHER_THAN("animal feed", "biomaterial", "not harvested", "refuse"),
    leavesOut: {
      "animal feed": "a preferred pathway of the Wasted Food Scale, not loss",
      biomaterial: "not counted towards the goal",
      "not harvested": "not counted towards the goal",
      refuse: "the goal counts landfill, combustion, sewer, digestion, compost and land application",
    },
    source: "US EPA, 2030 Food Loss and Waste Reduction Goal, from memory",
    basis: "memory",
  },
};
