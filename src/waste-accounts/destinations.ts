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

export interface DestinationFacts {
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
