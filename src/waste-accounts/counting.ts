import { FLW_DESTINATIONS, type FlwDestination } from "./destinations.js";

export const COUNTS = ["flw", "unep", "eu", "us"] as const;
/** Whose definition of what is waste. */
export type Count = (typeof COUNTS)[number];

export interface CountingRule {
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
